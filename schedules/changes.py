"""Holidays hang on the country, elapsed waits on the time zone: lay the plan out anew."""

from __future__ import annotations

from datetime import date

from projects import hooks
from projects.models import Project
from schedules.plan import recompute


@hooks.changes.register("schedules.plan")
def recompute_plan(project: Project, today: date) -> None:
    recompute(project, today)
