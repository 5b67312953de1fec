"""What a claim holds stays; where it breaks a rule, the fit says so and goes on."""

from dataclasses import replace
from datetime import date

import pytest

from budgets.engine import Counted, Match, Share, Status
from budgets.engine.best import (
    Fit,
    LocksBreak,
    Policy,
    Problem,
    SameKey,
    TooManyToKeepWhole,
    best_fit,
    check,
)
from budgets.engine.best.classes import classify
from budgets.engine.best.mend import strictly
from budgets.engine.best.rows import program_of
from tests.budgets.engine.best.cases import case_a, case_b, case_c, expense, fund, gift, only


def locked(problem: Problem, *rows: tuple[str, str, int]) -> Problem:
    items = {item.key: item for item in problem.expenses}
    shares = tuple(Share(expense=items[key], fund=name, cents=cents) for key, name, cents in rows)
    return replace(problem, locked=shares)


def counted(problem: Problem, *rows: tuple[str, str, str, int]) -> Problem:
    items = {item.key: item for item in problem.expenses}
    match = tuple(
        Counted(expense=items[key], fund=name, payer=payer, cents=cents)
        for key, name, payer, cents in rows
    )
    return replace(problem, locked_match=match)


def codes(fit: Fit) -> list[tuple[str, str]]:
    return [(finding.code, finding.fund) for finding in fit.findings]


def test_a_claimed_share_stays_though_another_fund_would_suit_it_better() -> None:
    problem = locked(case_a(), ("1 lamps", "flex", 2000_00))
    fit = best_fit(problem)
    assert (fit.used, fit.bound) == (8000_00, 8000_00)
    assert {(row.expense.key, row.fund, row.cents) for row in fit.shares} == {
        ("1 lamps", "flex", 2000_00),
        ("1 lamps", "lights", 3000_00),
        ("2 paint", "flex", 3000_00),
    }
    assert not check(problem, fit)


def test_claimed_match_of_own_money_keeps_that_money_own() -> None:
    problem = counted(case_b(), ("1 lamps", "match", "", 2500_00))
    fit = best_fit(problem)
    assert fit.own["1 lamps"] >= 2500_00
    assert (fit.used, fit.lapse["lights"]) == (4500_00, 2500_00)
    assert not check(problem, fit)


def test_claimed_match_that_a_fund_paid_keeps_that_fund_paying() -> None:
    problem = counted(case_b(), ("1 lamps", "match", "lights", 800_00))
    fit = best_fit(problem)
    assert fit.used == 7000_00
    assert any(
        (row.expense.key, row.payer, row.cents >= 800_00) == ("1 lamps", "lights", True)
        for row in fit.counted
    )


def test_match_counted_for_a_gift_stays_counted() -> None:
    problem = counted(case_b(), ("4 volunteers", "match", "", 600_00))
    fit = best_fit(problem)
    found = [row.cents for row in fit.counted if row.expense.key == "4 volunteers"]
    assert sum(found) >= 600_00 and fit.used == 7000_00


def test_a_claim_above_the_award_is_told_and_the_rest_is_still_shared_out() -> None:
    problem = case_a()
    small = replace(problem, funds=(replace(problem.funds[0], award=4000_00), problem.funds[1]))
    claim = locked(small, ("2 paint", "flex", 4500_00))
    fit = best_fit(claim)
    assert codes(fit) == [("award", "flex")]
    assert fit.findings[0].cents == 500_00
    assert "Flex fund: what is claimed already breaks a rule." in fit.findings[0].sentence
    assert fit.charged == {"flex": 4500_00, "lights": 5000_00}


def test_a_claim_without_its_match_is_told_and_takes_no_more() -> None:
    steel = expense("steel", 900_00)
    problem = Problem(expenses=(steel,), funds=(fund("nation", 2000_00, match=Match()),))
    fit = best_fit(locked(problem, ("steel", "nation", 600_00)))
    assert codes(fit) == [("match", "nation")]
    assert (fit.findings[0].cents, fit.charged["nation"]) == (300_00, 600_00)


