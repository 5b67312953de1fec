"""What bars an expense whatever else is charged: days, papers, places, quotes, people."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from budgets.engine import bars, eligible, judge_share, match_bars, room, rule_from
from tests.budgets.engine.money_builders import OPENING, expense, fund, share

DAY = timedelta(days=1)
WITHIN = {"period_start": OPENING - 30 * DAY, "period_end": OPENING}


def codes(source, item) -> list[str]:  # type: ignore[no-untyped-def]
    return [refusal.code for refusal in bars(source, item)]


def match_codes(source, item) -> list[str]:  # type: ignore[no-untyped-def]
    return [refusal.code for refusal in match_bars(source, item)]


def test_a_cap_that_is_full_is_no_bar() -> None:
    full = fund(("category_cap", {"categories": ["materials"], "cents": 0}), award=0)
    assert codes(full, expense()) == []


@pytest.mark.parametrize("by", ["ordered", "delivered", "paid"])
def test_the_day_that_counts_is_the_one_the_fund_names(by: str) -> None:
    ward = fund(("period_by", {"by": by}), **WITHIN)
    late = expense(day=OPENING - DAY, **{by: OPENING + DAY})
    (refusal,) = bars(ward, late)
    assert refusal.sentence.endswith(f"this expense was {by} 15 June 2031.")
    early = expense(day=OPENING + DAY, **{by: OPENING})
    assert codes(ward, early) == []


def test_a_day_that_is_not_written_down_is_asked_for() -> None:
    ward = fund(("period_by", {"by": "paid"}), **WITHIN)
    assert "by the day it was paid: write that day" in bars(ward, expense())[0].sentence
    assert codes(ward, expense(forecast=True)) == []


def test_a_cost_in_the_period_but_paid_after_liquidation_is_barred() -> None:
    ward = fund(("paid_by", {"on": "2031-07-14"}), **WITHIN)
    assert codes(ward, expense(paid=date(2031, 7, 14))) == []
    late = expense(paid=date(2031, 7, 15))
    assert codes(ward, late) == match_codes(ward, late) == ["paid_by"]
    assert codes(ward, expense()) == []


def test_nothing_ordered_before_the_signature_is_paid() -> None:
    ward = fund(("nothing_before", {}), issued=date(2031, 6, 1))
    ordered = expense(ordered=date(2031, 5, 31))
    assert bars(ward, ordered)[0].sentence == (
        "Riverside Ward improvement fund pays nothing from before the agreement (1 June 2031): "
        "this is from 31 May 2031."
    )
    assert codes(ward, expense(day=date(2031, 6, 1))) == []
    assert codes(fund(("nothing_before", {})), ordered) == []


def test_a_given_gate_comes_before_the_day_of_issue() -> None:
    ward = fund(("nothing_before", {"on": "2031-05-01", "what": "the permit"}), issued=OPENING)
    assert codes(ward, expense(day=date(2031, 5, 1))) == []
    assert "the permit (1 May 2031)" in bars(ward, expense(day=date(2031, 4, 30)))[0].sentence


def test_money_that_stays_in_the_town() -> None:
    ward = fund(("places", {"places": ["Wexcombe Mills"], "categories": ["transport"]}))
    van = {"category": "transport"}
    assert codes(ward, expense(place="Mill Lane, wexcombe mills", **van)) == []
    assert codes(ward, expense(place="Overwater", **van)) == ["places"]
    assert bars(ward, expense(**van))[0].sentence.endswith("write where this was.")
    assert codes(ward, expense(place="Overwater")) == []
    assert codes(ward, expense(forecast=True, **van)) == []


def test_two_papers_from_a_threshold_and_one_below_it() -> None:
    ward = fund(
        ("papers_needed", {"papers": ["receipt"]}),
        ("papers_needed", {"papers": ["receipt", "payment"], "cents": 100_00}),
    )
    receipt = frozenset({"receipt"})
    assert codes(ward, expense(cents=99_99, papers=receipt)) == []
    assert bars(ward, expense(cents=100_00, papers=receipt))[0].actual == {"payment"}


@pytest.mark.parametrize(
    ("gift", "paper"), [("skilled", "timesheet"), ("flat", "timesheet"), ("goods", "letter")]
)
def test_a_gift_needs_the_paper_that_fits_it_and_no_bill(gift: str, paper: str) -> None:
    asked = {"papers": ["receipt", "payment", "letter", "timesheet"]}
    board = fund(("papers_needed", asked))
    given = expense(in_kind=True, gift=gift)
    assert match_bars(board, given)[0].actual == {paper}
    assert match_codes(board, expense(in_kind=True, gift=gift, papers=frozenset({paper}))) == []


def test_a_bill_needs_no_letter() -> None:
    board = fund(("papers_needed", {"papers": ["receipt", "letter"]}))
    assert codes(board, expense(papers=frozenset({"receipt"}))) == []


def test_what_is_still_to_be_spent_is_asked_for_no_paper_no_quote_and_no_reason() -> None:
    ward = fund(
        ("papers_needed", {"papers": ["receipt"]}),
        ("quotes_needed", {"cents": 100_00, "quotes": 3}),
        ("reason_needed", {"cents": 100_00}),
        ("barred_categories", {"categories": ["food"]}),
    )
    assert codes(ward, expense(category="food", forecast=True)) == ["barred_categories"]
    assert len(codes(ward, expense(category="food"))) == 4


PURCHASE = [(date(2025, 9, 30), ["quotes_needed"]), (date(2025, 10, 1), [])]


@pytest.mark.parametrize(("day", "found"), PURCHASE)
def test_a_purchase_on_30_september_2025_against_1_october(day: date, found: list[str]) -> None:
    """Federal Acquisition Regulation 2.101: quotes above 10,000, from 1 October 2025 15,000."""
    old = rule_from("quotes_needed", {"cents": 10_000_00}, ends_on=date(2025, 9, 30))
    new = rule_from("quotes_needed", {"cents": 15_000_00}, starts_on=date(2025, 10, 1))
    ward = with_rules(old, new)
    assert codes(ward, expense(cents=12_000_00, ordered=day, day=date(2026, 1, 1))) == found


def with_rules(*rules):  # type: ignore[no-untyped-def]
    return replace(fund(), rules=rules)


def test_quotes_that_are_only_advised_bar_nothing() -> None:
    ward = fund(("quotes_needed", {"cents": 1, "warn_only": True}))
    assert codes(ward, expense()) == match_codes(ward, expense()) == []


def test_enough_quotes_or_a_gift_need_no_more() -> None:
    ward = fund(("quotes_needed", {"cents": 100_00, "quotes": 2}))
    assert codes(ward, expense(quotes=2)) == codes(ward, expense(in_kind=True)) == []
    assert codes(ward, expense(cents=100_00)) == []
    assert codes(ward, expense(quotes=1)) == ["quotes_needed"]


MILE = ("rate_ceiling", {"unit": "mile", "mills": 725})


def test_above_the_ceiling_for_a_mile_the_rest_is_own_money() -> None:
    trip = expense(cents=90_00, units=100_00, unit="mile")
    ward = fund(MILE)
    assert eligible(ward, trip) == room(ward, trip, []) == 72_50
    (refusal,) = judge_share(ward, trip, [], 72_51)
    assert refusal.sentence.endswith(
        "pays at most $0.725 for each mile: $72.50 of this expense, the rest is your own."
    )
    assert eligible(ward, expense(units=100_00, unit="hour")) == 300_00


def test_two_ceilings_of_one_trip_the_lower_holds() -> None:
    trip = expense(cents=90_00, units=100_00, unit="mile")
    assert eligible(fund(MILE, ("rate_ceiling", {"unit": "mile", "mills": 140})), trip) == 14_00


def test_mileage_changes_in_the_middle_of_the_year() -> None:
    """IRS Announcement 2022-13: 58.5 cents to 30 June 2022, 62.5 from 1 July."""
    first = rule_from("rate_ceiling", {"unit": "mile", "mills": 585}, ends_on=date(2022, 6, 30))
    second = rule_from("rate_ceiling", {"unit": "mile", "mills": 625}, starts_on=date(2022, 7, 1))
    ward = with_rules(first, second)
    miles = {"cents": 100_00, "units": 100_00, "unit": "mile"}
    assert eligible(ward, expense(day=date(2022, 6, 30), **miles)) == 58_50
    assert eligible(ward, expense(day=date(2022, 7, 1), **miles)) == 62_50


@pytest.mark.parametrize("relation", ["related", "own_space", "regular", "fundraising"])
def test_who_is_too_near_is_neither_paid_nor_matched(relation: str) -> None:
    ward = fund(("barred_relations", {}))
    near = expense(relation=relation)
    assert codes(ward, near) == match_codes(ward, near) == ["barred_relations"]
    assert codes(ward, expense()) == []


def test_a_dear_expense_says_why_it_was_necessary() -> None:
    ward = fund(("reason_needed", {"cents": 299_99}))
    assert codes(ward, expense()) == ["reason_needed"]
    assert codes(ward, expense(reasoned=True)) == codes(ward, expense(cents=299_99)) == []


def test_match_only_is_not_charged_and_still_matches() -> None:
    state = fund(("match_only", {"categories": ["admin"]}))
    assert codes(state, expense(category="admin")) == ["match_only"]
    assert match_codes(state, expense(category="admin")) == []


def test_what_is_barred_may_still_count_as_match_when_the_fund_says_so() -> None:
    state = fund(("barred_categories", {"categories": ["food"], "match_too": False}))
    assert codes(state, expense(category="food")) == ["barred_categories"]
    assert match_codes(state, expense(category="food")) == []


def test_a_rule_binds_on_its_first_and_its_last_day_and_no_other() -> None:
    rule = rule_from(
        "barred_categories",
        {"categories": ["materials"]},
        starts_on=OPENING,
        ends_on=OPENING + DAY,
        clause="Amendment 1",
    )
    ward = with_rules(rule)
    found = [codes(ward, expense(day=OPENING + step * DAY)) for step in (-1, 0, 1, 2)]
    assert found == [[], ["barred_categories"], ["barred_categories"], []]
    assert rule.clause == "Amendment 1"


def test_shares_outside_the_days_of_a_cap_use_none_of_it() -> None:
    cap = rule_from(
        "category_cap", {"categories": ["materials"], "cents": 100_00}, starts_on=OPENING
    )
    ward, before = with_rules(cap), expense("before", 300_00, day=OPENING - DAY)
    assert room(ward, expense(), [share(before, 300_00)]) == 100_00
    assert room(ward, before, [share(expense(), 100_00)]) == 300_00
