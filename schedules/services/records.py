"""Keep the plan as it stands as the plan of record."""

from __future__ import annotations

from datetime import date
from string import ascii_uppercase
from typing import Any

from django.db import transaction

from projects.log import short_name, write
from projects.models import Project
from schedules import plan
from schedules.models import PlanOfRecord
from schedules.selectors.wording import decimal_words
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
        rows=frozen(plan.read(project, today), today),
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


def frozen(rows: plan.Rows, today: date) -> dict[str, Any]:
    """Dates, durations, links and calendars, so that later plans can be held against it."""
    solved = plan.solve(rows)
    days = plan.plan_days(rows, solved)
    return {
        "on": today.isoformat(),
        "in_hand_days": days.in_hand_days,
        "tasks": [
            {
                "pk": task.pk,
                "name": task.name,
                "lane": task.lane.name,
                "days": decimal_words(task.days),
                "start": days.tasks[task.pk].start.isoformat(),
                "finish": days.tasks[task.pk].finish.isoformat(),
                "late_finish": days.tasks[task.pk].late_finish.isoformat(),
            }
            for task in rows.tasks
        ],
        "links": [
            [row.before_id, row.after_id, str(row.kind), str(row.lag), str(row.lag_clock)]
            for row in rows.links
        ],
        "key_dates": [{"pk": k.pk, "name": k.name, "on": k.on.isoformat()} for k in rows.key_dates],
        "calendars": [frozen_calendar(c) for c in rows.calendars.values()],
    }


def frozen_calendar(calendar: Any) -> dict[str, Any]:
    return {
        "key": calendar.key,
        "week": [list(map(list, spans)) for spans in calendar.week],
        "exceptions": {d.isoformat(): list(map(list, s)) for d, s in calendar.exceptions.items()},
    }
