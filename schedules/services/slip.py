"""Apply a slip that was tried: one log entry, and the plan recomputed with it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.db import transaction

from projects.log import write
from projects.models import Project
from projects.words import day_year, plural
from schedules import plan
from schedules.models import KeyDate, Task
from schedules.selectors.slip import Slip, basis, slipped
from schedules.selectors.wording import days_words, outcome_words
from schedules.services.tasks import User


class PlanChanged(Exception):
    """Somebody changed the project after the preview was computed."""


@transaction.atomic
def apply_slip(
    *, project: Project, user: User, today: date, slip: Slip, reason: str, seen: str
) -> str:
    """``seen`` is the basis of the preview that was agreed to; raises ``PlanChanged``."""
    Project.objects.select_for_update().get(pk=project.pk)
    rows = plan.read(project, today)
    if basis(rows) != seen:
        raise PlanChanged
    before = plan.in_hand_days(rows, plan.solve(rows))
    save_changed(slipped(rows, slip), slip)
    after = plan.recompute(project, today).in_hand_days
    tail = f"{outcome_words(before)} before, {outcome_words(after)} now"
    sentence = f"{slip_words(slip)}: {tail}."
    write(project=project, user=user, about="schedules", sentence=sentence, reason=reason)
    return sentence


def save_changed(rows: plan.Rows, slip: Slip) -> None:
    if slip.key_date:
        moved = next(k for k in rows.key_dates if k.pk == slip.key_date.pk)
        KeyDate.objects.filter(pk=moved.pk).update(on=moved.on)
    elif slip.task:
        task = next(t for t in rows.tasks if t.pk == slip.task.pk)
        fields = ("days", "remaining_days", "remaining_on", "not_before")
        Task.objects.filter(pk=task.pk).update(**{name: getattr(task, name) for name in fields})


def slip_words(slip: Slip) -> str:
    """“Weld lantern frame” takes 6 working days longer."""
    if slip.key_date:
        return key_date_words(slip.key_date, slip)
    if slip.on:
        return f"“{slip.task}” cannot start before {day_year(slip.on)}"
    days = slip.days or Decimal(0)
    return f"“{slip.task}” takes {days_words(abs(days))} {'longer' if days > 0 else 'less'}"


def key_date_words(key_date: KeyDate, slip: Slip) -> str:
    if slip.on:
        return f"“{key_date}” moves from {day_year(key_date.on)} to {day_year(slip.on)}"
    days = int(slip.days or 0)
    return f"“{key_date}” moves {plural(abs(days), 'day')} {'later' if days > 0 else 'earlier'}"
