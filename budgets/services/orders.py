"""Bills, changes and the end of orders; each writes its own line of the log."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db import transaction

from budgets.engine.terms import Account
from budgets.models import Commitment, Expense
from budgets.services.expenses import save_expense
from budgets.services.lines import Who, say
from projects.files import Clean
from projects.log import write
from projects.words import money
from suppliers.models import Order, OrderChange, OrderState


@transaction.atomic
def log_bill(*, order: Order, values: dict[str, Any], paper: Clean | None, user: Who) -> Expense:
    """An expense that settles its order; the line of an order without one becomes its line."""
    project = order.supplier.project
    Commitment.objects.get_or_create(order=order, defaults={"line": values["line"]})
    facts = {
        "payee": order.supplier.name,
        "supplier": order.supplier,
        "order": order,
        "what": order.title,
        "ordered_on": order.placed_on,
        "delivered_on": order.delivered_on,
        "invoice_on": values["day"],
    }
    expense = Expense(project=project)
    return save_expense(expense=expense, values={**facts, **values}, paper=paper, user=user)


@transaction.atomic
def add_change(*, order: Order, cents: int, day: date, reason: str, user: Who) -> str:
    """An agreed change of the price, up or down."""
    OrderChange.objects.create(order=order, cents=cents, day=day, reason=reason)
    project = order.supplier.project
    way = "up" if cents > 0 else "down"
    total = Order.objects.get(pk=order.pk).total_cents
    sentence = (
        f"“{order.title}” from {order.supplier.name} goes {way} by "
        f"{money(abs(cents), project.currency)}, to {money(total, project.currency)}."
    )
    write(project=project, user=user, about="budgets", sentence=sentence, reason=reason)
    return sentence


@transaction.atomic
def delete_change(*, change: OrderChange, user: Who) -> str:
    order = change.order
    amount = money(change.cents, order.supplier.project.currency)
    sentence = f"Took the change of {amount} ({change.reason}) off “{order.title}”."
    change.delete()
    say(order.supplier.project, user, sentence)
    return sentence


@transaction.atomic
def cancel(*, order: Order, account: Account, back: int, reason: str, day: date, user: Who) -> str:
    """Nothing more is to pay: the price becomes what was paid, less what comes back."""
    project = order.supplier.project
    cost = max(0, account.paid + account.owed - back)
    if cost != order.total_cents:
        OrderChange.objects.create(
            order=order,
            cents=cost - order.total_cents,
            day=day,
            reason=f"Cancelled: {reason}"[:240],
        )
    order.state = OrderState.CANCELLED
    order.save(update_fields=["state"])
    lost = account.paid - back
    parts = [f"Cancelled “{order.title}” from {order.supplier.name}"]
    if lost:
        parts.append(f"{money(lost, project.currency)} of what was paid is lost")
    if back:
        parts.append(f"{money(back, project.currency)} is to come back")
    sentence = "; ".join(parts) + "."
    write(project=project, user=user, about="budgets", sentence=sentence, reason=reason)
    return sentence
