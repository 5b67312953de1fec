"""Any assignment of the books as the engine's, with figures that its checker can add up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from budgets import engine
from budgets.engine import best as optimum
from budgets.fit.assignment import Paid, ours
from budgets.fit.books import Books

Shares = Sequence[engine.Share]
CountedRows = Sequence[engine.Counted]


def values_of(
    books: Books, paid: Mapping[int, Paid]
) -> tuple[list[engine.Share], list[engine.Counted]]:
    """What funders pay; own money and gifts are what is left."""
    values, mine = books.expense_values, ours(books)
    shares = [
        engine.Share(expense=values[pk], fund=str(fund), cents=cents)
        for pk, one in paid.items()
        for fund, cents in one.shares.items()
        if fund not in mine
    ]
    counted = [
        engine.Counted(expense=values[pk], fund=str(fund), payer=str(payer or ""), cents=cents)
        for pk, one in paid.items()
        for (fund, payer), cents in one.counted.items()
    ]
    return shares, counted


def assembled(
    problem: optimum.Problem,
    shares: Shares,
    counted: CountedRows,
    indirect: Mapping[str, int] | None = None,
) -> optimum.Fit:
    charged, by_fund = Counter[str](), Counter[str](indirect or {})
    for share in shares:
        charged[share.expense.key] += share.cents
        by_fund[share.fund] += share.cents
    kinds = {fund.key: fund.kind for fund in problem.sources}
    used = sum(cents for key, cents in by_fund.items() if kinds.get(key) not in optimum.STEADY)
    cash = [item for item in problem.taking_part if not item.in_kind]
    own = {item.key: item.amount - charged[item.key] for item in cash}
    return optimum.Fit(
        shares=tuple(share for share in shares if share.cents),
        counted=tuple(counted),
        indirect=dict(indirect or {}),
        used=used,
        bound=used,
        own={key: cents for key, cents in own.items() if cents},
    )
