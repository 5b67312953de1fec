"""What several pieces of one page look at: read and solved once in a request that only looks.

The gate gives a project ``looked_at`` where nothing may be changed; there is kept what was
read, until ``recompute``. A request that may change something reads anew each time.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import TypeVar

from projects.hooks import PlanDays
from projects.models import Project
from schedules import engine
from schedules.plan.days import plan_days
from schedules.plan.rows import Rows, read
from schedules.plan.translate import solve

Found = TypeVar("Found")


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


def once(project: Project, key: tuple[str, date | None], find: Callable[[], Found]) -> Found:
    kept = getattr(project, "looked_at", None)
    if kept is None:
        return find()
    if key not in kept:
        kept[key] = find()
    found: Found = kept[key]
    return found


def forget(project: Project) -> None:
    """What was looked at is no longer so."""
    if getattr(project, "looked_at", None):
        project.looked_at.clear()  # type: ignore[attr-defined]
