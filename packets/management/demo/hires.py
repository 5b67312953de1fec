"""The demo's hires and supervision, and how far its tasks were said to be at the last update."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from packets.management.demo.days import Days
from projects.models import Project
from schedules.models import Hammock, Task
from suppliers.models import Order

Row = Mapping[str, Any]


def keep(
    project: Project,
    data: Row,
    tasks: Mapping[str, Task],
    orders: Mapping[str, Order],
    days: Days,
) -> None:
    lanes = {row["key"]: row["name"] for row in data["lanes"]}
    for row in data.get("hires", ()):
        hire = Hammock.objects.create(
            project=project,
            name=row["name"],
            lane=project.lanes.get(name=lanes[row["lane"]]),
            order=orders.get(row.get("order", "")),
            day_cents=row.get("day_cents"),
        )
        hire.from_tasks.set(tasks[key] for key in row["from"])
        hire.to_tasks.set(tasks[key] for key in row["to"])
    update(project, data, tasks, days)


def update(project: Project, data: Row, tasks: Mapping[str, Task], days: Days) -> None:
    """What is under way was last spoken of some days ago; one task was begun out of order since."""
    last = data.get("last_update")
    if last is None:
        return
    project.tasks.filter(started_on__lte=days.worked(last), finished_on=None).update(
        said_on=days.worked(last)
    )
    for row in data.get("begun_early", ()):
        fields = {"started_on": days.worked(row["on"]), "remaining_days": Decimal(row["left"])}
        Task.objects.filter(pk=tasks[row["task"]].pk).update(**fields)
