"""What the funds say to the shares of one expense."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from budgets import engine
from budgets.fit.books import Books
from budgets.models import Expense, Fund


def judged(
    books: Books, expense: Expense, wanted: Mapping[int, int]
) -> dict[int, tuple[engine.Refusal, ...]]:
    """Why the wanted shares of an expense may not be, by fund; one that stays as it is, stays.

    Shares are judged in the order of the funds, each beside those before it.
    """
    value = books.expense_values[expense.pk]
    beside = books.shares_elsewhere(expense)
    had = books.shares_of.get(expense.pk, {})
    found = {}
    for fund in books.funds:
        cents = wanted.get(fund.pk, 0)
        if not cents:
            continue
        reasons = engine.judge_share(
            books.fund_values[fund.pk],
            value,
            beside,
            cents,
            project_total=books.project_total,
        )
        if had.get(fund.pk) == cents:
            reasons = tuple(reason for reason in reasons if reason.code == "expense")
        if reasons:
            found[fund.pk] = reasons
        beside.append(engine.Share(expense=value, fund=str(fund.pk), cents=cents))
    return found


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What one fund says to one expense: the most it may pay, or why it may not."""

    fund: Fund
    most: int
    reasons: tuple[engine.Refusal, ...]
    left: int | None


def answers(books: Books, expense: Expense) -> list[Answer]:
    """Every fund's answer to an expense, as if the expense had no shares yet."""
    value = books.expense_values[expense.pk]
    beside = books.shares_elsewhere(expense)
    return [answer(books, fund, value, beside) for fund in books.funds]


def answer(books: Books, fund: Fund, value: engine.Expense, beside: list[engine.Share]) -> Answer:
    rules = books.fund_values[fund.pk]
    total = books.project_total
    most = engine.room(rules, value, beside, project_total=total)
    cents = most or min(1, value.amount)
    reasons = engine.judge_share(rules, value, beside, cents, project_total=total)
    return Answer(fund=fund, most=most, reasons=reasons, left=books.states[fund.pk].left)
