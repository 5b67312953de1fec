"""What the demo's lines still need and when they are paid, and a draw on its contingency."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from budgets.models import BudgetLine, Draw
from packets.management.demo.days import Days
from projects.models import Project
from schedules.models import Task

Row = Mapping[str, Any]


def tell(project: Project, data: Row, days: Days) -> None:
    lines = {line.name: line for line in BudgetLine.objects.filter(project=project)}
    tasks = {task.name: task for task in Task.objects.filter(project=project)}
    for row in data["lines"]:
        line = lines[row["line"]]
        line.task = tasks[row["task"]] if "task" in row else None
        line.to_come_cents = row.get("to_come")
        line.quantity_hundredths, line.unit = row.get("quantity"), row.get("unit", "")
        line.unit_cents = row.get("unit_cents")
        line.save()
    for row in data["draws"]:
        Draw.objects.create(
            project=project,
            source=lines[row["from"]],
            target=lines[row["to"]],
            cents=row["cents"],
            day=days.worked(row["day"]),
            reason=row["reason"],
        )
