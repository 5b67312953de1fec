"""Why a fund pays no more at the best fit: what is left to pay, and what is in the way."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

from budgets import engine
from budgets.engine import best as optimum

LOOKED_AT = 12  # expenses that are tried with one cent more


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacle:
    """A rule, in words, with the cents of what is left to pay that it keeps from the fund."""

    code: str
    sentence: str
    cents: int


def obstacles(problem: optimum.Problem, fit: optimum.Fit, fund: engine.Fund) -> list[Obstacle]:
    """The largest first; none when nothing is left to pay."""
    sums, words = Counter[str](), dict[str, str]()
    for expense, left in left_to_pay(problem, fit):
        for code, sentence in in_the_way(problem, fit, fund, expense):
            sums[code] += left
            words.setdefault(code, sentence)
    found = [Obstacle(code=code, sentence=words[code], cents=sums[code]) for code in words]
    return sorted(found, key=lambda row: (-row.cents, row.code))


def left_to_pay(problem: optimum.Problem, fit: optimum.Fit) -> Iterator[tuple[engine.Expense, int]]:
    """What stays on own money, the largest first; so many as need be looked at."""
    values = {item.key: item for item in problem.taking_part}
    rows = sorted(fit.own.items(), key=lambda row: (-row[1], row[0]))
    yield from ((values[key], cents) for key, cents in rows[:LOOKED_AT] if key in values)


def in_the_way(
    problem: optimum.Problem, fit: optimum.Fit, fund: engine.Fund, expense: engine.Expense
) -> list[tuple[str, str]]:
    """The rules that keep one more cent of the expense off the fund."""
    barred = engine.bars(fund, expense, symbol=problem.symbol)
    if barred:
        return [(reason.code, reason.rule) for reason in barred]
    more = engine.Share(expense=expense, fund=fund.key, cents=1)
    tried = replace(fit, shares=(*fit.shares, more))
    return [
        (found.code, found.sentence.removeprefix(f"{fund.name}: "))
        for found in optimum.check(problem, tried)
        if found.fund == fund.key and found.cents > 0
    ]
