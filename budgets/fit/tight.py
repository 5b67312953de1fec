"""Why a fund pays no more at the best fit: what is left to pay, and what is in the way."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

from budgets import engine
from budgets.engine import best as optimum

LOOKED_AT = 12  # expenses that are tried with one cent more
MATCH, CASH = "match", "match_cash"


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacle:
    """A rule, in words, with the cents of what is left to pay that it keeps from the fund.

    `outright` when it bars that by itself, whatever else is charged.
    """

    code: str
    sentence: str
    cents: int
    outright: bool


def obstacles(problem: optimum.Problem, fit: optimum.Fit, fund: engine.Fund) -> list[Obstacle]:
    """The largest first; none when nothing is left to pay."""
    sums, words = Counter[tuple[str, bool]](), dict[tuple[str, bool], str]()
    for expense, left in left_to_pay(problem, fit):
        barred = bool(engine.bars(fund, expense))
        for code, sentence in in_the_way(problem, fit, fund, expense):
            sums[code, barred] += left
            words.setdefault((code, barred), sentence)
    found = [
        Obstacle(code=key[0], sentence=words[key], cents=sums[key], outright=key[1])
        for key in words
    ]
    return sorted(found, key=lambda row: (row.outright, -row.cents, row.code))


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
    own = {**fit.own, expense.key: fit.own.get(expense.key, 0) - 1}
    tried = replace(fit, shares=(*fit.shares, more), own=own)
    plenty = match_at_hand(problem, tried, fund)
    return [
        (found.code, found.sentence.removeprefix(f"{fund.name}: "))
        for found in optimum.check(problem, tried)
        if found.fund == fund.key and found.cents > 0 and found.code not in plenty
    ]


def match_at_hand(
    problem: optimum.Problem, tried: optimum.Fit, fund: engine.Fund
) -> frozenset[str]:
    """The rules of match that are no obstacle: more of it is there and was not needed."""
    match = engine.match_of(fund, problem.total)
    charged = tried.charged[fund.key] + tried.indirect.get(fund.key, 0)
    most, cash = engine.match_found(fund, problem.taking_part, tried.shares, funds=problem.sources)
    enough = most >= engine.match_needed(match, charged)
    in_cash = cash >= engine.cash_needed(match, charged)
    return frozenset([MATCH] * enough + [CASH] * in_cash)
