"""How far a task may slip: without moving anybody, and without moving the date."""

from __future__ import annotations

from projects.words import day, plural
from schedules.models import Link, Task
from schedules.plan import Rows, calendar_keys
from schedules.selectors.room import AFTER_STARTS, before_lag
from schedules.selectors.schedule import TaskRow


def slip_words(rows: Rows, row: TaskRow) -> str:
    """Free and interfering float in plain words; nothing of what is done or late."""
    task = row.task
    if task.finished_on or (row.in_hand is not None and row.in_hand < 0):
        return ""
    free = whole_days(rows, task, task.free_float or 0)
    next_one = first_moved(rows, task)
    if next_one is None:
        return f"It may slip {plural(free, 'day')} without moving anybody." if free else ""
    moved = f"“{next_one}”"
    if row.in_hand is None:
        return f"{quiet_words(free)} moves {moved}."
    if row.in_hand <= free:
        return f"{quiet_words(free)} moves {moved} and the date with it."
    upto = day(row.late_finish)
    return f"{quiet_words(free)} moves {moved}; the date holds as long as it ends by {upto}."


def quiet_words(free: int) -> str:
    if not free:
        return "Any slip of a day"
    return f"It may slip {plural(free, 'day')} without moving anybody; more"


def whole_days(rows: Rows, task: Task, minutes: int) -> int:
    return minutes // rows.calendars[calendar_keys(rows)[task.pk]].day_minutes


def first_moved(rows: Rows, task: Task) -> Task | None:
    """The task that has the least room behind this one: the first that a slip pushes."""
    tasks = {t.pk: t for t in rows.tasks}
    out = [row for row in rows.links if row.before_id == task.pk]
    waiting = [row for row in out if not tasks[row.after_id].finished_on]
    if not waiting:
        return None
    nearest = min(waiting, key=lambda row: (slack(rows, task, row, tasks[row.after_id]), row.pk))
    return tasks[nearest.after_id]


def slack(rows: Rows, task: Task, row: Link, after: Task) -> int:
    """How far the point that the link runs from may move before the link pushes ``after``."""
    from_finish = row.kind in ("FS", "FF")
    own = task.early_finish if from_finish else task.early_start
    bound = after.early_start if row.kind in AFTER_STARTS else after.early_finish
    return before_lag(rows, task, row, bound or 0) - (own or 0)
