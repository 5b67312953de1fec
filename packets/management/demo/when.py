"""The demo's lanes, tasks, links and key dates, and a public date that leaves days in hand."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, time, timedelta
from decimal import Decimal
from typing import Any

from django.core.management.base import CommandError

from packets.management.demo.days import Days
from projects.models import Project, Stage
from schedules import plan
from schedules.models import Calendar, KeyDate, LagClock, Lane, Link, Task
from schedules.plan.chance import chance_percent
from suppliers.models import Order, Supplier

Row = Mapping[str, Any]
Stages = Mapping[tuple[str, str], Stage]  # by part and name of the stage
SATURDAY = 5
DAYS_WANTED = 3  # in hand before the public date
CHANCE_WANTED = 70  # percent, before a shop's week off takes some of it
SLIM, SURE = 55, 96  # percent: an earlier Saturday will do where the next is all but sure
WEEKS = 52  # looked at before giving up


def make_calendars(project: Project, rows: list[Row]) -> dict[str, Calendar]:
    Calendar.objects.create(project=project, name="Weekdays", is_default=True)
    return {
        row["key"]: Calendar.objects.create(
            project=project,
            name=row["name"],
            weekdays=row["weekdays"],
            opens=time.fromisoformat(row["opens"]),
            closes=time.fromisoformat(row["closes"]),
        )
        for row in rows
    }


def make_lanes(
    project: Project, rows: list[Row], suppliers: Mapping[str, Supplier]
) -> dict[str, Lane]:
    return {
        row["key"]: Lane.objects.create(
            project=project,
            name=row["name"],
            supplier=suppliers.get(row.get("supplier", "")),
            position=place,
        )
        for place, row in enumerate(rows)
    }


def make_tasks(
    project: Project, data: Row, suppliers: Mapping[str, Supplier], stages: Stages, days: Days
) -> dict[str, Task]:
    calendars = make_calendars(project, data.get("calendars", []))
    lanes = make_lanes(project, data["lanes"], suppliers)
    tasks = {
        row["key"]: make_task(project, row, place, lanes, calendars, stages, days)
        for place, row in enumerate(data["tasks"])
    }
    for row in data["tasks"]:
        for wait in row.get("after", ()):
            make_link(project, tasks, row["key"], wait)
    return tasks


def make_task(
    project: Project,
    row: Row,
    place: int,
    lanes: Mapping[str, Lane],
    calendars: Mapping[str, Calendar],
    stages: Stages,
    days: Days,
) -> Task:
    started, finished = row.get("done", (row.get("started"), None))
    return Task.objects.create(
        project=project,
        name=row["name"],
        phase=row["phase"],
        lane=lanes[row["lane"]],
        calendar=calendars.get(row.get("calendar", "")),
        days=Decimal(row["days"]),
        low_days=row.get("low"),
        high_days=row.get("high"),
        outdoor=row.get("outdoor", False),
        daylight=row.get("daylight", False),
        not_before=days.of(row.get("not_before")),
        started_on=None if started is None else days.worked(started),
        finished_on=None if finished is None else days.worked(finished),
        remaining_days=row.get("remaining"),
        stage=stage_of(stages, row),
        position=place,
    )


def stage_of(stages: Stages, row: Row) -> Stage | None:
    if "stage" not in row:
        return None
    kind, name = row["stage"]
    return stages[kind, name]


def make_link(project: Project, tasks: Mapping[str, Task], after: str, wait: str | Row) -> None:
    row: Row = {"key": wait} if isinstance(wait, str) else wait
    hours = Decimal(row.get("hours", 0))
    Link.objects.create(
        project=project,
        before=tasks[row["key"]],
        after=tasks[after],
        lag=hours,
        lag_clock=LagClock.ELAPSED if hours else LagClock.WORK,
        reason=row.get("reason", ""),
    )


def saturday_from(day: date) -> date:
    return day + timedelta(days=(SATURDAY - day.weekday()) % 7)


def find_public_date(public: KeyDate, days: Days) -> date:
    """The first Saturday that leaves enough days in hand, and a fair chance."""
    chance = 0.0
    for week in range(3, WEEKS):
        public.on, before = saturday_from(days.today + timedelta(weeks=week)), chance
        chance = chance_on(public, days)
        if chance > SURE and before >= SLIM:
            public.on -= timedelta(weeks=1)
            chance_on(public, days)
            return public.on
        if chance >= CHANCE_WANTED:
            return public.on
    raise CommandError(
        f"No Saturday within {WEEKS} weeks leaves the demo {DAYS_WANTED} days in hand and a chance "
        f"of {CHANCE_WANTED} percent: its tasks or calendars are wrong."
    )


def chance_on(public: KeyDate, days: Days) -> float:
    """Percent that the plan makes its public date; none with too few days in hand."""
    public.save()
    in_hand = plan.recompute(public.project, days.today).in_hand_days
    if in_hand is None:
        raise CommandError("Nothing leads to the demo's public date: it has no days in hand.")
    if in_hand < DAYS_WANTED:
        return 0.0
    return chance_percent(plan.read(public.project, days.today)) or 0.0


def remember_dates(tasks: Mapping[str, Task], days: Days) -> None:
    for key, task in tasks.items():
        task.refresh_from_db()
        days.tasks[key] = plan.early_days(task)


def make_key_dates(
    project: Project, rows: list[Row], tasks: Mapping[str, Task], days: Days
) -> None:
    for row in rows:
        KeyDate.objects.create(
            project=project,
            name=row["name"],
            kind=row["kind"],
            on=days.known(row["on"]),
            at=time.fromisoformat(row["at"]) if "at" in row else None,
            task=tasks.get(row.get("task", "")),
            effect=row.get("effect", "none"),
            movable=row["movable"],
        )


def make_orders(
    rows: list[Row],
    data: Row,
    suppliers: Mapping[str, Supplier],
    tasks: Mapping[str, Task],
    days: Days,
) -> dict[str, Order]:
    orders = {
        row["key"]: Order.objects.create(
            supplier=suppliers[row["supplier"]],
            title=row["title"],
            state=row["state"],
            cents=row["cents"],
            placed_on=days.of(row.get("placed_on")),
            window_start=days.of(row.get("window_start")),
            window_end=days.of(row.get("window_end")),
        )
        for row in rows
    }
    for row in data["tasks"]:
        if "order" in row:
            Task.objects.filter(pk=tasks[row["key"]].pk).update(order=orders[row["order"]])
    return orders
