"""Why a fund pays no more at the best fit: what is left to pay, and what is in the way."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from budgets import engine
from budgets.engine import best as optimum

LOOKED_AT = 12  # of what is left to pay, the largest
NO_GAIN = "no_gain"


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacle:
    """A rule, in words, with the cents of what is left to pay that it keeps from the fund.

    `outright` when it bars that by itself, whatever else is charged.
    """

    code: str
    sentence: str
    todo: str
    cents: int
    outright: bool


def obstacles(problem: optimum.Problem, fit: optimum.Fit, fund: engine.Fund) -> list[Obstacle]:
    """The largest first, those that more money could move before all; none when all is paid."""
    explainer, sums = optimum.Explainer(problem, fit), Counter[str]()
    kept: dict[str, Obstacle] = {}
    for expense, left in left_to_pay(problem, fit):
        for row in in_the_way(explainer, fund, expense):
            kept.setdefault(row.code, row)
            sums[row.code] += left
    found = [
        Obstacle(
            code=row.code,
            sentence=row.sentence,
            todo=row.todo,
            cents=sums[row.code],
            outright=row.outright,
        )
        for row in kept.values()
    ]
    return sorted(found, key=lambda row: (row.outright, -row.cents, row.code))


def left_to_pay(problem: optimum.Problem, fit: optimum.Fit) -> Iterator[tuple[engine.Expense, int]]:
    """What stays on own money, the largest first; so many as need be looked at."""
    values = {item.key: item for item in problem.taking_part}
    left = [row for row in fit.own.items() if row[1] and row[0] in values]
    rows = sorted(left, key=lambda row: (-row[1], row[0]))
    yield from ((values[key], cents) for key, cents in rows[:LOOKED_AT])


def in_the_way(
    explainer: optimum.Explainer, fund: engine.Fund, expense: engine.Expense
) -> list[Obstacle]:
    """The rules that keep one more cent of the expense off the fund."""
    barred = engine.bars(fund, expense)
    if barred:
        return [obstacle(row.code, row.rule, "", outright=True) for row in barred]
    return [
        obstacle(row.code, row.sentence.removeprefix(f"{fund.name}: "), row.todo, outright=False)
        for row in explainer.of_fund(fund, expense)
        if row.code != NO_GAIN
    ]


def obstacle(code: str, sentence: str, todo: str, *, outright: bool) -> Obstacle:
    return Obstacle(code=code, sentence=sentence, todo=todo, cents=0, outright=outright)
