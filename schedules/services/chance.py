"""Draw the plan, and keep what the draws said for as long as it holds; write the weather."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from uuid import uuid4

from django.db import transaction

from projects.log import write
from projects.models import Project
from schedules import plan
from schedules.models import ChanceResult, Task, Weather
from schedules.plan import odds
from schedules.services.planning import changes, in_words, replanned
from schedules.services.tasks import User

ESTIMATES = {
    "low_days": "days if all goes well",
    "high_days": "days if it goes badly",
    "outdoor": "outdoors",
    "returns_percent": "comes back in so many of 100",
    "returns_days": "days more when it comes back",
    "crash_days": "can be shorter by days",
    "crash_day_cents": "cost of a day shorter in cents",
}


def answered(rows: plan.Rows) -> ChanceResult:
    """The draws of the plan as it stands: those that are kept, else new ones.

    Somebody may change the plan meanwhile: their mark on the row takes mine away, and the
    answer is kept as one to be looked at again.
    """
    found, _ = ChanceResult.objects.get_or_create(project=rows.project)
    basis = odds.basis(rows)
    if found.data.get("basis") != basis:
        mine = f"~{uuid4().hex}"
        ChanceResult.objects.filter(pk=found.pk).update(basis=mine)
        found.data = {"basis": basis, **odds.drawn(rows)}
        found.percent = found.data.get("percent")
        kept = ChanceResult.objects.filter(pk=found.pk)
        kept.update(data=found.data, percent=found.percent)
        kept.filter(basis=mine).update(basis=basis)
    elif found.basis != basis:
        ChanceResult.objects.filter(pk=found.pk).update(basis=basis)
    return found


def ranking(rows: plan.Rows) -> ChanceResult:
    """The same, with what would buy the most chance."""
    found = answered(rows)
    basis = odds.buys_basis(rows)
    if found.data.get("buys_basis") != basis:
        found.data = {**found.data, "buys_basis": basis, "buys": odds.ranked(rows)}
        same = ChanceResult.objects.filter(pk=found.pk, data__basis=found.data["basis"])
        same.update(data=found.data)
    return found


@transaction.atomic
def save_weather(*, project: Project, user: User, wet_days: Sequence[float], source: str) -> str:
    """Wet days of each month, January first, and where they were read."""
    Project.objects.select_for_update().get(pk=project.pk)
    row, _ = Weather.objects.get_or_create(project=project)
    if (row.wet_days, row.source) == (list(wet_days), source):
        return "Nothing was changed."
    row.wet_days, row.source = list(wet_days), source
    row.save()
    project.weather = row
    ChanceResult.objects.filter(project=project).update(basis="")
    sentence = f"Set the wet days of the site: {sum(wet_days):g} in a year."
    write(project=project, user=user, about="schedules", sentence=sentence, reason=source)
    return sentence


def save_estimate(*, project: Project, user: User, today: date, task: Task) -> str:
    """How long a task may take, whether it comes back, and what a shorter one costs."""
    with replanned(project, today):
        old = Task.objects.select_for_update().get(pk=task.pk)
        changed = changes(old, task, ESTIMATES)
        if not changed:
            return "Nothing was changed."
        task.save(update_fields=list(ESTIMATES))
        sentence = f"Estimated “{task}” anew: {in_words(changed, ESTIMATES)}."
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence
