"""Why a task has the days in hand that it has: what comes next, at the latest."""

from __future__ import annotations

from projects.words import day, plural
from schedules.models import KeyDate, KeyDateEffect, LagClock, Link, LinkKind, Task
from schedules.plan import Rows, bound_of, calendar_keys, late_days, work_minutes
from schedules.plan.translate import lag_calendar
from schedules.selectors.schedule import TaskRow

AFTER_STARTS = (LinkKind.FS, LinkKind.SS)


def room_of(rows: Rows, row: TaskRow) -> str:
    task = row.task
    if task.finished_on:
        return ""
    public = rows.public
    if public and public.task_id == task.pk:
        return f"Everything else is planned back from it: {day(public.on)}."
    if row.in_hand is None:
        return "The public date does not wait for it, so it has no days in hand to count."
    because = limit(rows, task)
    return f"{room_words(row)}{f', because {because}' if because else ''}."


def room_words(row: TaskRow) -> str:
    assert row.in_hand is not None
    latest = day(row.late_finish)
    if row.in_hand < 0:
        return f"It is {plural(-row.in_hand, 'day')} late: it should end by {latest}"
    if row.in_hand == 0:
        return f"It has no days in hand: it must end by {latest}"
    return f"It has {plural(row.in_hand, 'day')} in hand: it may end as late as {latest}"


def limit(rows: Rows, task: Task) -> str:
    """The link or the last day that leaves the least room."""
    found = [link_limit(rows, task, row) for row in rows.links if row.before_id == task.pk]
    found += [date_limit(task, k) for k in rows.key_dates if k.task_id == task.pk]
    known = [pair for pair in found if pair]
    return min(known)[1] if known else ""


def link_limit(rows: Rows, task: Task, row: Link) -> tuple[int, str] | None:
    """How far after this task's own latest the link would still let it go, and its words."""
    after = next((t for t in rows.tasks if t.pk == row.after_id), None)
    if after is None or after.finished_on or not after.to_end:
        return None
    starts = row.kind in AFTER_STARTS
    bound = (after.late_start if starts else after.late_finish) or 0
    own = task.late_finish if row.kind in (LinkKind.FS, LinkKind.FF) else task.late_start
    room = before_lag(rows, task, row, bound) - (own or 0)
    return abs(room), limit_words(rows, after, starts)


def before_lag(rows: Rows, task: Task, row: Link, bound: int) -> int:
    if row.lag_clock == LagClock.ELAPSED:
        return bound - int(row.lag * 60)
    keys = calendar_keys(rows)
    own, counted = rows.calendars[keys[task.pk]], lag_calendar(rows, row, keys)
    lag = work_minutes(row.lag, counted)
    if not lag:
        return own.snap_back(bound)
    at = counted.sub(bound, lag) if lag > 0 else counted.add(bound, -lag)
    return at if counted is own else own.snap_back(at)


def limit_words(rows: Rows, after: Task, starts: bool) -> str:
    start, finish = late_days(after)
    event = next((k for k in rows.key_dates if is_event(k, after)), None)
    if event:
        return f"“{after}” is on {day(event.on)}"
    return f"“{after}” must {f'start by {day(start)}' if starts else f'end by {day(finish)}'}"


def is_event(row: KeyDate, task: Task) -> bool:
    return row.task_id == task.pk and row.effect == KeyDateEffect.EVENT


def date_limit(task: Task, row: KeyDate) -> tuple[int, str] | None:
    if row.effect != KeyDateEffect.NO_LATER:
        return None
    return abs(
        bound_of(row) - (task.late_finish or 0)
    ), f"“{row}” is {day(row.on)}{f' ({row.reason})' if row.reason else ''}"
