"""Write budget lines, and the line that an order is paid from."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db import transaction
from django.db.models import Max

from budgets.models import BudgetLine, Commitment
from projects import log
from projects.models import Project
from projects.words import money
from suppliers.models import Order

Who = AbstractBaseUser | AnonymousUser


class LineInUse(Exception):
    """Expenses are booked on the line."""

    def __init__(self, count: int) -> None:
        super().__init__(count)
        self.count = count


@transaction.atomic
def save_line(*, line: BudgetLine, values: dict[str, Any], user: Who) -> BudgetLine:
    new = line.pk is None
    for name, value in values.items():
        setattr(line, name, value)
    if new:
        last = BudgetLine.objects.filter(project=line.project).aggregate(Max("position"))
        line.position = (last["position__max"] or 0) + 1
    line.save()
    amount = money(line.planned_cents, line.project.currency)
    verb = "Added" if new else "Changed"
    say(line.project, user, f"{verb} the budget line “{line.name}”: {amount}.")
    return line


@transaction.atomic
def delete_line(*, line: BudgetLine, user: Who) -> None:
    """Raises LineInUse while expenses are booked on it; orders only lose their line."""
    if count := line.expenses.count():
        raise LineInUse(count)
    say(line.project, user, f"Deleted the budget line “{line.name}”.")
    line.delete()


@transaction.atomic
def assign_order(*, order: Order, line: BudgetLine | None, user: Who) -> None:
    """Pay an order from a line, or from none."""
    if line is None:
        Commitment.objects.filter(order=order).delete()
        sentence = f"Took the order “{order}” off its budget line."
    else:
        Commitment.objects.update_or_create(order=order, defaults={"line": line})
        sentence = f"The order “{order}” is paid from the budget line “{line.name}”."
    say(order.supplier.project, user, sentence)


def say(project: Project, user: Who, sentence: str) -> None:
    log.write(project=project, user=user, about="budgets", sentence=sentence)
