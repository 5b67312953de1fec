"""The books, and what is still to be spent, as the problem that the optimiser solves."""

from __future__ import annotations

from collections.abc import Iterable

from budgets import engine
from budgets.engine import best as optimum
from budgets.fit.assignment import ours
from budgets.fit.books import Books
from budgets.fit.wish import Wish


def problem_of(books: Books, wish: Wish, forecasts: Iterable[engine.Expense]) -> optimum.Problem:
    """The expenses in the order in which the bills came, then what is still to come."""
    spent = sorted(books.expense_values.values(), key=lambda item: (item.day, int(item.key)))
    planned = sorted(forecasts, key=lambda item: (item.day, item.key))
    return optimum.Problem(
        expenses=(*spent, *planned),
        funds=tuple(books.fund_values.values()),
        locked=tuple(locked_shares(books)),
        locked_match=tuple(locked_match(books)),
        locked_indirect={str(fund): cents for fund, cents in books.locks.indirect.items()},
        policy=policy_of(wish),
        project_total=books.project_total,
        symbol=books.symbol,
    )


def policy_of(wish: Wish) -> optimum.Policy:
    return optimum.Policy(
        strict_pools=wish.strict,
        minimum_charge=wish.least,
        whole_expenses=wish.whole,
        include_forecast=wish.forecasts,
        include_offered=wish.offered,
    )


def locked_shares(books: Books) -> list[engine.Share]:
    """What claims hold, and what closed funds have paid."""
    closed = {fund.pk for fund in books.funds if fund.status == engine.Status.CLOSED}
    paid = {(row.expense_id, row.fund_id): row.cents for row in books.shares}
    held = {**books.locked, **{key: cents for key, cents in paid.items() if key[1] in closed}}
    mine = ours(books)
    return [
        engine.Share(expense=books.expense_values[expense], fund=str(fund), cents=cents)
        for (expense, fund), cents in sorted(held.items())
        if cents > 0 and fund not in mine
    ]


def locked_match(books: Books) -> list[engine.Counted]:
    return [
        engine.Counted(
            expense=books.expense_values[expense],
            fund=str(fund),
            payer=str(payer or ""),
            cents=cents,
        )
        for (expense, fund, payer), cents in books.locked_match.items()
        if cents > 0
    ]
