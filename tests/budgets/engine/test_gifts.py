"""Hours, miles, nights and meals, tax and other money: the numbers behind a gift and a trip."""

from __future__ import annotations

from datetime import date, time, timedelta
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine.dated import Dated, NoFact
from budgets.engine.foreign import Foreign, NotForeign, from_words, in_words
from budgets.engine.gifts import (
    Line,
    NoDiscount,
    NotLater,
    by_date,
    discount,
    gift_value,
    hundredths_between,
    overlaps,
    proven,
    too_long,
)
from budgets.engine.money import NegativeMoney
from budgets.engine.tax import item_by_item, tax_check, tax_on, whole_invoice
from budgets.engine.travel import (
    EndsBeforeItStarts,
    Leg,
    Tier,
    TooLong,
    away,
    day_allowance,
    edge_day,
    mileage,
)
from budgets.facts import shipped

DAY = date(2031, 3, 1)
QUANTITY = st.integers(min_value=0, max_value=10_000_000)
CENTS = st.integers(min_value=0, max_value=1_000_000)
TIMES = st.times().map(lambda at: at.replace(second=0, microsecond=0))
TIER = Tier(night=110_00, meals=68_00, incidentals=5_00)


def line(key: str, person: str = "Ida", hundredths: int = 300, **more) -> Line:
    return Line(key=key, person=person, day=more.pop("day", DAY), hundredths=hundredths, **more)


# Hours


@given(starts=TIMES, ends=TIMES)
def test_a_span_and_its_rest_make_a_whole(starts, ends):
    if ends <= starts:
        with pytest.raises(NotLater):
            hundredths_between(starts, ends)
    else:
        minutes = (ends.hour - starts.hour) * 60 + ends.minute - starts.minute
        assert abs(hundredths_between(starts, ends) * 60 - minutes * 100) <= 30


@given(hundredths=QUANTITY, rate=CENTS)
def test_a_gift_is_within_half_a_cent_of_the_exact_product(hundredths, rate):
    off = Fraction(hundredths * rate, 100) - gift_value(hundredths, rate)
    assert Fraction(-1, 2) <= off < Fraction(1, 2)


def test_half_a_cent_goes_up():
    assert (gift_value(50, 1), gift_value(49, 1), gift_value(150, 25)) == (1, 0, 38)


def test_a_quantity_below_zero_is_refused():
    with pytest.raises(NegativeMoney):
        gift_value(-1, 100)


def test_no_discount_is_no_gift():
    assert discount(100_00, 99_99) == 1
    for paid in (100_00, 120_00):
        with pytest.raises(NoDiscount):
            discount(100_00, paid)


def test_one_person_is_not_in_two_places_at_once():
    morning = line("1", starts=time(9), ends=time(12))
    inside = line("2", "  ida", starts=time(10), ends=time(11))
    after = line("3", starts=time(12), ends=time(13))
    late = line("4", starts=time(11, 30), ends=time(12, 30))
    assert overlaps([morning, after]) == []
    assert overlaps([morning, inside]) == [("1", "2")]
    assert overlaps([morning, inside, late]) == [("1", "2"), ("1", "4")]
    assert overlaps([morning, line("5", "Jo", starts=time(9), ends=time(12))]) == []


def test_nobody_works_more_than_a_day_in_a_day():
    lines = [line("1", hundredths=12_00), line("2", hundredths=12_00), line("3", hundredths=1)]
    assert too_long(lines) == ["3"]
    assert too_long([lines[0], line("4", "Jo", 13_00)]) == []


@given(cents=CENTS, hours=st.lists(st.tuples(st.integers(1, 2400), st.booleans()), max_size=6))
def test_signed_lines_never_prove_more_than_the_sheet(cents, hours):
    lines = [
        line(str(at), hundredths=count, signed=signed) for at, (count, signed) in enumerate(hours)
    ]
    found = proven(cents, lines)
    assert 0 <= found <= cents
    if lines and all(each.signed for each in lines):
        assert found == cents


# Rates by date


def test_mid_year_mileage_split():
    """IRS Announcement 2022-13: 58.5 cents to 30 June 2022, 62.5 cents from 1 July."""
    legs = [Leg(day=date(2022, 6, 30), hundredths=100_00)]
    legs.append(Leg(day=date(2022, 7, 1), hundredths=100_00))
    found = mileage(legs, shipped())
    assert [part.cents for part in found.parts] == [58_50, 62_50]
    assert found.cents == 121_00


def test_the_day_of_the_trip_decides_and_not_the_order_of_the_list():
    legs = [Leg(day=date(2022, 9, 1), hundredths=1_00), Leg(day=date(2022, 1, 5), hundredths=3_00)]
    assert mileage(legs, shipped()).cents == mileage(legs[::-1], shipped()).cents == 239


def test_a_trip_after_the_last_known_rate_takes_it_and_says_so():
    found = mileage([Leg(day=date(2099, 1, 1), hundredths=1_00)], shipped())
    assert not found.parts[0].current


def test_a_trip_before_all_rates_is_refused():
    with pytest.raises(NoFact):
        mileage([Leg(day=date(1999, 1, 1), hundredths=1_00)], shipped())


