"""Who pays each expense and what it counts for, as it is kept, compared and put back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from budgets import engine
from budgets.fit.books import Books
from budgets.models import OURS, Fund


@dataclass(frozen=True, slots=True)
class Paid:
    """Of one expense, in cents: `shares` by fund, `counted` as match by fund and payer.

    A payer of None is the artist's own money, or nobody when the expense is a gift.
    """

    shares: Mapping[int, int] = field(default_factory=dict)
    counted: Mapping[tuple[int, int | None], int] = field(default_factory=dict)

    def kept(self) -> dict[str, Any]:
        """As it is stored, in an order that is always the same."""
        counted = sorted(self.counted.items(), key=lambda item: (item[0][0], item[0][1] or 0))
        return {
            "shares": [list(item) for item in sorted(self.shares.items())],
            "counted": [[fund, payer, cents] for (fund, payer), cents in counted],
        }


def from_kept(kept: Mapping[str, Any]) -> Paid:
    return Paid(
        dict(kept["shares"]),
        {(fund, payer): cents for fund, payer, cents in kept["counted"]},
    )


def paid_now(books: Books) -> dict[int, Paid]:
    """Of every expense, also of one that nobody pays."""
    return {
        row.pk: Paid(books.shares_of.get(row.pk, {}), books.counted_of.get(row.pk, {}))
        for row in books.expenses
    }


def paid_after(
    books: Books, shares: Iterable[engine.Share], counted: Iterable[engine.Counted]
) -> dict[int, Paid]:
    """Of every expense, once the funders pay `shares`; what they leave stays on own money."""
    funders: dict[int, dict[int, int]] = {row.pk: {} for row in books.expenses}
    for share in shares:
        if not share.expense.forecast:
            add(funders[int(share.expense.key)], int(share.fund), share.cents)
    match: dict[int, dict[tuple[int, int | None], int]] = {row.pk: {} for row in books.expenses}
    for row in counted:
        if not row.expense.forecast:
            payer = int(row.payer) if row.payer else None
            add(match[int(row.expense.key)], (int(row.fund), payer), row.cents)
    return {pk: Paid(with_ours(books, pk, paid), match[pk]) for pk, paid in funders.items()}


def add(sums: dict[Any, int], key: Any, cents: int) -> None:
    if cents:
        sums[key] = sums.get(key, 0) + cents


def with_ours(books: Books, expense: int, paid: Mapping[int, int]) -> dict[int, int]:
    """What own money and gifts pay now they go on paying, as far as anything is left."""
    left = books.expense_values[expense].amount - sum(paid.values())
    found = dict(paid)
    for fund, cents in books.shares_of.get(expense, {}).items():
        kept = min(cents, left) if fund in ours(books) else 0
        if kept > 0:
            found[fund] = kept
            left -= kept
    return found


def ours(books: Books) -> frozenset[int]:
    return frozenset(fund.pk for fund in books.funds if is_ours(fund))


def is_ours(fund: Fund) -> bool:
    return fund.kind in OURS
