"""Whose hands the demo's tasks need besides their lane, and what a day less costs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from projects.models import Project
from schedules.models import Lane, Task

Row = Mapping[str, Any]


def keep(project: Project, data: Row, tasks: Mapping[str, Task]) -> None:
    found: Row = data.get("hands", {})
    names = {row["key"]: row["name"] for row in data["lanes"]}
    lanes = {lane.name: lane for lane in Lane.objects.filter(project=project)}
    for key, others in found.get("also", {}).items():
        tasks[key].also.set([lanes[names[other]] for other in others])
    for key, (days, cents) in found.get("shorter", {}).items():
        task = Task.objects.filter(pk=tasks[key].pk)
        task.update(crash_days=days, crash_day_cents=cents)
