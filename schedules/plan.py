"""Between the rows and the engine: read all, solve, write back what changed.

The only module that knows both worlds. Whatever can move a date calls ``recompute`` in its own
transaction; pages read the stored plan through ``current``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal
from functools import lru_cache

from django.db import connection, transaction

from projects.hooks import PlanDays, TaskDays
from projects.models import Project
from schedules import engine
from schedules.holidays import UnknownCountry, holidays_between
from schedules.models import (
    Calendar,
    KeyDate,
    KeyDateEffect,
    KeyDateKind,
    LagClock,
    Link,
    PlanState,
    Task,
)

ALWAYS = "always"  # the calendar of a task that happens on a key date: day and night
YEARS_AROUND = 4  # public holidays are read from this many years before today to after
STORED = [
    "early_start",
    "early_finish",
    "late_start",
    "late_finish",
    "total_float",
    "free_float",
    "to_end",
    "chain_position",
    "drivers",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """All that the engine needs of a project, as saved or as somebody would have it."""

    project: Project
    today: date
    tasks: tuple[Task, ...]
    links: tuple[Link, ...]
    key_dates: tuple[KeyDate, ...]
    calendars: Mapping[str, engine.Calendar]
    default: str

    @property
    def public(self) -> KeyDate | None:
        return next((k for k in self.key_dates if k.kind == KeyDateKind.PUBLIC), None)


def read(project: Project, today: date) -> Rows:
    """Five queries, whatever the size of the project."""
    rows = list(Calendar.objects.filter(project=project).prefetch_related("exceptions"))
    default = next((str(c.pk) for c in rows if c.is_default), ALWAYS)
    calendars = {str(c.pk): working_calendar(c, project, today) for c in rows}
    tasks = Task.objects.filter(project=project).select_related("lane")
    return Rows(
        project=project,
        today=today,
        tasks=tuple(tasks),
        links=tuple(Link.objects.filter(project=project)),
        key_dates=tuple(KeyDate.objects.filter(project=project)),
        calendars={ALWAYS: engine.Calendar.always(ALWAYS), **calendars},
        default=default,
    )


def working_calendar(calendar: Calendar, project: Project, today: date) -> engine.Calendar:
    span = ((minutes(calendar.opens), minutes(calendar.closes) or 1440),)
    week = tuple(span if worked == "1" else () for worked in calendar.weekdays)
    days: dict[date, tuple[tuple[int, int], ...]] = {}
    if calendar.keeps_holidays:
        days = dict.fromkeys(holidays_around(project.country, today.year), ())
    for row in calendar.exceptions.all():
        days[row.day] = span if row.works else ()
    return engine.Calendar(key=str(calendar.pk), week=week, exceptions=days)


@lru_cache(maxsize=64)
def holidays_around(country: str, year: int) -> Mapping[date, str]:
    """Public holidays by day, with their names; none for a country that is not known."""
    first, last = date(year - YEARS_AROUND, 1, 1), date(year + YEARS_AROUND, 12, 31)
    try:
        return holidays_between(country, first, last)
    except UnknownCountry:
        return {}


def minutes(clock: time) -> int:
    return clock.hour * 60 + clock.minute


def network(rows: Rows) -> engine.Network:
    """The engine's network; a task's key is its primary key as text."""
    calendar_of = calendar_keys(rows)
    now = engine.instant(rows.today)
    used = {t.pk: rows.calendars[calendar_of[t.pk]] for t in rows.tasks}
    public = rows.public
    return engine.Network(
        activities=tuple(activity(t, used[t.pk], now) for t in rows.tasks),
        links=tuple(link(row, used[row.before_id]) for row in rows.links),
        calendars=rows.calendars,
        key_dates=tuple(bounds(rows)),
        end=str(public.task_id) if public and public.task_id else None,
        zone=rows.project.zone,
        project_calendar=rows.default,
    )


def calendar_keys(rows: Rows) -> dict[int, str]:
    """The calendar that each task is planned on: what happens on a key date knows no hours."""
    events = {k.task_id for k in rows.key_dates if k.effect == KeyDateEffect.EVENT}
    return {
        t.pk: ALWAYS if t.pk in events else str(t.calendar_id or rows.default) for t in rows.tasks
    }


def activity(task: Task, calendar: engine.Calendar, now: int) -> engine.Activity:
    opens, closes = hours(calendar)
    duration = work_minutes(task.days, calendar)
    start = finish = remaining = None
    if task.finished_on:
        start = engine.instant(task.started_on or task.finished_on) + opens
        finish = engine.instant(task.finished_on) + closes
        start = min(start, finish)
    elif task.started_on:
        start = engine.instant(task.started_on) + opens
        remaining = still_to_do(task, calendar, duration, start, now)
    return engine.Activity(
        key=str(task.pk),
        duration=duration,
        calendar=calendar.key,
        actual_start=start,
        actual_finish=finish,
        remaining=remaining,
    )


def still_to_do(task: Task, calendar: engine.Calendar, duration: int, start: int, now: int) -> int:
    """What was left when it was last said, less the time gone since, but a day at least."""
    left, since = duration, start
    if task.remaining_days is not None:
        left = work_minutes(task.remaining_days, calendar)
        since = engine.instant(task.remaining_on) if task.remaining_on else now
    gone = calendar.between(since, now) if now > since else 0
    return max(left - gone, min(left, calendar.day_minutes))


def hours(calendar: engine.Calendar) -> tuple[int, int]:
    spans = next((spans for spans in calendar.week if spans), ((0, 1440),))
    return spans[0][0], spans[-1][1]


def work_minutes(days: Decimal, calendar: engine.Calendar) -> int:
    return int(days * calendar.day_minutes)


def link(row: Link, before: engine.Calendar) -> engine.Link:
    elapsed = row.lag_clock == LagClock.ELAPSED
    return engine.Link(
        key=str(row.pk),
        before=str(row.before_id),
        after=str(row.after_id),
        kind=engine.LinkKind(row.kind),
        lag=int(row.lag * 60) if elapsed else work_minutes(row.lag, before),
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


@transaction.atomic
def recompute(project: Project, today: date) -> PlanState:
    """Solve the saved project and store the plan; raises ``engine.ScheduleError``."""
    rows = read(project, today)
    plan = solve(rows)
    store_dates(rows, plan)
    state, _ = PlanState.objects.update_or_create(project=project, defaults=state_of(rows, plan))
    return state


def current(project: Project, today: date) -> PlanState:
    """The stored plan's state, computed anew on a new day."""
    state = PlanState.objects.filter(project=project).first()
    if state is None or state.computed_on != today:
        state = recompute(project, today)
    return state


