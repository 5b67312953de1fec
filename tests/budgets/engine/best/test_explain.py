"""Why an expense stays on own money: the code, the number, what to do, what it is worth."""

from dataclasses import replace
from datetime import date

import pytest

from budgets.engine import Match, rule_from
from budgets.engine.best import Problem, Reason, Unknown, best_fit, explain, with_day, with_signed
from budgets.engine.best import worth as worth_of
from tests.budgets.engine.best.cases import case_c, expense, fund, gift, only


def reasons(problem: Problem, key: str) -> list[tuple[str, str, int | None]]:
    found = explain(problem, best_fit(problem), key)
    return [(reason.fund, reason.code, reason.cents) for reason in found]


def test_a_missing_proof_of_payment_is_named_with_its_worth() -> None:
    problem = case_c()
    found = explain(problem, best_fit(problem), "13 bolts", reckon=True)
    by_fund = {(reason.fund, reason.code): reason for reason in found}
    nation = by_fund["nation", "papers_needed"]
    assert nation == Reason(
        fund="nation",
        code="papers_needed",
        sentence="Nation fund needs a paper that this expense lacks: proof of payment.",
        todo="Attach the paper.",
        worth=583_33,
    )
    assert by_fund["garden", "allowed_categories"].worth is None


def test_a_barred_expense_names_every_rule() -> None:
    assert reasons(case_c(), "16 opening") == [
        ("city", "barred_categories", None),
        ("garden", "allowed_categories", None),
        ("nation", "barred_categories", None),
    ]


def test_an_expense_before_the_period_names_the_day() -> None:
    early = expense("steel", 100_00, day=date(2031, 1, 31))
    opens = fund("flex", 900_00, period_start=date(2031, 3, 1))
    problem = Problem(expenses=(early,), funds=(opens,))
    (reason,) = explain(problem, best_fit(problem), "steel")
    assert (reason.code, reason.day) == ("eligible_period", date(2031, 3, 1))
    moved = with_day(problem, "steel", date(2031, 3, 1))
    assert worth_of(problem, best_fit(problem), moved) == 100_00


def test_an_award_that_is_used_up_is_named() -> None:
    problem = Problem(expenses=(expense("steel", 900_00),), funds=(fund("flex", 500_00),))
    assert reasons(problem, "steel") == [("flex", "award", 500_00)]


@pytest.mark.parametrize(
    ("code", "params"),
    [
        ("category_cap", {"categories": ["materials"], "cents": 100_00}),
        ("category_total_cap", {"categories": ["materials"], "basis_points": 1000}),
        ("category_claimed_cap", {"categories": ["materials"], "basis_points": 5000}),
        ("agreed_budget", {"basis_points": 1000}),
        ("agreed_budget", {"basis_points": 1000, "of": "line"}),
    ],
)
def test_a_limit_that_is_reached_is_named(code: str, params: dict[str, object]) -> None:
    flex = fund("flex", 900_00, rule_from(code, params), budget={"materials": 80_00, "admin": 9_00})
    steel, office = expense("steel", 600_00), expense("office", 9_00, "admin")
    problem = Problem(expenses=(steel, office), funds=(flex,))
    assert reasons(problem, "steel") == [("flex", code, None)]
    (reason,) = explain(problem, best_fit(problem), "steel")
    assert reason.sentence.startswith("Flex fund: ") and reason.sentence.endswith("is reached.")


def test_what_is_above_a_rate_is_named() -> None:
    rule = rule_from("rate_ceiling", {"unit": "hour", "mills": 400_00})
    walk = expense("walk", 100_00, units=2_00, unit="hour")
    problem = Problem(expenses=(walk,), funds=(fund("flex", 900_00, rule),))
    assert reasons(problem, "walk") == [("flex", "rate_ceiling", 80_00)]


def test_match_that_is_short_is_named_with_its_cents() -> None:
    """600 of steel, one to one, 200 of gifts: 400 is paid, 200 stays as its own match."""
    problem = Problem(
        expenses=(expense("steel", 600_00), gift("hours", 200_00)),
        funds=(fund("nation", 900_00, match=Match()),),
    )
    assert reasons(problem, "steel") == [("nation", "match", 200_00)]
    more = replace(problem, expenses=(problem.expenses[0], gift("hours", 600_00)))
    assert best_fit(more).used == 600_00


