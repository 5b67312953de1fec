"""What is to be made most, in order, and which fund goes first."""

from collections.abc import Iterable, Mapping

from budgets.engine.best.classes import NOBODY, Classes, Flow
from budgets.engine.best.problem import STEADY
from budgets.engine.best.program import Parts, Program
from budgets.engine.categories import CATEGORIES
from budgets.engine.model import Fund
from budgets.engine.rules.categories import (
    AllowedCategories,
    BarredCategories,
    MatchOnlyCategories,
)


def objectives(program: Program, classes: Classes) -> list[Parts]:
    """Money that lapses; money that does not; what is spent before what is still to be spent.

    Then narrow money first; then little match, gifts first, and none that is still to come.
    """
    sums: list[Parts] = [{}, {}, {}, {}, {}]
    order = ranks(classes)
    for fund, unknown in spent(program):
        sums[classes.funds[fund].kind in STEADY][unknown] = 1
        sums[3][unknown] = -order[fund]
    if any(bucket.forecast for bucket in classes.buckets):
        sums[2] = {
            unknown: 1
            for (number, _), unknown in program.charge.items()
            if not classes.buckets[number].forecast
        }
    for (number, _), unknown in program.match.items():
        sums[4][unknown] = -dear(classes.flows[number])
    sums[4].update(dict.fromkeys(program.overhead.values(), -1))
    return sums


def dear(flow: Flow) -> int:
    """Which cents are match last: those that another award could need, or that are not there."""
    rank = 2 if flow.kind else 3 if flow.payer == NOBODY else 4
    return rank + 3 * flow.forecast


def spent(program: Program) -> Iterable[tuple[int, int]]:
    """Fund and unknown of all that is charged, overhead too."""
    yield from ((fund, unknown) for (_, fund), unknown in program.charge.items())
    yield from program.overhead.items()


def ranks(classes: Classes) -> Mapping[int, int]:
    """Narrow and early-closing money first: how many categories it can pay, then its last day."""
    named = {*CATEGORIES, *(item.category for item in classes.expenses)}
    far = max((fund.period_end.toordinal() for fund in classes.funds if fund.period_end), default=0)

    def key(place: int) -> tuple[int, int, str]:
        fund = classes.funds[place]
        end = fund.period_end.toordinal() if fund.period_end else far + 1
        return len(categories_of(fund, named)), end, fund.key

    return {fund: rank for rank, fund in enumerate(sorted(range(len(classes.funds)), key=key))}


def categories_of(fund: Fund, named: Iterable[str]) -> frozenset[str]:
    """Those of the categories that a fund's lists let it pay."""
    found = frozenset(named)
    for rule in fund.rules:
        if isinstance(rule, AllowedCategories):
            found &= rule.categories
        elif isinstance(rule, BarredCategories | MatchOnlyCategories):
            found -= rule.categories
    return found