def test_a_volunteers_driving_is_fourteen_cents_whatever_the_year():
    """26 U.S.C. 170(i)."""
    days = [date(2016, 5, 1), date(2022, 7, 1), date(2026, 2, 1)]
    found = mileage([Leg(day=day, hundredths=10_00) for day in days], shipped(), "mile_charity")
    assert found.cents == 4_20


@given(
    quantities=st.lists(
        st.tuples(st.dates(date(2031, 1, 1), date(2032, 12, 31)), st.integers(0, 100_000)),
        max_size=8,
    )
)
def test_what_falls_under_each_rate_adds_up_to_the_whole(quantities):
    rates = [
        Dated(name="hour", value=Decimal("34.79"), start=date(2031, 1, 1),
              end=date(2031, 12, 31), source="a"),
        Dated(name="hour", value=Decimal("35.10"), start=date(2032, 1, 1), end=None, source="b"),
    ]  # fmt: skip
    found = by_date(quantities, rates, "hour")
    assert found.hundredths == sum(count for _, count in quantities)
    exact = sum(
        Fraction(rate.value) * count
        for rate in rates
        for day, count in quantities
        if rate.holds_on(day)
    )
    assert abs(exact - found.cents) <= 1


# Nights and meals


def test_seventy_five_percent_day_minus_full_meal():
    """41 CFR 301-11.18: tier 74, first day 55.50, breakfast 17 comes off whole: 38.50."""
    assert day_allowance(74_00, 5_00, [17_00], edge=True) == 38_50


def test_a_day_never_falls_below_the_incidentals():
    assert day_allowance(68_00, 5_00, [16_00, 19_00, 28_00]) == 5_00
    assert day_allowance(68_00, 5_00, [16_00, 19_00, 28_00], edge=True) == 5_00


@given(
    first=st.dates(date(2031, 1, 1), date(2031, 12, 1)),
    nights=st.integers(0, 30),
    given_on=st.sets(st.integers(0, 30)),
)
def test_nights_are_one_fewer_than_days_and_each_day_keeps_its_bounds(first, nights, given_on):
    days = [first + timedelta(days=number) for number in range(nights + 1)]
    provided = {days[at]: [16_00, 28_00] for at in given_on if at < len(days)}
    found = away(days[0], days[-1], dict.fromkeys(days, TIER), provided)
    assert found.nights == nights and found.lodging_cents == nights * TIER.night
    for each in found.days:
        most = edge_day(TIER.meals) if each.edge else TIER.meals
        assert each.edge == (each.day in (days[0], days[-1]))
        assert TIER.incidentals <= each.meals <= most
        assert each.meals == max(TIER.incidentals, most - each.provided)


def test_a_single_day_has_no_night_and_three_quarters_of_its_meals():
    found = away(DAY, DAY, {DAY: TIER})
    assert (found.nights, found.cents) == (0, 51_00)


def test_a_journey_that_ends_before_it_starts_or_lasts_for_years_is_refused():
    with pytest.raises(EndsBeforeItStarts):
        away(DAY, DAY - timedelta(days=1), {})
    with pytest.raises(TooLong):
        away(DAY, DAY + timedelta(days=366), {})


# Tax and other money


def test_item_against_invoice_tax():
    """Streamlined agreement, section 324: a seller may round by item or by invoice."""
    items = [(10_05, (5, 100))] * 3
    assert (item_by_item(items), whole_invoice(items)) == (31_65, 31_66)


def test_a_printed_tax_may_be_off_by_half_a_cent_for_each_line():
    rate = (725, 10_000)
    assert tax_check(99_99, 7_25, rate).holds and tax_check(99_99, 7_26, rate).holds
    assert not tax_check(99_99, 7_27, rate).holds
    assert tax_check(99_99, 7_28, rate, lines=5).holds
    assert not tax_check(99_99, 7_29, rate, lines=5).holds
    assert tax_on(99_99, rate) == 7_25


@given(
    items=st.lists(st.tuples(st.integers(0, 100_000), st.integers(0, 1500)), max_size=12),
)
def test_rounding_by_item_strays_at_most_half_a_cent_for_each_item(items):
    rows = [(cents, (rate, 10_000)) for cents, rate in items]
    assert abs(item_by_item(rows) - whole_invoice(rows)) <= (len(rows) + 1) / 2


@given(
    hundredths=st.integers(1, 10**9),
    rate=st.decimals(min_value="0.0001", max_value="999", places=4),
    day=st.dates(date(2000, 1, 1), date(2100, 12, 31)),
)
def test_another_currency_is_read_back_as_it_was_written(hundredths, rate, day):
    money = Foreign(currency="EUR", hundredths=hundredths, rate=rate, day=day)
    assert from_words(in_words(money)) == money


@pytest.mark.parametrize(
    "text", ["", "EUR 120", "EUR 1.00 at 1, 31 June 2031", "EUR 1.00 at 1, 3 Juin 2031"]
)
def test_what_is_no_other_currency_is_refused(text):
    with pytest.raises(NotForeign):
        from_words(text)
