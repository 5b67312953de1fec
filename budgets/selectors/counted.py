"""What counts as match for a fund: the expenses, who pays them, and how much."""

from __future__ import annotations

from dataclasses import dataclass

from budgets import engine
from budgets.fit import Books
from budgets.models import Expense, Fund


@dataclass(frozen=True, kw_only=True)
class MatchRow:
    """Cents of an expense, paid by a fund; by none it is own money, or a gift."""

    expense: Expense
    payer: Fund | None
    cents: int


@dataclass(frozen=True, kw_only=True)
class MatchOf:
    """`could` is what there is to count where nothing is written down yet."""

    asked: bool
    rows: tuple[MatchRow, ...]
    total: int
    could: int


def match_of(books: Books, fund: Fund) -> MatchOf:
    funds = {row.pk: row for row in books.funds}
    rows = tuple(
        MatchRow(expense=expense, payer=funds.get(payer or 0), cents=cents)
        for expense in books.expenses
        for (award, payer), cents in books.counted_of.get(expense.pk, {}).items()
        if award == fund.pk
    )
    return MatchOf(
        asked=engine.match_of(books.fund_values[fund.pk]) is not None,
        rows=rows,
        total=sum(row.cents for row in rows),
        could=0 if rows else books.states[fund.pk].match_found,
    )
