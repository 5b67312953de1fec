"""Each kind of rule: what it bars and what it says. Common practice of arts funds, no source."""

from datetime import date

import pytest

from budgets.engine import RULES, BadRule, Fund, Match, UnknownRule, judge_share, rule_from
from tests.budgets.engine.money_builders import OPENING, expense, fund, share

ADMIN_SHARE = ("category_share_cap", {"categories": ["admin"], "basis_points": 1500})


def sentences(source: Fund, item, cents: int, *so_far) -> list[str]:  # type: ignore[no-untyped-def]
    return [refusal.sentence for refusal in judge_share(source, item, so_far, cents)]


def codes(source: Fund, item, cents: int, *so_far) -> list[str]:  # type: ignore[no-untyped-def]
    return [refusal.code for refusal in judge_share(source, item, so_far, cents)]


def test_a_share_inside_every_rule_is_let_through() -> None:
    assert judge_share(fund(ADMIN_SHARE), expense(category="admin"), [], 300_00) == ()


def test_the_share_cap_names_the_rule_and_the_number() -> None:
    postage = expense("postage", 300_00, category="admin")
    books = expense("books", 600_00, category="admin")
    (refusal,) = judge_share(fund(ADMIN_SHARE), books, [share(postage, 300_00)], 600_00)
    assert refusal.sentence == (
        "Riverside Ward improvement fund pays at most 15 % for administration: "
        "$450.00 of it is left, this share is $600.00."
    )
    assert refusal.rule == "Pays at most 15 % of its award for administration."
    assert (refusal.limit, refusal.actual, refusal.expense) == (750_00, 900_00, "books")


def test_a_share_cap_needs_an_award_to_be_a_share_of() -> None:
    assert codes(fund(ADMIN_SHARE, award=None), expense(category="admin"), 300_00) == []


def test_a_cap_binds_its_categories_together() -> None:
    cap = ("category_cap", {"categories": ["transport", "food"], "cents": 100_00})
    lorry, tea = (
        expense("lorry", 90_00, category="transport"),
        expense("tea", 20_00, category="food"),
    )
    assert codes(fund(cap), tea, 10_00, share(lorry, 90_00)) == []
    assert codes(fund(cap), tea, 10_01, share(lorry, 90_00)) == ["category_cap"]
    assert codes(fund(cap), expense(), 300_00, share(lorry, 90_00)) == []


def test_what_other_funds_pay_uses_up_no_cap() -> None:
    cap = ("category_cap", {"categories": ["materials"], "cents": 100_00})
    assert codes(fund(cap), expense(), 100_00, share(expense("cloth"), 80_00, "traders")) == []


def test_a_barred_category_is_named() -> None:
    board = fund(("barred_categories", {"categories": ["food"]}), name="Wexcombe Arts Board grant")
    assert sentences(board, expense("tea", category="food"), 10_00) == [
        "Wexcombe Arts Board grant does not pay for food and hospitality."
    ]


def test_only_the_allowed_categories_are_paid() -> None:
    ward = fund(("allowed_categories", {"categories": ["install", "materials"]}))
    assert codes(ward, expense(), 10_00) == []
    assert sentences(ward, expense("tea", category="food"), 10_00) == [
        "Riverside Ward improvement fund pays only for materials or installation and equipment: "
        "this expense is food and hospitality."
    ]


@pytest.mark.parametrize(
    ("day", "said"),
    [
        (date(2031, 3, 1), None),
        (date(2031, 7, 14), None),
        (date(2031, 2, 28), "opens on 1 March 2031: this expense is dated 28 February 2031."),
        (date(2031, 7, 15), "ends on 14 July 2031: this expense is dated 15 July 2031."),
    ],
)
def test_both_ends_of_the_eligible_period_are_inside(day: date, said: str | None) -> None:
    ward = fund(period_start=date(2031, 3, 1), period_end=date(2031, 7, 14))
    start = "The eligible period of Riverside Ward improvement fund "
    assert sentences(ward, expense(day=day), 10_00) == ([start + said] if said else [])


def test_the_award_is_paid_to_the_last_cent_and_no_further() -> None:
    ward, paid = fund(award=400_00), share(expense("frame"), 300_00)
    assert codes(ward, expense(), 100_00, paid) == []
    assert sentences(ward, expense(), 100_01, paid) == [
        "Riverside Ward improvement fund pays at most $400.00 in all: "
        "$100.00 of it is left, this share is $100.01."
    ]


def test_own_money_has_no_stated_end() -> None:
    assert codes(fund(award=None, name="Own money"), expense(cents=10**9), 10**9) == []


