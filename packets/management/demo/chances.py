"""What may come of the demo's tasks, what a day less costs, and the wet days at the wall."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from projects.models import Project
from schedules.models import Task, Weather

Row = Mapping[str, Any]
FIELDS = {
    "low": "low_days",
    "high": "high_days",
    "returns": "returns_percent",
    "again": "returns_days",
    "shorter": "crash_days",
    "cents": "crash_day_cents",
    "waits": "waits",
}


def keep(project: Project, data: Row, tasks: Mapping[str, Task]) -> None:
    found: Row = data.get("chance", {})
    for key, row in found.get("tasks", {}).items():
        said = {FIELDS[name]: value for name, value in row.items()}
        Task.objects.filter(pk=tasks[key].pk).update(**said)
    if "wet_days" in found:
        Weather.objects.create(
            project=project, wet_days=found["wet_days"], source=found["wet_days_from"]
        )
