"""Rates by the day that decides; the shipped table itself."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine.dated import Dated, NoFact, indexed, value_on
from budgets.engine.money import MoneyError
from budgets.facts import kinds, shipped

DAYS = st.dates(min_value=date(2025, 10, 1), max_value=date(2040, 12, 31))


def known(name: str, day: date) -> Decimal:
    return value_on(shipped(), name, day).fact.value


def test_a_mid_year_mileage_split() -> None:
    """IRS Announcement 2022-13: the rate rose on 1 July 2022."""
    last, first = date(2022, 6, 30), date(2022, 7, 1)
    assert known("mile_business", last) == Decimal("0.585")
    assert known("mile_business", first) == Decimal("0.625")


def test_an_award_issued_2024_09_30_against_10_01() -> None:
    """2 CFR 200.414(f), revision of 2024: not for awards issued before 1 October 2024."""
    assert known("indirect_percent", date(2024, 9, 30)) == 10
    assert known("indirect_percent", date(2024, 10, 1)) == 15


def test_a_purchase_2025_09_30_against_10_01() -> None:
    """90 FR 41872: the micro-purchase threshold rose on 1 October 2025."""
    assert known("quotes_from", date(2025, 9, 30)) == 10_000
    assert known("quotes_from", date(2025, 10, 1)) == 15_000


def test_a_rate_of_a_year_to_come_is_the_last_one_and_says_so() -> None:
    found = value_on(shipped(), "mile_business", date(2031, 3, 3))
    assert (found.fact.value, found.current) == (Decimal("0.725"), False)


def test_a_gap_takes_the_year_before_it() -> None:
    found = value_on(shipped(), "volunteer_hour", date(2007, 5, 1))
    assert (found.fact.value, found.current) == (Decimal("18.77"), False)


def test_ones_own_value_wins_over_the_shipped_one() -> None:
    own = Dated(
        name="volunteer_hour",
        value=Decimal("31.00"),
        start=date(2020, 1, 1),
        end=None,
        source="Arts board, letter",
        own=True,
    )
    assert value_on([*shipped(), own], "volunteer_hour", date(2022, 5, 1)).fact is own
    assert value_on([own, *shipped()], "volunteer_hour", date(2022, 5, 1)).fact is own


def test_nothing_is_known_before_the_first_day_or_of_an_unknown_name() -> None:
    with pytest.raises(NoFact):
        value_on(shipped(), "mile_business", date(2015, 12, 31))
    with pytest.raises(NoFact):
        value_on(shipped(), "night_watch", date(2025, 1, 1))


def test_a_fraction_of_a_cent_is_no_threshold() -> None:
    fact = value_on(shipped(), "mile_business", date(2025, 1, 1)).fact
    assert fact.cents == 70
    with pytest.raises(MoneyError):
        _ = value_on(shipped(), "mile_business", date(2026, 1, 1)).fact.cents


@given(day=DAYS, name=st.sampled_from(sorted(kinds())))
def test_a_value_holds_on_its_day_or_is_the_last_before_it(day: date, name: str) -> None:
    found = value_on(shipped(), name, day)
    assert found.fact.start <= day
    assert found.current == found.fact.holds_on(day)
    later = [f for f in shipped() if f.name == name and found.fact.start < f.start <= day]
    assert later == []


def test_the_shipped_facts_never_overlap_and_each_names_its_source() -> None:
    for name in kinds():
        rows = sorted((f for f in shipped() if f.name == name), key=lambda f: f.start)
        assert rows and all(row.source for row in rows)
        for one, other in pairwise(rows):
            assert one.end is not None and one.end < other.start
        assert all(row.end is None or row.end > row.start for row in rows)


def test_a_raised_threshold_goes_to_the_nearer_step_and_half_goes_up() -> None:
    assert indexed(2000_00, Decimal("0.02"), 100_00) == 2000_00
    assert indexed(2000_00, Decimal("0.025"), 100_00) == 2100_00
