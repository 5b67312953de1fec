"""Keep the plan as it stands as the plan of record."""

from __future__ import annotations

from datetime import date
from string import ascii_uppercase

from django.db import transaction

from projects.log import short_name, write
from projects.models import Project
from schedules import plan
from schedules.models import PlanOfRecord
from schedules.plan.kept import freeze
from schedules.services.tasks import User


@transaction.atomic
def keep_plan(*, project: Project, user: User, today: date, reason: str) -> PlanOfRecord:
    Project.objects.select_for_update().get(pk=project.pk)
    last = PlanOfRecord.objects.filter(project=project).values_list("letter", flat=True).first()
    kept = PlanOfRecord.objects.create(
        project=project,
        letter=letter_after(last),
        made_by=short_name(user),
        reason=reason,
        rows=freeze(plan.read(project, today), today),
    )
    sentence = f"Kept the plan as Rev {kept.letter}."
    write(project=project, user=user, about="schedules", sentence=sentence, reason=reason)
    return kept


def letter_after(letter: str | None) -> str:
    """A to Z, then AA, AB and so on."""
    if not letter:
        return "A"
    head, tail = letter[:-1], letter[-1]
    if tail != "Z":
        return head + ascii_uppercase[ascii_uppercase.index(tail) + 1]
    return (letter_after(head) if head else "A") + "A"
