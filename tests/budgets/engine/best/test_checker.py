"""The checker finds whatever an assignment breaks, each rule by its code."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from budgets.engine import Counted, Fund, Match, Rule, Share, rule_from
from budgets.engine.best import Fit, Policy, Problem, best_fit, check
from tests.budgets.engine.best.cases import case_a, case_b, expense, fund, gift, only, two_papers

STEEL, LAMPS = expense("steel", 1000_00), expense("lamps", 600_00, "lighting")
HOURS = gift("hours", 500_00)


def paid(problem: Problem, *shares: tuple[str, str, int], **given: Any) -> Fit:
    """A fit by hand: its figures add up, whatever its rules say."""
    items = {item.key: item for item in problem.expenses}
    rows = tuple(Share(expense=items[key], fund=name, cents=cents) for key, name, cents in shares)
    own = {item.key: item.amount for item in problem.expenses if not item.in_kind}
    for row in rows:
        own[row.expense.key] -= row.cents
    used = sum(row.cents for row in rows) + sum(given.get("indirect", {}).values())
    return Fit(shares=rows, own=own, used=used, bound=used, **given)


def match(item: Any, name: str, payer: str, cents: int) -> Counted:
    return Counted(expense=item, fund=name, payer=payer, cents=cents)


def codes(problem: Problem, fit: Fit) -> set[str]:
    return {finding.code for finding in check(problem, fit)}


def one(*rules: Rule, **given: Any) -> Problem:
    funds: tuple[Fund, ...] = (fund("flex", 1200_00, *rules, **given), fund("rest", 500_00))
    return Problem(expenses=(STEEL, LAMPS, HOURS), funds=funds)


@pytest.mark.parametrize(
    ("code", "rule", "shares"),
    [
        ("award", None, [("steel", 1000_00), ("lamps", 200_01)]),
        ("allowed_categories", only("lighting"), [("steel", 1)]),
        ("category_cap", ("category_cap", {"cents": 99}), [("steel", 100)]),
        ("category_share_cap", ("category_share_cap", {"basis_points": 1000}), [("steel", 120_01)]),
        ("category_total_cap", ("category_total_cap", {"basis_points": 100}), [("steel", 21_01)]),
        ("category_claimed_cap", ("category_claimed_cap", {"basis_points": 5000}),
         [("steel", 100), ("lamps", 99)]),
        ("category_floor", ("category_floor", {"basis_points": 5000}),
         [("steel", 99), ("lamps", 100)]),
    ],
)  # fmt: skip
def test_a_cent_too_much_is_found_by_its_rule(code: str, rule: Any, shares: Any) -> None:
    if isinstance(rule, tuple):
        rule = rule_from(rule[0], {"categories": ["materials"], **rule[1]})
    problem = one(*([rule] if rule else []))
    fit = paid(problem, *((key, "flex", cents) for key, cents in shares))
    assert codes(problem, fit) == {code}


@pytest.mark.parametrize(("way", "cents"), [("total", 160_01), ("line", 110_01)])
def test_a_cent_beyond_the_agreed_budget_is_found(way: str, cents: int) -> None:
    rule = rule_from("agreed_budget", {"of": way, "basis_points": 1000})
    problem = one(rule, budget={"materials": 100_00, "lighting": 500_00})
    assert codes(problem, paid(problem, ("steel", "flex", cents))) == {"agreed_budget"}
    assert codes(problem, paid(problem, ("steel", "flex", cents - 1))) == set()


def test_a_charge_without_its_papers_is_found() -> None:
    bare = replace(STEEL, papers=frozenset())
    problem = Problem(expenses=(bare,), funds=(fund("flex", 900_00, two_papers()),))
    assert codes(problem, paid(problem, ("steel", "flex", 1))) == {"papers_needed"}


def test_a_charge_above_a_rate_is_found() -> None:
    hours = expense("walks", 100_00, units=2_00, unit="hour")
    rule = rule_from("rate_ceiling", {"unit": "hour", "mills": 400_00})
    problem = Problem(expenses=(hours,), funds=(fund("flex", 900_00, rule),))
    assert codes(problem, paid(problem, ("walks", "flex", 80_01))) == {"rate_ceiling"}
    assert codes(problem, paid(problem, ("walks", "flex", 80_00))) == set()


def test_overhead_above_its_rate_is_found() -> None:
    problem = one(rule_from("indirect_rate", {"basis_points": 1000}))
    shares = ("steel", "flex", 100_09)
    assert codes(problem, paid(problem, shares, indirect={"flex": 10_01})) == {"indirect_rate"}
    assert codes(problem, paid(problem, shares, indirect={"flex": 10_00})) == set()
    assert codes(one(), paid(problem, shares, indirect={"flex": 1})) == {"indirect_rate"}


MATCHED = Match(cash_basis_points=5000, kind_basis_points=5000)


@pytest.mark.parametrize(
    ("found", "rows"),
    [
        (set(), [match(HOURS, "flex", "", 100_00), match(LAMPS, "flex", "", 100_00)]),
        ({"match"}, [match(HOURS, "flex", "", 99_99), match(LAMPS, "flex", "", 100_00)]),
        ({"match_kind"}, [match(HOURS, "flex", "", 100_01), match(LAMPS, "flex", "", 100_00)]),
        (
            {"match", "match_cash"},
            [match(HOURS, "flex", "", 100_00), match(LAMPS, "flex", "", 99_99)],
        ),
        ({"counted_once"}, [match(STEEL, "flex", "", 800_01)]),
        ({"match_payer", "counted_once"}, [match(STEEL, "flex", "flex", 200_01)]),
    ],
)
def test_match_is_held_to_ratio_cash_gifts_and_payer(found: set[str], rows: list[Counted]) -> None:
    problem = one(match=MATCHED)
    fit = paid(problem, ("steel", "flex", 200_00), counted=tuple(rows))
    assert codes(problem, fit) == found


def test_a_cent_counted_twice_in_a_pool_is_found() -> None:
    funds = tuple(fund(name, 900_00, federal=True, match=Match()) for name in ("nation", "coast"))
    problem = Problem(expenses=(STEEL, HOURS), funds=funds)
    rows = tuple(match(HOURS, name, "", 300_00) for name in ("nation", "coast"))
    fit = paid(problem, ("steel", "nation", 300_00), ("steel", "coast", 300_00), counted=rows)
    assert codes(problem, fit) == {"counted_once"}
    apart = replace(problem, funds=(funds[0], replace(funds[1], federal=False)))
    assert codes(apart, fit) == set()
    strict = replace(apart, policy=Policy(strict_pools=True))
    assert codes(strict, fit) == {"counted_once"}


def test_match_from_whom_the_artist_leaves_out_is_found() -> None:
    problem = replace(one(match=Match()), policy=Policy(match_from=frozenset({"in_kind"})))
    rows = (match(LAMPS, "flex", "", 100_00), match(HOURS, "flex", "", 100_00))
    fit = paid(problem, ("steel", "flex", 200_00), counted=rows)
    assert codes(problem, fit) == {"match_payer"}


@pytest.mark.parametrize(
    "spoil",
    [
        lambda fit: replace(fit, own={**fit.own, "2 paint": 1}),
        lambda fit: replace(fit, shares=fit.shares[1:], used=5000_00),
        lambda fit: replace(fit, used=fit.used - 1),
        lambda fit: replace(fit, bound=fit.used - 1),
        lambda fit: replace(fit, shares=(*fit.shares, Share(expense=STEEL, fund="flex", cents=0))),
        lambda fit: replace(fit, counted=(match(STEEL, "flex", "", 1),)),
    ],
)
def test_figures_that_do_not_add_up_are_found(spoil: Callable[[Fit], Fit]) -> None:
    problem = case_a()
    fit = best_fit(problem)
    assert not check(problem, fit)
    assert check(problem, spoil(fit))


def test_a_gift_that_pays_a_bill_is_found() -> None:
    problem = one()
    fit = replace(paid(problem), shares=(Share(expense=HOURS, fund="flex", cents=1),), used=1)
    assert "gifts" in codes(problem, replace(fit, bound=1))


def test_less_than_what_is_claimed_is_found() -> None:
    problem = case_b()
    lamps = problem.expenses[0]
    claim = replace(
        problem,
        locked=(Share(expense=lamps, fund="match", cents=1_00),),
        locked_match=(match(problem.expenses[3], "match", "", 2_00),),
    )
    fit = best_fit(problem)
    bare = replace(fit, counted=tuple(row for row in fit.counted if not row.expense.in_kind))
    assert {one.code for one in check(claim, bare)} >= {"locked", "match"}
    assert [one.sentence for one in check(claim, fit)] == ["Less than what is claimed."]
