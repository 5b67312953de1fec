"""Random tiny projects, and the same as the engine's values."""

import random
from datetime import date
from typing import Any

from budgets.engine import Expense, Fund, Match, Rule, rule_from
from budgets.engine.best import Policy, Problem
from tests.budgets.engine.best.brute import CATEGORIES, Tiny, TinyExpense, TinyFund, size

DAY = date(2031, 3, 3)
LARGEST = 4_000  # ways to try


def random_tiny(seed: int, **wish: Any) -> Tiny:
    """The first of a row of random projects that is small enough to try every way."""
    rng = random.Random(seed)
    while True:
        found = one(rng, **wish)
        if size(found) <= LARGEST:
            return found


def one(rng: random.Random, **wish: Any) -> Tiny:
    funds = tuple(random_fund(rng) for _ in range(rng.randint(1, 3)))
    expenses = tuple(random_expense(rng) for _ in range(rng.randint(2, 5)))
    return Tiny(expenses, funds, **wish)


def random_expense(rng: random.Random) -> TinyExpense:
    return TinyExpense(
        cents=rng.randint(1, 5),
        category=rng.choice(CATEGORIES),
        kind=rng.random() < 0.2,
        papers=rng.random() > 0.1,
        hours=rng.choice((0, 0, 1, 2)),
        partner=rng.choice(("", "", "", "Quarry Lane", "Fold Studio")),
    )


def random_fund(rng: random.Random) -> TinyFund:
    def some(most: int = 2) -> frozenset[str]:
        return frozenset(rng.sample(CATEGORIES, rng.randint(1, most)))

    offered: tuple[tuple[float, dict[str, Any]], ...] = (
        (0.3, {"federal": True}),
        (0.15, {"steady": True}),
        (0.3, {"papers": True}),
        (0.3, {"pool": "city"}),
        (0.25, {"allowed": some()}),
        (0.15, {"barred": some(1)}),
        (0.1, {"match_only": some(1)}),
        (0.5, random_match(rng)),
        (0.3, {"caps": ((some(), rng.randint(0, 4)),)}),
        (0.2, {"claimed_caps": ((rng.choice(CATEGORIES), rng.choice((1500, 2500, 5000))),)}),
        (0.15, {"floors": ((rng.choice(CATEGORIES), rng.choice((1500, 3000, 5000))),)}),
        (0.15, {"total_cap": (rng.choice(CATEGORIES), rng.choice((1500, 2500)))}),
        (0.25, random_budget(rng)),
        (0.25, random_overhead(rng)),
        (0.2, {"per_hour": rng.randint(0, 3)}),
    )
    values: dict[str, Any] = {"award": rng.randint(1, 9)}
    for chance, given in offered:
        if rng.random() < chance:
            values |= given
    return TinyFund(**values)


def random_match(rng: random.Random) -> dict[str, Any]:
    return {
        "match": rng.choice(((1, 1), (1, 2), (1, 3), (2, 1), (3, 7))),
        "kind": rng.random() < 0.7,
        "cash": rng.choice((0, 0, 5000, 3333)),
        "kind_most": rng.choice((10_000, 10_000, 2500, 5000)),
    }


def random_budget(rng: random.Random) -> dict[str, Any]:
    return {
        "budget": tuple(rng.randint(0, 4) for _ in CATEGORIES),
        "tolerance": (rng.choice(("total", "line")), rng.choice((0, 1000, 2500))),
    }


def random_overhead(rng: random.Random) -> dict[str, Any]:
    return {
        "overhead": rng.choice((1500, 5000, 10_000)),
        "no_overhead": frozenset(rng.sample(CATEGORIES, rng.randint(0, 1))),
        "partner_most": rng.choice((None, 1, 2)),
    }


def problem_of(tiny: Tiny, **policy: Any) -> Problem:
    matching = None if tiny.own_is_match else frozenset({"grant", "fee", "in_kind"})
    return Problem(
        expenses=tuple(expense(n, item) for n, item in enumerate(tiny.expenses)),
        funds=tuple(fund(n, item) for n, item in enumerate(tiny.funds)),
        policy=Policy(
            strict_pools=tiny.strict,
            whole_expenses=tiny.whole,
            match_from=matching,
            **policy,
        ),
    )


def expense(number: int, item: TinyExpense) -> Expense:
    return Expense(
        key=f"e{number}",
        amount=item.cents,
        day=DAY,
        category=item.category,
        in_kind=item.kind,
        papers=frozenset({"receipt", "letter", "timesheet"} if item.papers else ()),
        units=100 * item.hours,
        unit="hour" if item.hours else "",
        partner=item.partner,
    )


def fund(number: int, item: TinyFund) -> Fund:
    match = item.match and Match(
        numerator=item.match[0],
        denominator=item.match[1],
        in_kind=item.kind,
        cash_basis_points=item.cash,
        kind_basis_points=item.kind_most,
    )
    return Fund(
        key=f"f{number}",
        name=f"Fund {number}",
        award=item.award,
        federal=item.federal,
        pool=item.pool,
        kind="fee" if item.steady else "grant",
        match=match,
        budget=dict(zip(CATEGORIES, item.budget, strict=True)) if item.budget else {},
        rules=rules(item),
    )


def rules(item: TinyFund) -> tuple[Rule, ...]:
    rows: list[tuple[str, dict[str, Any]]] = []
    if item.allowed != frozenset(CATEGORIES):
        rows.append(("allowed_categories", {"categories": sorted(item.allowed)}))
    if item.barred:
        rows.append(("barred_categories", {"categories": sorted(item.barred)}))
    if item.match_only:
        rows.append(("match_only", {"categories": sorted(item.match_only)}))
    if item.papers:
        papers = ["receipt", "letter", "timesheet"]
        rows.append(("papers_needed", {"papers": papers}))
    rows += [("category_cap", {"categories": sorted(names), "cents": n}) for names, n in item.caps]
    for code, limits in (
        ("category_claimed_cap", item.claimed_caps),
        ("category_floor", item.floors),
        ("category_total_cap", [item.total_cap] if item.total_cap else []),
    ):
        rows += [(code, {"categories": [name], "basis_points": bp}) for name, bp in limits]
    if item.budget:
        rows.append(("agreed_budget", {"of": item.tolerance[0], "basis_points": item.tolerance[1]}))
    if item.overhead:
        given = {"basis_points": item.overhead, "excluded": sorted(item.no_overhead)}
        rows.append(("indirect_rate", {**given, "partner_cents": item.partner_most}))
    if item.per_hour is not None:
        rows.append(("rate_ceiling", {"unit": "hour", "mills": 10 * item.per_hour}))
    return tuple(rule_from(code, values) for code, values in rows)
