"""What several pieces of one page look at: read and solved once in a request that only looks.

The gate gives a project ``looked_at`` where nothing may be changed; there it is kept what was
read, until ``recompute``. A request that may change something reads anew each time.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import TypeVar

from projects.models import Project
from schedules import engine
from schedules.plan.rows import Rows, read
from schedules.plan.translate import solve

Found = TypeVar("Found")


def rows_of(project: Project, today: date) -> Rows:
    return once(project, ("rows", today), lambda: read(project, today))


def plan_of(project: Project, today: date) -> engine.Plan:
    """The plan of ``rows_of``, solved; raises ``engine.ScheduleError``."""
    return once(project, ("plan", today), lambda: solve(rows_of(project, today)))


def once(project: Project, key: tuple[str, date], find: Callable[[], Found]) -> Found:
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
