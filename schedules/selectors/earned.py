"""The work done against a plan kept, in plain words."""

from __future__ import annotations

from dataclasses import dataclass

from projects.hooks import Level
from projects.words import day, plural
from schedules import engine
from schedules.plan import Rows
from schedules.plan.kept import PARTS, Kept, WorkDone, work_done


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """``says`` is the sentence; the others are its figures, in task-days."""

    says: str
    level: Level
    due: str
    done: str
    whole: str
    reached: str
    note: str


def done_words(kept: Kept, rows: Rows) -> Done | None:
    found = work_done(kept, rows)
    if not found.whole:
        return None
    reached = "" if found.reached is None else day(engine.day_that_ends(found.reached))
    says, level = verdict(found, rows, reached)
    left = f"Left out: {plural(found.dropped, 'task')} dropped since then."
    return Done(
        says=says,
        level=level,
        due=task_days(found.due),
        done=task_days(found.done),
        whole=task_days(found.whole),
        reached=reached if found.done else "",
        note=left if found.dropped else "",
    )


def verdict(found: WorkDone, rows: Rows, reached: str) -> tuple[str, Level]:
    if found.done >= found.whole:
        return "All the work of the plan kept is done.", Level.HOLDS
    if found.done == found.due:
        return "As much is done as was due by this morning.", Level.HOLDS
    minutes = rows.calendars[rows.default].day_minutes
    days = max(1, round(abs(found.behind) / minutes))
    if not found.done:
        return (
            f"{task_days(found.due)} task-days were due by this morning; none is done.",
            Level.NEAR,
        )
    if found.done < found.due:
        how = f"{plural(days, 'working day')} ago"
        return f"The plan kept would have had this much done on {reached}, {how}.", Level.NEAR
    how = f"{plural(days, 'working day')} from now"
    return f"The plan kept would have this much done only on {reached}, {how}.", Level.HOLDS


def task_days(parts: int) -> str:
    """Hundredths as days with one place at most: “12”, “12.5”."""
    return f"{parts / PARTS:.1f}".removesuffix(".0")