def test_broken_locks_are_an_error_of_their_own_with_fund_and_rule() -> None:
    problem = locked(case_a(), ("2 paint", "flex", 5000_00), ("1 lamps", "flex", 1_00))
    with pytest.raises(LocksBreak) as broken:
        strictly(problem, program_of(classify(problem)))
    assert [(one.fund, one.code, one.cents) for one in broken.value.findings] == [
        ("flex", "award", 1_00)
    ]
    assert broken.value.code == "locks_break" and "Flex fund" in str(broken.value)


def test_a_claimed_share_that_a_rule_bars_is_told_with_the_rule() -> None:
    problem = locked(case_a(), ("2 paint", "lights", 1000_00))
    fit = best_fit(problem)
    assert codes(fit) == [("allowed_categories", "lights")]
    assert fit.findings[0].sentence.startswith("Claimed already: ")
    assert fit.used == 10_000_00


def test_what_a_closed_fund_has_paid_is_no_finding() -> None:
    problem = case_a()
    closed = replace(problem.funds[0], status=Status.CLOSED)
    past = replace(problem, funds=(closed, problem.funds[1]))
    fit = best_fit(locked(past, ("2 paint", "flex", 1000_00)))
    assert (fit.findings, fit.used, fit.own["2 paint"]) == ((), 6000_00, 4000_00)
    assert fit.lapse == {"lights": 0}


def test_refund_after_a_claim_takes_the_claim_down_and_is_told() -> None:
    """A refund came: the bill is 800 now, 900 of it was claimed from two funds, 2 to 1."""
    lamps = expense("lamps", 800_00, "lighting")
    funds = (fund("flex", 1000_00), fund("lights", 1000_00, only("lighting")))
    problem = Problem(expenses=(lamps,), funds=funds)
    claim = locked(problem, ("lamps", "flex", 600_00), ("lamps", "lights", 300_00))
    fit = best_fit(claim)
    assert [(row.fund, row.cents) for row in fit.shares] == [("flex", 533_33), ("lights", 266_67)]
    assert [(one.code, one.cents) for one in fit.findings] == [("more_than_expense", 100_00)]


def test_match_that_was_claimed_twice_is_told() -> None:
    funds = (
        fund("nation", 500_00, federal=True, match=Match()),
        fund("coast", 500_00, federal=True, match=Match()),
    )
    items = (expense("steel", 800_00), gift("hours", 300_00))
    problem = counted(
        Problem(expenses=items, funds=funds),
        ("hours", "nation", "", 200_00),
        ("hours", "coast", "", 200_00),
    )
    fit = best_fit(problem)
    assert [(one.code, one.cents) for one in fit.findings] == [("counted_once", 100_00)]
    assert sum(row.cents for row in fit.counted if row.expense.key == "hours") == 300_00


def test_claimed_overhead_counts_against_the_award_though_its_rule_is_gone() -> None:
    """Of 12,000 the nation's 10,699 are charged; 1,400 of overhead that is claimed leave 10,600."""
    problem = replace(case_c(), locked_indirect={"nation": 1400_00})
    fit = best_fit(problem)
    assert (fit.charged["nation"], fit.indirect) == (10_600_00, {"nation": 1400_00})
    assert (fit.used, fit.lapse["nation"]) == (21_500_00, 0)


def test_too_many_expenses_to_keep_whole_are_refused() -> None:
    many = tuple(expense(str(number), 1_00) for number in range(2001))
    whole = Problem(expenses=many, funds=(fund("flex", 9_00),), policy=Policy(whole_expenses=True))
    with pytest.raises(TooManyToKeepWhole) as refused:
        best_fit(whole)
    assert (refused.value.choices, refused.value.most) == (2001, 2000)


def test_a_key_that_is_given_twice_is_refused() -> None:
    twice = (expense("steel", 1), expense("steel", 2))
    with pytest.raises(SameKey) as refused:
        Problem(expenses=twice, funds=())
    assert refused.value.key == "steel"


def test_a_locked_share_of_an_expense_that_left_is_told() -> None:
    gone = expense("gone", 10_00, day=date(2031, 1, 1))
    problem = replace(case_a(), locked=(Share(expense=gone, fund="flex", cents=10_00),))
    fit = best_fit(problem)
    assert [(one.code, one.expense) for one in fit.findings] == [("more_than_expense", "gone")]
    assert fit.used == 10_000_00
