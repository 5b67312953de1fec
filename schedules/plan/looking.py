"""The plan as a page looks at it: read once and solved once, when it is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from projects.hooks import PlanDays
from projects.models import Project
from schedules import engine
from schedules.plan.days import plan_days
from schedules.plan.once import once
from schedules.plan.rows import Rows, read
from schedules.plan.translate import solve


@dataclass(frozen=True)
class Look:
    """The rows as they were read, with their plan once it is asked for."""

    rows: Rows

    @cached_property
    def plan(self) -> engine.Plan:
        """Raises ``engine.ScheduleError``."""
        return solve(self.rows)

    @cached_property
    def days(self) -> PlanDays:
        return plan_days(self.rows, self.plan)


def look(project: Project, today: date) -> Look:
    return once(project, ("look", today), lambda: Look(read(project, today)))
