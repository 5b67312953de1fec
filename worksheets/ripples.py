"""What a slip does to the worksheets: the installation comes near while reviews are missing."""

from __future__ import annotations

from datetime import date

from django.urls import reverse

from projects import hooks
from projects.hooks import Level, PlanDays, Ripple, TaskDays
from projects.models import Project, StageName
from projects.words import day, plural
from schedules.models import Task
from worksheets.selectors.reviews import ready

NEAR_DAYS = 14


@hooks.ripples.register("worksheets.reviews", place=25)
def missing_reviews(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    """Told while the first installation is two weeks away or less and something is open."""
    first = first_installation(project, after)
    if first is None or (first.start - after.today).days > NEAR_DAYS:
        return []
    open_still = ready(project).reasons
    if not open_still:
        return []
    begun = first.start <= after.today
    return [
        Ripple(
            level=Level.BROKEN if begun else Level.NEAR,
            subject="Reviews before the installation",
            says=f"are missing: {plural(len(open_still), 'thing')} still open, and “{first.name}” "
            f"{when(first.start, after.today)}.",
            url=reverse("worksheets:ready", args=[project.pk]),
        )
    ]


def first_installation(project: Project, plan: PlanDays) -> TaskDays | None:
    """The first task, not yet finished, that installs a part."""
    rows = Task.objects.filter(project=project, stage__name=StageName.INSTALL)
    keys = set(rows.values_list("pk", flat=True))
    tasks = [task for key, task in plan.tasks.items() if key in keys and not task.finished]
    return min(tasks, key=lambda task: (task.start, task.pk), default=None)


def when(start: date, today: date) -> str:
    ahead = (start - today).days
    if ahead <= 0:
        return f"begins {day(start)}"
    return f"begins {day(start)}, in {plural(ahead, 'day')}"
