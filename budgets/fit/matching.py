"""What an expense counts for as match: an amount for each award, found among who pays it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from budgets import engine
from budgets.fit.assignment import is_ours
from budgets.fit.books import Books
from budgets.models import Expense, Fund

Rows = dict[tuple[int, int | None], int]
Reasons = dict[int, tuple[engine.Refusal, ...]]


@dataclass
class Spread:
    """Cents by award and payer, and why an award gets no more."""

    rows: Rows = field(default_factory=dict)
    reasons: Reasons = field(default_factory=dict)


def awards(books: Books) -> list[Fund]:
    """The funds that ask for match."""
    return [fund for fund in books.funds if engine.match_of(books.fund_values[fund.pk])]


def matched(rows: Mapping[tuple[int, int | None], int]) -> dict[int, int]:
    """Cents by award, whoever pays them."""
    found: dict[int, int] = {}
    for (award, _), cents in rows.items():
        found[award] = found.get(award, 0) + cents
    return found


def spread(
    books: Books, expense: Expense, shares: Mapping[int, int], wanted: Mapping[int, int]
) -> Spread:
    """Find the wanted cents of each award among the payers: those of before first, own money next.

    `shares` are those that the expense is to have. Each award is judged beside those before it.
    """
    found = Spread()
    for award in awards(books):
        if cents := wanted.get(award.pk, 0):
            fill(books, expense, payers_of(books, expense, award, shares), award, cents, found)
    return found


def fill(
    books: Books,
    expense: Expense,
    payers: Mapping[int | None, int],
    award: Fund,
    cents: int,
    found: Spread,
) -> None:
    value, fund = books.expense_values[expense.pk], books.fund_values[award.pk]
    left, reasons = cents, engine.match_bars(fund, value)
    for payer, paid in payers.items():
        free = paid - counted_in_pool(books, found.rows, award, payer)
        part = 0 if reasons else max(0, min(left, free))
        if part:
            found.rows[award.pk, payer] = part
            left -= part
    if left:
        found.reasons[award.pk] = reasons or (too_much(books, expense, award, cents, cents - left),)


def payers_of(
    books: Books, expense: Expense, award: Fund, shares: Mapping[int, int]
) -> dict[int | None, int]:
    """Who may feed this award's match, with the cents of the expense that each pays."""
    value, fund = books.expense_values[expense.pk], books.fund_values[award.pk]
    if value.in_kind:
        return {None: value.amount}
    paying: dict[int | None, int] = {None: value.amount}
    for row in books.funds:
        if not is_ours(row):
            paying[row.pk] = shares.get(row.pk, 0)
            paying[None] -= paying[row.pk]
    had = [payer for (to, payer) in books.counted_of.get(expense.pk, {}) if to == award.pk]
    order = sorted(paying, key=lambda payer: payer not in had)
    return {
        payer: paying[payer]
        for payer in order
        if paying[payer] > 0
        and engine.may_pay_match(fund, books.fund_values[payer] if payer else None)
    }


def counted_in_pool(books: Books, rows: Rows, award: Fund, payer: int | None) -> int:
    """Cents of the payer that count already inside the award's pool."""
    pool = engine.pool_of(books.fund_values[award.pk])
    return sum(
        cents
        for (other, by), cents in rows.items()
        if by == payer and engine.pool_of(books.fund_values[other]) == pool
    )


def too_much(
    books: Books, expense: Expense, award: Fund, wanted: int, found: int
) -> engine.Refusal:
    most = engine.dollars(found, books.symbol)
    asked = engine.dollars(wanted, books.symbol)
    return engine.Refusal(
        code="counted_once",
        rule="A cent that a fund pays is no match for it, and counts once at most in a pool.",
        sentence=f"{most} of it can count for {award.name}: this is {asked}.",
        limit=found,
        actual=wanted,
        expense=str(expense.pk),
    )
