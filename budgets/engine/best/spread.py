"""The whole cents of the classes as shares and match of the expenses."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from budgets.engine.best.classes import NOBODY, Classes
from budgets.engine.best.crumbs import without_crumbs
from budgets.engine.best.matching import Found, counted_of
from budgets.engine.best.pour import Pieces, Swaps, pour, pour_under
from budgets.engine.best.problem import STEADY, Fit, Problem
from budgets.engine.best.program import Program
from budgets.engine.model import Counted, Share, Status


def fit_of(problem: Problem, classes: Classes, program: Program, values: Sequence[int]) -> Fit:
    """Pour the classes back on the expenses and add what is locked."""
    least = 0 if problem.policy.whole_expenses else problem.policy.minimum_charge
    cents, pieces = list(values), Pieces()
    for number in range(len(classes.buckets)):
        pieces |= poured(classes, program, cents, number, least)
    counted = counted_of(classes, program, cents, pieces)
    shares = Counter(pieces)
    shares.update(classes.locks.shares)
    fit = summed_up(problem, classes, program, cents, shares, counted)
    return replace(fit, crumbs=sum(values[key] - cents[key] for key in program.objectives[0]))


def poured(
    classes: Classes, program: Program, values: list[int], number: int, least: int
) -> Pieces:
    """One class on its expenses; crumbs are swapped away, else left out where no rule minds."""
    pieces = once_poured(classes, program, values, number, least)
    if least > 1 and without_crumbs(classes, program, values, number, pieces, least):
        return once_poured(classes, program, values, number, least)
    return pieces


def once_poured(
    classes: Classes, program: Program, values: Sequence[int], number: int, least: int
) -> Pieces:
    bucket = classes.buckets[number]
    wants = {fund: values[program.charge[number, fund]] for fund in bucket.funds}
    if bucket.ceilings:
        return pour_under(bucket.items, wants, bucket.ceilings)
    pieces = pour(bucket.items, [(fund, cents) for fund, cents in wants.items() if cents])
    return Swaps(pieces, dict(bucket.items), least).tidy() if least > 1 else pieces


def summed_up(
    problem: Problem,
    classes: Classes,
    program: Program,
    values: Sequence[int],
    shares: Counter[tuple[int, int]],
    counted: Found,
) -> Fit:
    funds, expenses, keys = classes.funds, classes.expenses, classes.locks.payer_keys
    rows = [
        Share(expense=expenses[place], fund=funds[fund].key, cents=cents)
        for (place, fund), cents in sorted(shares.items())
        if cents and fund != NOBODY
    ]
    match = [
        Counted(
            expense=expenses[place],
            fund=funds[award].key,
            payer=keys.get((place, payer, award), "" if payer == NOBODY else funds[payer].key),
            cents=cents,
        )
        for (place, payer, award), cents in sorted(counted.items())
        if cents
    ]
    overhead = {fund: cents for fund, cents in program.claimed.items() if cents}
    for fund, unknown in program.overhead.items():
        overhead[fund] = program.claimed[fund] + values[unknown]
    indirect = {funds[fund].key: cents for fund, cents in sorted(overhead.items())}
    return with_totals(problem, classes, tuple(rows), tuple(match), indirect)


def with_totals(
    problem: Problem,
    classes: Classes,
    shares: tuple[Share, ...],
    counted: tuple[Counted, ...],
    indirect: dict[str, int],
) -> Fit:
    """The figures of a fit, from its shares."""
    charged = Counter(indirect)
    own = {item.key: item.amount for item in classes.expenses if not item.in_kind}
    for share in shares:
        charged[share.fund] += share.cents
        if share.expense.key in own:
            own[share.expense.key] -= share.cents
    lapsing = [fund for fund in classes.funds if fund.kind not in STEADY]
    signed = [fund for fund in lapsing if fund.status is Status.SIGNED and fund.award is not None]
    steady = sum(charged[fund.key] for fund in classes.funds if fund.kind in STEADY)
    return Fit(
        shares=shares,
        counted=counted,
        indirect=indirect,
        used=sum(charged[fund.key] for fund in lapsing),
        steady=steady,
        lapse={fund.key: (fund.award or 0) - charged[fund.key] for fund in signed},
        own=own,
    )


def locked_use(classes: Classes) -> int:
    """Cents of money that lapses that are locked, overhead too."""
    claimed, shares = classes.problem.locked_indirect, classes.locks.shares.items()
    lapsing = {place for place, fund in enumerate(classes.funds) if fund.kind not in STEADY}
    overhead = sum(claimed.get(classes.funds[place].key, 0) for place in lapsing)
    return overhead + sum(cents for (_, payer), cents in shares if payer in lapsing)
