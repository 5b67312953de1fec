"""What several pieces of one page look at: read and solved once in a request that only looks.

The gate gives a project ``looked_at`` where nothing may be changed; there is kept what was
read, until ``recompute``. A request that may change something reads anew each time.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import TypeVar

from projects.models import Project

Found = TypeVar("Found")


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