def test_cash_match_that_is_short_is_named_with_its_cents() -> None:
    problem = Problem(
        expenses=(expense("steel", 600_00), gift("hours", 900_00)),
        funds=(fund("nation", 900_00, match=Match(cash_basis_points=5000)),),
    )
    assert best_fit(problem).used == 400_00
    assert reasons(problem, "steel") == [("nation", "match_cash", 100_00)]


def test_match_that_is_there_but_not_needed_is_no_obstacle() -> None:
    """Own money that could match and need not: the award is the limit, not the match."""
    problem = Problem(
        expenses=(expense("steel", 600_00), gift("hours", 900_00)),
        funds=(fund("nation", 100_00, match=Match()),),
    )
    assert reasons(problem, "steel") == [("nation", "award", 100_00)]


def test_an_expense_that_would_only_displace_another_says_so() -> None:
    """Lights may pay 300 of lamps; of two alike, either stays."""
    walls = rule_from("category_cap", {"categories": ["lighting"], "cents": 300_00})
    problem = Problem(
        expenses=(expense("cable", 300_00, "lighting"), expense("lamps", 300_00, "lighting")),
        funds=(fund("lights", 500_00, only("lighting"), walls),),
    )
    assert reasons(problem, "lamps") == [("lights", "category_cap", None)]
    fee = fund("fee", 300_00, kind="fee")
    both = replace(problem, funds=(*problem.funds, fee))
    assert best_fit(both).own_total == 0


def test_a_gift_and_a_bill_that_is_paid_have_no_reasons() -> None:
    problem = case_c()
    assert reasons(problem, "17 volunteers") == reasons(problem, "07 steel") == []
    with pytest.raises(Unknown):
        reasons(problem, "nobody's")


def test_an_offer_is_worth_what_it_would_pay_once_signed() -> None:
    offer = fund("board", 500_00, status="offered")
    problem = Problem(expenses=(expense("steel", 300_00),), funds=(offer,))
    assert worth_of(problem, best_fit(problem), with_signed(problem, "board")) == 300_00
    assert reasons(problem, "steel") == [("board", "not_signed", None)]


def test_the_cent_itself_was_match_as_long_as_it_was_own() -> None:
    """One for three: 3.00 of 4.01 is paid, 1.01 its match; for one cent more, 1.00 would be."""
    match = Match(numerator=1, denominator=3)
    problem = Problem(expenses=(expense("wire", 4_01),), funds=(fund("nation", 9_00, match=match),))
    assert best_fit(problem).used == 3_00
    assert [code for _, code, _ in reasons(problem, "wire")] == ["match"]


def test_a_gift_that_matches_elsewhere_is_still_there_in_another_pool() -> None:
    cap = rule_from("category_cap", {"categories": ["materials"], "cents": 300_00})
    match = Match(payers=frozenset({"crowd"}))
    funds = tuple(fund(name, 900_00, cap, match=match) for name in ("board", "ward"))
    items = (expense("steel", 1000_00), gift("hours", 400_00, "materials"))
    problem = Problem(expenses=items, funds=funds)
    assert best_fit(problem).used == 600_00
    assert [code for _, code, _ in reasons(problem, "steel")] == ["category_cap"] * 2
    federal = replace(problem, funds=tuple(replace(one, federal=True) for one in funds))
    assert {code for _, code, _ in reasons(federal, "steel")} == {"match", "category_cap"}


def test_a_bill_on_another_day_is_ordered_and_paid_that_day_too() -> None:
    last = rule_from("paid_by", {"on": date(2031, 4, 1)})
    late = date(2031, 5, 2)
    bill = expense("steel", 300_00, day=late, ordered=late, paid=late)
    problem = Problem(expenses=(bill,), funds=(fund("flex", 900_00, last),))
    moved = with_day(problem, "steel", date(2031, 4, 1))
    assert worth_of(problem, best_fit(problem), moved) == 300_00
