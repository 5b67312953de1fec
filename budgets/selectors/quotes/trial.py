"""What a lead time does to the plan: tried on the real schedule, and nothing is saved."""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from projects.models import Project
from schedules import engine, plan
from schedules.models import Task


@dataclass(frozen=True, slots=True, kw_only=True)
class Effect:
    """What one lead time leaves: when it is there, days in hand, the last day to order."""

    ready_on: date
    in_hand: int | None = None
    latest: date | None = None  # so that the public date holds; none: nothing tells


@dataclass(frozen=True, kw_only=True)
class Trial:
    """The plan as it is, and the task whose lead time is tried in it."""

    rows: plan.Rows
    task: Task | None
    now: int | None  # days in hand as planned
    public_on: date | None
    public_name: str
    broken: str = ""  # why the plan cannot be computed

    @property
    def ties(self) -> bool:
        """Whether a lead time can be tried: there is a plan, and its task has not begun."""
        return bool(self.task and not self.task.started_on and not self.broken)

    def effect(self, lead_days: int, on: date) -> Effect:
        """Of an order placed on a day, that takes so many working days."""
        if not self.ties:
            return Effect(ready_on=self.counted(lead_days, on))
        try:
            return tried(self.rows, self.known, lead_days, on)
        except engine.ScheduleError:
            return Effect(ready_on=self.counted(lead_days, on))

    @property
    def known(self) -> Task:
        assert self.task is not None
        return next(task for task in self.rows.tasks if task.pk == self.task.pk)

    def counted(self, lead_days: int, on: date) -> date:
        """The last of so many working days of the project, without a task to count on."""
        calendar = self.rows.calendars[self.rows.default]
        minutes = plan.work_minutes(Decimal(lead_days), calendar)
        start = calendar.snap(engine.instant(on))
        return engine.day_that_ends(calendar.add(start, minutes)) if lead_days else on


def trial(project: Project, today: date, task: Task | None) -> Trial:
    looked = plan.look(project, today)
    try:
        days = looked.days
    except engine.ScheduleError as error:
        return Trial(
            rows=looked.rows, task=task, now=None, public_on=None, public_name="", broken=str(error)
        )
    return Trial(
        rows=looked.rows,
        task=task,
        now=days.in_hand_days,
        public_on=days.public_on,
        public_name=days.public_name,
    )


def tried(rows: plan.Rows, task: Task, lead_days: int, on: date) -> Effect:
    """Raises ``engine.ScheduleError``."""
    changed = with_lead(rows, task, lead_days, on)
    solved = plan.solve(changed)
    days = plan.plan_days(changed, solved)
    dates = solved.dates[str(task.pk)]
    latest = None
    if days.public_on and dates.to_end:
        latest = plan.shown_days(dates.late_start, dates.late_finish)[0]
    return Effect(ready_on=days.tasks[task.pk].finish, in_hand=days.in_hand_days, latest=latest)


def with_lead(rows: plan.Rows, task: Task, lead_days: int, on: date) -> plan.Rows:
    """The rows as they would be with the order placed on a day."""
    other = copy(task)
    set_lead(other, lead_days, on, rows.today)
    tasks = [other if row.pk == task.pk else row for row in rows.tasks]
    return replace(rows, tasks=tuple(tasks))


def set_lead(task: Task, lead_days: int, on: date, today: date) -> None:
    """A task takes as long as the quote says, from the order on; it may wait longer by itself."""
    task.days = Decimal(lead_days)
    if task.low_days is not None:
        task.low_days = min(task.low_days, task.days)
    if task.high_days is not None:
        task.high_days = max(task.high_days, task.days)
    if on > today and (task.not_before is None or task.not_before < on):
        task.not_before, task.not_before_reason = on, "the order is placed that day"
