"""The tasks in days, for the apps below that may not import the schedule."""

from __future__ import annotations

from datetime import date

from projects import hooks
from projects.models import Project
from schedules import plan
from schedules.models import Task


@hooks.holdings.register("schedules.tasks")
def tasks_planned(project: Project, today: date) -> list[hooks.TaskDays]:
    """Two queries; a task that has no dates yet is left out."""
    plan.current(project, today)
    return [held(task) for task in plan.tasks_of(project) if task.early_start is not None]


def held(task: Task) -> hooks.TaskDays:
    start, finish = plan.early_days(task)
    late = plan.late_days(task)[1]
    return hooks.TaskDays(
        pk=task.pk,
        name=task.name,
        start=start,
        finish=finish,
        late_finish=late,
        order_id=task.order_id,
        supplier_id=task.lane.supplier_id,
        to_end=task.to_end,
        finished=task.finished_on is not None,
    )