def store_dates(rows: Rows, plan: engine.Plan) -> None:
    place = {key: n for n, key in enumerate(plan.chain)}
    changed = []
    for task in rows.tasks:
        new = stored_values(plan.dates[str(task.pk)], place.get(str(task.pk)))
        if any(getattr(task, name) != value for name, value in new.items()):
            for name, value in new.items():
                setattr(task, name, value)
            changed.append(task)
    update_stored(changed)


def update_stored(tasks: list[Task]) -> None:
    """One prepared statement for all rows: ``bulk_update`` takes several times as long."""
    columns = [Task._meta.get_field(name) for name in STORED]
    places = ", ".join(f"{connection.ops.quote_name(c.column)} = %s" for c in columns)
    table = connection.ops.quote_name(Task._meta.db_table)
    values = [
        [*(c.get_db_prep_save(getattr(t, c.attname), connection) for c in columns), t.pk]
        for t in tasks
    ]
    with connection.cursor() as cursor:
        cursor.executemany(f"UPDATE {table} SET {places} WHERE id = %s", values)


def stored_values(dates: engine.Dates, chain_position: int | None) -> dict[str, object]:
    return {
        "early_start": dates.early_start,
        "early_finish": dates.early_finish,
        "late_start": dates.late_start,
        "late_finish": dates.late_finish,
        "total_float": dates.total_float,
        "free_float": dates.free_float,
        "to_end": dates.to_end,
        "chain_position": chain_position,
        "drivers": [{"reason": str(d.reason), "key": d.key, "at": d.at} for d in dates.drivers],
    }


def state_of(rows: Rows, plan: engine.Plan) -> dict[str, object]:
    return {
        "finish": plan.finish,
        "ready_at": plan.ready_at,
        "in_hand": plan.in_hand,
        "in_hand_days": in_hand_days(rows, plan),
        "to_start_now": late_starts(rows, plan),
        "computed_on": rows.today,
    }


def in_hand_days(rows: Rows, plan: engine.Plan) -> int | None:
    """Whole working days, rounded down: never flattering, and late by a part is late by one."""
    if plan.in_hand is None:
        return None
    return plan.in_hand // rows.calendars[rows.default].day_minutes


def late_starts(rows: Rows, plan: engine.Plan) -> int:
    now = engine.instant(rows.today)
    waiting = [t for t in rows.tasks if not t.started_on and not t.finished_on]
    dates = [plan.dates[str(t.pk)] for t in waiting]
    return sum(1 for d in dates if d.to_end and d.late_start < now)


def plan_days(rows: Rows, plan: engine.Plan) -> PlanDays:
    """The plan in days, for the slip preview and whatever else hangs on its dates."""
    public = rows.public
    return PlanDays(
        tasks={t.pk: task_days(t, plan.dates[str(t.pk)]) for t in rows.tasks},
        key_dates={k.pk: k.on for k in rows.key_dates},
        public_on=public.on if public else None,
        public_name=public.name if public else "",
        work_done_on=None if plan.ready_at is None else engine.day_that_ends(plan.ready_at),
        finish_on=engine.day_that_ends(plan.finish) if rows.tasks else None,
        in_hand_days=in_hand_days(rows, plan),
        today=rows.today,
    )


def task_days(task: Task, dates: engine.Dates) -> TaskDays:
    start, finish = shown_days(dates.early_start, dates.early_finish)
    return TaskDays(
        pk=task.pk,
        name=task.name,
        start=start,
        finish=finish,
        late_finish=shown_days(dates.late_start, dates.late_finish)[1],
        order_id=task.order_id,
        supplier_id=task.lane.supplier_id,
        to_end=dates.to_end,
        finished=dates.finished,
    )


def shown_days(start: int, finish: int) -> tuple[date, date]:
    """First and last day, both worked; a task of no length is shown on the day it begins."""
    if start == finish:
        return engine.day_that_begins(start), engine.day_that_begins(start)
    return engine.day_that_begins(start), engine.day_that_ends(finish)
