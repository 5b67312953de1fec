"""Draw contingency to the line that needs it, take a draw back, say what is still to come."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from django.db import transaction
from django.db.models import Sum

from budgets.engine.pool import checked_draw
from budgets.models import BudgetLine, Draw
from budgets.services.lines import Who, say
from projects.words import day as in_words
from projects.words import hundredths, money


def left_in(source: BudgetLine) -> int:
    """What may still be drawn: less what was drawn, and what was spent on the pool itself."""
    drawn = source.draws_out.aggregate(sum=Sum("cents"))["sum"] or 0
    given = source.draws_in.aggregate(sum=Sum("cents"))["sum"] or 0
    spent = source.expenses.aggregate(sum=Sum("cents"))["sum"] or 0
    back = source.expenses.aggregate(sum=Sum("credits__cents"))["sum"] or 0
    return max(0, source.planned_cents + given - drawn - spent + back)


@transaction.atomic
def draw(
    *, source: BudgetLine, target: BudgetLine, cents: int, reason: str, today: date, user: Who
) -> Draw:
    """Raises `DrawTooLarge` when the pool does not hold it; two at once cannot overdraw it."""
    source = BudgetLine.objects.select_for_update().select_related("project").get(pk=source.pk)
    made = Draw.objects.create(
        project=source.project,
        source=source,
        target=target,
        cents=checked_draw(cents, left_in(source)),
        day=today,
        reason=reason,
    )
    amount = money(cents, source.project.currency)
    say(
        source.project,
        user,
        f"Drew {amount} from “{source.name}” to “{target.name}”: {reason.rstrip('.')}.",
    )
    return made


@transaction.atomic
def undraw(*, draw: Draw, user: Who) -> str:
    amount = money(draw.cents, draw.project.currency)
    sentence = (
        f"Put back {amount} from “{draw.target.name}” into “{draw.source.name}”, "
        f"drawn on {in_words(draw.day)}."
    )
    say(draw.project, user, sentence)
    draw.delete()
    return sentence


@transaction.atomic
def say_what_comes(*, line: BudgetLine, values: Mapping[str, Any], user: Who) -> str:
    """What a line still needs, from which the forecast and the balance are made."""
    for name, value in values.items():
        setattr(line, name, value)
    line.save(update_fields=list(values))
    sentence = f"“{line.name}” still needs {needed_words(line)}."
    say(line.project, user, sentence)
    return sentence


def needed_words(line: BudgetLine) -> str:
    currency = line.project.currency
    if line.to_come_cents is not None:
        words = money(line.to_come_cents, currency)
    elif line.quantity_hundredths is not None and line.unit_cents is not None:
        words = f"{quantity_words(line)} at {money(line.unit_cents, currency)}"
    else:
        words = "what is left of its budget"
    return f"{words}, when “{line.task.name}” ends" if line.task else words


def quantity_words(line: BudgetLine) -> str:
    return f"{hundredths(line.quantity_hundredths)} {line.unit}".strip()