@pytest.mark.parametrize(
    ("status", "found"),
    [
        ("applied", ["not_signed"]),
        ("offered", ["not_signed"]),
        ("signed", []),
        ("closed", ["closed"]),
    ],
)
def test_only_a_signed_fund_can_be_charged(status: str, found: list[str]) -> None:
    assert codes(fund(status=status), expense(), 10_00) == found


def test_a_paper_is_needed_from_a_stated_amount() -> None:
    ward = fund(("papers_needed", {"papers": ["receipt", "payment"], "cents": 300_00}))
    assert codes(ward, expense(cents=299_99), 10_00) == []
    assert sentences(ward, expense(papers=frozenset({"receipt"})), 10_00) == [
        "Riverside Ward improvement fund needs a paper that this expense lacks: proof of payment."
    ]
    assert codes(ward, expense(papers=frozenset({"receipt", "payment"})), 10_00) == []


def test_a_gift_in_kind_is_no_cash_cost() -> None:
    assert codes(fund(("cash_only", {})), expense(in_kind=True), 10_00) == ["cash_only"]
    assert codes(fund(("cash_only", {})), expense(), 10_00) == []


def test_gifts_in_kind_pay_no_bill() -> None:
    hours = fund(gifts=True)
    assert codes(hours, expense(), 10_00) == ["gifts"]
    assert codes(hours, expense(in_kind=True), 10_00) == []


def test_every_broken_rule_is_told_at_once() -> None:
    strict = fund(
        ("barred_categories", {"categories": ["food"]}), ("cash_only", {}), status="offered"
    )
    tea = expense("tea", category="food", in_kind=True)
    assert set(codes(strict, tea, 300_01)) == {
        "expense",
        "not_signed",
        "barred_categories",
        "cash_only",
    }


def test_a_standing_rule_written_down_again_is_told_once() -> None:
    assert codes(fund(("award", {}), award=1), expense(), 10_00) == ["award"]


def test_the_symbol_of_the_currency_is_the_projects() -> None:
    (refusal,) = judge_share(fund(award=5_00, symbol="£"), expense(), [], 10_00)
    assert "$" not in refusal.sentence and "£10.00" in refusal.sentence


def test_every_kind_of_rule_is_found_by_its_code() -> None:
    assert set(RULES) == {
        "not_signed",
        "closed",
        "eligible_period",
        "award",
        "gifts",
        "allowed_categories",
        "barred_categories",
        "match_only",
        "cash_only",
        "period_by",
        "paid_by",
        "nothing_before",
        "papers_needed",
        "places",
        "barred_relations",
        "reason_needed",
        "quotes_needed",
        "rate_ceiling",
        "category_cap",
        "category_share_cap",
        "category_total_cap",
        "category_claimed_cap",
        "category_floor",
        "agreed_budget",
        "grant_share",
        "tiered_match",
        "total_band",
        "match_is_owed",
        "indirect_rate",
        "paid_back",
        "paid_ahead",
        "paid_by_milestone",
        "held_back",
        "retained",
        "report_due",
        "progress_report",
        "spend_down",
        "records_kept",
    }
    assert all(kind.code == code for code, kind in RULES.items())


def test_a_stored_rule_may_carry_empty_columns() -> None:
    row = {"categories": ["admin"], "cents": None, "basis_points": 500, "papers": []}
    assert rule_from("category_share_cap", row).sentence() == (
        "Pays at most 5 % of its award for administration."
    )


@pytest.mark.parametrize(
    ("code", "params"),
    [
        ("category_cap", {"categories": ["admin"]}),
        ("category_cap", {"categories": [], "cents": 1}),
        ("category_cap", {"categories": ["admin"], "cents": -1}),
        ("category_share_cap", {"categories": ["admin"], "basis_points": 10_001}),
        ("category_share_cap", {"categories": ["admin"], "basis_points": 15.0}),
        ("papers_needed", {"papers": [""]}),
        ("barred_categories", {"categories": "food"}),
        ("cash_only", {"cents": 5}),
    ],
)
def test_a_senseless_rule_is_refused(code: str, params: dict[str, object]) -> None:
    with pytest.raises(BadRule) as caught:
        rule_from(code, params)
    assert caught.value.rule == code


def test_an_unknown_rule_names_those_that_exist() -> None:
    with pytest.raises(UnknownRule) as caught:
        rule_from("moon_phase")
    assert "category_cap" in caught.value.known


def test_a_match_rule_defaults_to_one_for_one() -> None:
    assert (Match().numerator, Match().denominator) == (1, 1)
    assert OPENING.weekday() == 5  # the lantern walk is on a Saturday
