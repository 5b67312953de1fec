"""Hires and supervision: how long each lasts is read off the plan, and drives nothing in it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from schedules import engine
from schedules.models import Hammock, Lane, Task
from schedules.plan.rows import Rows

Tasks = tuple[int, ...]
TaskKeys = Mapping[int, Tasks]  # of each hire


@dataclass(frozen=True, slots=True, kw_only=True)
class Hire:
    """A hire with the dates that a plan gives it; both days are worked."""

    pk: int
    name: str
    lane: Lane
    order_id: int | None
    supplier_id: int | None
    opened_by: tuple[int, ...]  # the tasks that it starts with
    closed_by: tuple[int, ...]  # the tasks that it ends with
    start: int  # instants
    finish: int
    first: date
    last: date
    minutes: int  # of working time on its lane's calendar
    days: int  # the same in days, a part of one counted whole
    day_cents: int | None

    @property
    def cents(self) -> int | None:
        return None if self.day_cents is None else self.days * self.day_cents


def hires(rows: Rows, plan: engine.Plan | None = None) -> list[Hire]:
    """Every hire that has dates, by the stored plan or by ``plan``; at most three queries.

    One whose first or last tasks are all gone has no dates and is left out.
    """
    found = list(Hammock.objects.filter(project=rows.project).select_related("lane"))
    if not found:
        return []
    opens, closes = tasks_of(rows, "from_tasks"), tasks_of(rows, "to_tasks")
    plan = plan or stored_plan(rows)
    hours = engine.Network(
        activities=(), links=(), calendars=rows.calendars, project_calendar=rows.default
    )
    known = {int(key) for key in plan.dates}
    return [
        hire_of(row, plan, hours, lane_calendar(row.lane, rows), (opens[row.pk], closes[row.pk]))
        for row in found
        if known.issuperset(opens.get(row.pk) or {0})
        and known.issuperset(closes.get(row.pk) or {0})
    ]


def tasks_of(rows: Rows, which: str) -> TaskKeys:
    through = getattr(Hammock, which).through.objects
    pairs = through.filter(hammock__project=rows.project).values_list("hammock_id", "task_id")
    found: dict[int, list[int]] = defaultdict(list)
    for hammock, task in pairs.order_by("task_id"):
        found[hammock].append(task)
    return {hammock: tuple(tasks) for hammock, tasks in found.items()}


def hire_of(
    row: Hammock, plan: engine.Plan, hours: engine.Network, key: str, ends: tuple[Tasks, Tasks]
) -> Hire:
    """``key`` is that of its calendar; ``ends`` the tasks that it starts and ends with."""
    starts, finishes = (tuple(map(str, tasks)) for tasks in ends)
    hammock = engine.Hammock(key=str(row.pk), starts=starts, finishes=finishes, calendar=key)
    start, finish, minutes = engine.hammock_dates(plan, hours, hammock)
    first = engine.day_that_begins(start)
    return Hire(
        pk=row.pk,
        name=row.name,
        lane=row.lane,
        order_id=row.order_id,
        supplier_id=row.lane.supplier_id,
        opened_by=ends[0],
        closed_by=ends[1],
        start=start,
        finish=finish,
        first=first,
        last=max(first, engine.day_that_ends(finish)),
        minutes=minutes,
        days=-(-minutes // hours.calendars[key].day_minutes),
        day_cents=row.day_cents,
    )


def lane_calendar(lane: Lane, rows: Rows) -> str:
    """The lane's own, else its supplier's, else the project's."""
    if lane.calendar_id:
        return str(lane.calendar_id)
    return rows.keepers.get(lane.supplier_id or 0, rows.default)


def stored_plan(rows: Rows) -> engine.Plan:
    """The dates that the rows hold, without floats and reasons."""
    placed = [t for t in rows.tasks if t.early_start is not None]
    return engine.Plan(
        dates={str(t.pk): stored_dates(t) for t in placed},
        finish=max((t.early_finish or 0 for t in placed), default=engine.instant(rows.today)),
        chain=(),
        chain_links=(),
        ready_at=None,
        in_hand=None,
    )


def stored_dates(task: Task) -> engine.Dates:
    early = task.early_start or 0, task.early_finish or 0
    late = task.late_start or 0, task.late_finish or 0
    floats = task.total_float or 0, task.free_float or 0
    return engine.Dates(*early, *late, *floats, (), bool(task.finished_on), task.to_end)
