"""Random books of some dollars: every kind of rule, periods, locks, forecasts; one seed each."""

import random
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from budgets.engine import Counted, Expense, Fund, Match, Rule, Share, rule_from
from budgets.engine.best import Policy, Problem, best_fit
from budgets.engine.categories import CATEGORIES

NAMES = tuple(sorted(CATEGORIES))[:8]
START = date(2031, 1, 1)


def random_books(seed: int, most: int = 40, **policy: Any) -> Problem:
    rng = random.Random(seed)
    expenses = tuple(random_expense(rng, number) for number in range(rng.randint(1, most)))
    cash = sum(item.amount for item in expenses if not item.in_kind)
    funds = tuple(random_fund(rng, number, cash) for number in range(rng.randint(1, 5)))
    return Problem(expenses=expenses, funds=funds, policy=Policy(**policy))


def random_expense(rng: random.Random, number: int) -> Expense:
    gift = rng.random() < 0.15
    by_hour = rng.random() < 0.15
    papers = {"letter", "timesheet"} if gift else {"receipt", "payment"}
    return Expense(
        key=f"e{number}",
        amount=rng.choice((rng.randint(1, 400), rng.randint(1_00, 5000_00))),
        day=START + timedelta(days=rng.randrange(365)),
        category=rng.choice(NAMES),
        in_kind=gift,
        papers=frozenset(papers if rng.random() < 0.9 else {"receipt"}),
        forecast=rng.random() < 0.1,
        place=rng.choice(("", "Wexcombe Mills", "Hallam")),
        relation=rng.choice(("", "", "", "related")),
        units=rng.randint(1, 40) * 50 if by_hour else 0,
        unit="hour" if by_hour else "",
        partner=rng.choice(("", "", "Quarry Lane")),
        quotes=rng.randint(0, 3),
        reasoned=rng.random() < 0.7,
    )


def random_fund(rng: random.Random, number: int, cash: int) -> Fund:
    opens = START + timedelta(days=rng.randrange(-60, 60))
    made = random_rules(rng, opens, cash)
    match = Match(
        numerator=rng.choice((1, 1, 2, 3)),
        denominator=rng.choice((1, 2, 3, 7)),
        in_kind=rng.random() < 0.8,
        cash_basis_points=rng.choice((0, 0, 5000)),
        kind_basis_points=rng.choice((10_000, 10_000, 2500)),
    )
    budget = {name: rng.randint(0, cash // 8) for name in NAMES} if rng.random() < 0.3 else {}
    return Fund(
        key=f"f{number}",
        name=f"Fund {number}",
        award=rng.randint(1, max(1, cash)),
        federal=rng.random() < 0.3,
        kind=rng.choice(("grant", "grant", "sponsor", "fee")),
        pool=rng.choice(("", "", "town")),
        period_start=opens if rng.random() < 0.5 else None,
        period_end=opens + timedelta(days=rng.randrange(90, 400)) if rng.random() < 0.7 else None,
        match=match if rng.random() < 0.5 else None,
        rules=made,
        budget=budget,
    )


def random_rules(rng: random.Random, opens: date, cash: int) -> tuple[Rule, ...]:
    some = sorted(rng.sample(NAMES, rng.randint(1, 4)))
    dated = {"starts_on": opens + timedelta(days=60)} if rng.random() < 0.5 else {}
    share = {"categories": some, "basis_points": rng.choice((500, 1500, 3333))}
    offered = (
        (0.2, "allowed_categories", {"categories": some}, {}),
        (0.2, "barred_categories", {"categories": some, "match_too": rng.random() < 0.5}, {}),
        (0.1, "match_only", {"categories": some}, {}),
        (0.3, "papers_needed", {"papers": ["receipt", "payment", "letter"], "cents": 50_00}, {}),
        (0.1, "places", {"places": ["Wexcombe"], "categories": some}, {}),
        (0.1, "barred_relations", {"relations": ["related"]}, {}),
        (0.1, "quotes_needed", {"cents": 500_00, "quotes": 2}, dated),
        (0.1, "reason_needed", {"cents": 1000_00}, {}),
        (0.3, "category_cap", {"categories": some, "cents": rng.randint(0, cash)}, dated),
        (0.2, "category_share_cap", share, {}),
        (0.2, "category_claimed_cap", share, dated),
        (0.1, "category_total_cap", share, {}),
        (0.1, "category_floor", {"categories": some, "basis_points": 400}, {}),
        (0.3, "agreed_budget", {"basis_points": 1000, "of": rng.choice(("total", "line"))}, {}),
        (0.2, "indirect_rate", {"basis_points": 1500, "partner_cents": 300_00}, {}),
        (0.2, "rate_ceiling", {"unit": "hour", "mills": 450_00}, {}),
    )
    return tuple(
        rule_from(code, values, **days)
        for chance, code, values, days in offered
        if rng.random() < chance
    )


def with_locks(problem: Problem, seed: int) -> Problem:
    """With part of the best fit claimed, as after a first report."""
    rng, fit = random.Random(seed), best_fit(problem)
    shares = tuple(row for row in fit.shares if rng.random() < 0.4 and not row.expense.forecast)
    match = tuple(row for row in fit.counted if rng.random() < 0.4 and not row.expense.forecast)
    return replace(problem, locked=shares, locked_match=match)


def keys(rows: tuple[Share, ...] | tuple[Counted, ...]) -> set[tuple[object, ...]]:
    return {
        (row.expense.key, row.fund, row.cents, row.payer if isinstance(row, Counted) else None)
        for row in rows
    }
