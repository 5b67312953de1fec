"""What goes out: bills that were paid or wait, orders by their terms, lines by the plan."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from budgets.engine.cash import Flow
from budgets.engine.terms import Due
from budgets.fit.orders import terms_of
from budgets.flow.asked import Asked
from budgets.flow.ground import Ground, due_on
from budgets.models import Expense, Payer
from projects.words import day as in_words
from suppliers.models import Order


def bills(ground: Ground) -> Iterator[Flow]:
    """Paid since the balance begins, or logged and still to be paid by the artist."""
    for row in ground.books.expenses:
        if row.in_kind or row.payer != Payer.ARTIST:
            continue
        if row.paid_on is None:
            yield bill(row, ground.to_pay_on(due_on(row)), "Logged and not paid yet.", sure=False)
        elif row.paid_on >= ground.book.opening_on:
            yield bill(row, row.paid_on, "Paid.", sure=True)


def bill(row: Expense, day: date, why: str, *, sure: bool) -> Flow:
    key = f"expense-{row.pk}"
    return Flow(day=day, cents=-row.cents, what=row.payee, why=why, key=key, sure=sure)


def refunds(ground: Ground) -> Iterator[Flow]:
    for credit in ground.books.credits:
        if credit.day >= ground.book.opening_on:
            yield Flow(
                day=credit.day,
                cents=credit.cents,
                what=ground.books.by_pk[credit.expense_id].payee,
                why="Came back.",
                key=f"expense-{credit.expense_id}",
                sure=credit.day <= ground.today,
            )


def order_flows(ground: Ground, order: Order, asked: Asked) -> Iterator[Flow]:
    """What is still to be billed on an order, by its terms, on the plan."""
    for due in dues_of(ground, order, asked):
        assert due.day
        yield Flow(
            day=due.day,
            cents=-due.cents,
            what=f"{order.title}, {order.supplier.name}",
            why=order_why(due, ground.delivered(order)),
            key=f"order-{order.pk}",
        )


def dues_of(ground: Ground, order: Order, asked: Asked) -> tuple[Due, ...]:
    if order.pk != asked.order:
        return ground.agreed[order.pk]
    return ground.dues(order, asked.terms(order.pk, terms_of(order)))


def order_why(due: Due, delivered: date) -> str:
    words = f"{due.why[:1].upper()}{due.why[1:]}"
    return f"{words}, {in_words(delivered)}." if "delivery" in due.why else f"{words}."


def rests(ground: Ground) -> Iterator[Flow]:
    """What is left of budget lines; orders go by their own terms."""
    for row in ground.forecasts:
        if row.order is None and not row.in_kind:
            yield Flow(
                day=ground.to_pay_on(row.day),
                cents=-row.cents,
                what=row.line.name,
                why=row.why,
                key="forecast",
            )
