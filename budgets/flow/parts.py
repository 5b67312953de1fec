"""When a part of a fee or an award falls due, by the plan."""

from __future__ import annotations

from datetime import date

from budgets.models import Milestone
from projects.hooks import PlanDays


def falls_on(row: Milestone, days: PlanDays | None) -> date | None:
    """The end of its task, its key date, or its own day; none while the plan does not tell."""
    if days and row.task_id and row.task_id in days.tasks:
        return days.tasks[row.task_id].finish
    if days and row.key_date_id and row.key_date_id in days.key_dates:
        return days.key_dates[row.key_date_id]
    return row.on
