"""Among fits that are as good, one that leaves alone as much as it can of what is shared out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from budgets import engine
from budgets.engine import best as optimum
from budgets.fit.assignment import is_ours
from budgets.fit.books import Books
from budgets.fit.solved import best_fit
from budgets.models import Fund

TRIES = 8  # each is another solution
Shares = Sequence[engine.Share]
Match = Sequence[engine.Counted]
NONE: Match = ()
Row = TypeVar("Row")
Held = TypeVar("Held", engine.Share, engine.Counted)
Key = TypeVar("Key", bound=tuple[str, ...])


def calmest(
    problem: optimum.Problem, fit: optimum.Fit, books: Books, groups: Sequence[Shares]
) -> optimum.Fit:
    """Hold fast what is charged now, then what counts as match, as long as nothing is lost.

    `groups` are what is sound now.
    """
    kept: Shares = []
    for more in wholly_then_in_parts(groups):
        found = holding(problem, [*kept, *more])
        if found is not None and as_good(found, fit):
            fit, kept = found, [*kept, *more]
            if len(kept) == sum(map(len, groups)):
                break
    return calm_match(problem, fit, books, kept)


def calm_match(
    problem: optimum.Problem, fit: optimum.Fit, books: Books, shares: Shares
) -> optimum.Fit:
    kept: Match = []
    rows = counted_now(books, shares)
    for more in wholly_then_in_parts(rows):
        found = holding(problem, shares, [*kept, *more])
        if found is not None and as_good(found, fit):
            fit, kept = found, [*kept, *more]
            if len(kept) == sum(map(len, rows)):
                break
    return fit


def wholly_then_in_parts(groups: Sequence[Sequence[Row]]) -> list[list[Row]]:
    """All at once first: mostly that does it."""
    filled = [list(group) for group in groups if group]
    whole = [row for group in filled for row in group]
    parts = filled if len(filled) > 1 else []
    return [group for group in [whole, *parts][:TRIES] if group]


def counted_now(books: Books, shares: Shares) -> list[Match]:
    """What counts for each award now, as far as those who pay it go on paying it."""
    paid = {(share.expense.key, share.fund): share.cents for share in shares}
    held = [
        row
        for row in books.counted_values
        if not row.payer or paid.get((row.expense.key, row.payer), 0) >= row.cents
    ]
    return [[row for row in held if row.fund == str(fund.pk)] for fund in books.funds]


def sound_now(books: Books) -> list[Shares]:
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


def holding(problem: optimum.Problem, shares: Shares, match: Match = NONE) -> optimum.Fit | None:
    """The best fit that lowers nothing of this; None where rules forbid it."""
    paid = {(row.expense.key, row.fund): row for row in problem.locked}
    counts = {(row.expense.key, row.fund, row.payer): row for row in problem.locked_match}
    for row in shares:
        larger(paid, (row.expense.key, row.fund), row)
    for part in match:
        larger(counts, (part.expense.key, part.fund, part.payer), part)
    held = replace(problem, locked=tuple(paid.values()), locked_match=tuple(counts.values()))
    try:
        return best_fit(held)
    except optimum.BestError:
        return None


def larger(least: dict[Key, Held], key: Key, row: Held) -> None:
    if key not in least or row.cents > least[key].cents:
        least[key] = row


def as_good(found: optimum.Fit, fit: optimum.Fit) -> bool:
    return (
        found.used >= fit.used
        and found.steady >= fit.steady
        and of_spent(found) >= of_spent(fit)
        and len(found.findings) <= len(fit.findings)
    )


def of_spent(fit: optimum.Fit) -> int:
    """Cents charged of what is spent, not only planned."""
    return sum(share.cents for share in fit.shares if not share.expense.forecast)
