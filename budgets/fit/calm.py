"""Among fits that are as good, one that leaves alone as much as it can of what is shared out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from budgets import engine
from budgets.engine import best as optimum
from budgets.fit.assignment import is_ours
from budgets.fit.books import Books
from budgets.models import Fund

TRIES = 8  # each is another solution


def calmest(problem: optimum.Problem, fit: optimum.Fit, books: Books) -> optimum.Fit:
    """Hold fast what is charged now, fund by fund, as long as nothing is lost by it."""
    groups = [now for now in sound_now(books) if now]
    everything = [share for now in groups for share in now]
    kept: list[engine.Share] = []
    for more in [everything, *groups][:TRIES]:
        found = holding(problem, [*kept, *more])
        if found is not None and as_good(found, fit):
            fit, kept = found, [*kept, *more]
            if len(kept) == len(everything):
                break
    return fit


def sound_now(books: Books) -> list[list[engine.Share]]:
    """What each funder pays now of what it may pay: no rule bars it by itself."""
    rows = books.share_values
    return [
        [row for row in rows if row.fund == str(fund.pk) and sound(books, fund, row)]
        for fund in books.funds
        if not is_ours(fund)
    ]


def sound(books: Books, fund: Fund, share: engine.Share) -> bool:
    """Not barred, nor above a ceiling; what a filed claim holds, or a closed fund paid, stands."""
    value, expense = books.fund_values[fund.pk], share.expense
    held = books.locked.get((int(expense.key), fund.pk), 0)
    if share.cents <= held or value.status is engine.Status.CLOSED:
        return True
    return not engine.bars(value, expense) and share.cents <= engine.eligible(value, expense)


def holding(problem: optimum.Problem, shares: Sequence[engine.Share]) -> optimum.Fit | None:
    """The best fit that lowers none of the shares; None where rules forbid them."""
    least = {(share.expense.key, share.fund): share for share in [*shares, *problem.locked]}
    for share in shares:
        key = (share.expense.key, share.fund)
        if share.cents > least[key].cents:
            least[key] = share
    try:
        return optimum.best_fit(replace(problem, locked=tuple(least.values())))
    except optimum.BestError:
        return None


def as_good(found: optimum.Fit, fit: optimum.Fit) -> bool:
    return (
        found.used >= fit.used
        and found.steady <= fit.steady
        and len(found.findings) <= len(fit.findings)
    )
