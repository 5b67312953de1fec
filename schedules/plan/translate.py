"""From rows to the engine’s network, and solve it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal

from schedules import engine
from schedules.models import KeyDate, KeyDateEffect, LagClock, Link, Task
from schedules.plan.rows import ALWAYS, Rows, minutes


def network(rows: Rows) -> engine.Network:
    """The engine's network; a task's key is its primary key as text."""
    calendar_of = calendar_keys(rows)
    now = engine.instant(rows.today)
    used = {t.pk: rows.calendars[calendar_of[t.pk]] for t in rows.tasks}
    public = rows.public
    return engine.Network(
        activities=tuple(activity(t, used[t.pk], now) for t in rows.tasks),
        links=tuple(link(row, lag_calendar(rows, row, calendar_of)) for row in rows.links),
        calendars=rows.calendars,
        key_dates=tuple(bounds(rows)),
        end=str(public.task_id) if public and public.task_id else None,
        zone=rows.project.zone,
        project_calendar=rows.default,
    )


def calendar_keys(rows: Rows) -> dict[int, str]:
    """The calendar that each task is planned on: what happens on a key date knows no hours."""
    events = {k.task_id for k in rows.key_dates if k.effect == KeyDateEffect.EVENT}
    return {t.pk: ALWAYS if t.pk in events else rows.hours_of(t) for t in rows.tasks}


def activity(task: Task, calendar: engine.Calendar, now: int) -> engine.Activity:
    duration = work_minutes(task.days, calendar)
    start = finish = remaining = None
    if task.finished_on:
        start = opening(calendar, task.started_on or task.finished_on)
        finish = closing(calendar, task.finished_on)
        start = min(start, finish)
    elif task.started_on:
        start = opening(calendar, task.started_on)
        remaining = still_to_do(task, calendar, duration, start, now)
    return engine.Activity(
        key=str(task.pk),
        duration=duration,
        calendar=calendar.key,
        actual_start=start,
        actual_finish=finish,
        remaining=remaining,
        finish_milestone=task.closes,
        ahead=bool(task.ahead_reason),
        low=None if task.low_days is None else work_minutes(task.low_days, calendar),
        high=None if task.high_days is None else work_minutes(task.high_days, calendar),
    )


def still_to_do(task: Task, calendar: engine.Calendar, duration: int, start: int, now: int) -> int:
    """What was left when it was last said, less the time gone since, but a day at least."""
    left, since = duration, start
    if task.remaining_days is not None:
        left = work_minutes(task.remaining_days, calendar)
        since = engine.instant(task.remaining_on) if task.remaining_on else now
    gone = calendar.between(since, now) if now > since else 0
    return max(left - gone, min(left, calendar.day_minutes))


def opening(calendar: engine.Calendar, day: date) -> int:
    """When work begins on a day, as an instant."""
    return engine.instant(day) + hours(calendar, day)[0]


def closing(calendar: engine.Calendar, day: date) -> int:
    """When work ends on a day, as an instant."""
    return engine.instant(day) + hours(calendar, day)[1]


def hours(calendar: engine.Calendar, day: date) -> tuple[int, int]:
    """First and last minute worked on a day; on a day off, those of a usual day."""
    own = calendar.exceptions.get(day, calendar.week[day.weekday()])
    usual = next((spans for spans in calendar.week if spans), ((0, 1440),))
    spans = own or usual
    return spans[0][0], spans[-1][1]


def work_minutes(days: Decimal, calendar: engine.Calendar) -> int:
    return int(days * calendar.day_minutes)


def lag_calendar(rows: Rows, row: Link, keys: Mapping[int, str]) -> engine.Calendar:
    """The calendar whose days a lag counts; ``keys`` as of ``calendar_keys``."""
    if row.lag_clock == LagClock.PROJECT:
        return rows.calendars[rows.default]
    after = row.lag_clock == LagClock.SUCCESSOR
    return rows.calendars[keys[row.after_id if after else row.before_id]]


def link(row: Link, counted: engine.Calendar) -> engine.Link:
    elapsed = row.lag_clock == LagClock.ELAPSED
    return engine.Link(
        key=str(row.pk),
        before=str(row.before_id),
        after=str(row.after_id),
        kind=engine.LinkKind(row.kind),
        lag=int(row.lag * 60) if elapsed else work_minutes(row.lag, counted),
        clock=engine.LagClock(row.lag_clock),
    )


def bounds(rows: Rows) -> list[engine.KeyDate]:
    known = {t.pk for t in rows.tasks}
    found = [
        engine.KeyDate(
            key=str(k.pk),
            activity=str(k.task_id),
            at=bound_of(k),
            role=engine.KeyDateRole(k.effect),
        )
        for k in rows.key_dates
        if k.task_id in known and k.effect != KeyDateEffect.NONE
    ]
    return found + [
        engine.KeyDate(
            key=f"start-{t.pk}",
            activity=str(t.pk),
            at=engine.instant(t.not_before),
            role=engine.KeyDateRole.NO_EARLIER,
        )
        for t in rows.tasks
        if t.not_before
    ]


def bound_of(key_date: KeyDate) -> int:
    """An event or a first day counts from its morning; a last day counts to its end."""
    if key_date.at:
        return engine.instant(key_date.on) + minutes(key_date.at)
    whole_day = 1440 if key_date.effect == KeyDateEffect.NO_LATER else 0
    return engine.instant(key_date.on) + whole_day


def solve(rows: Rows) -> engine.Plan:
    return engine.solve(network(rows), data_date=engine.instant(rows.today))
