"""The rows as they would be after some changes; those that are given are left alone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from copy import copy
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from functools import reduce

from projects.words import day_year, plural
from schedules import engine, plan
from schedules.models import KeyDate, Lane, Task
from schedules.plan.rows import LIT
from schedules.selectors.wording import days_words

NO_DAYS = Decimal(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One change to try: a task or a key date, by days or to a day; or a lane that is away."""

    task: Task | None = None
    key_date: KeyDate | None = None
    lane: Lane | None = None  # away for so many days from the day on
    days: Decimal | None = None
    on: date | None = None

    @property
    def words(self) -> str:
        """“Weld lantern frame” takes 6 working days longer."""
        if self.key_date:
            return key_date_words(self.key_date, self)
        if self.lane and self.on:
            return f"{self.lane} is away {away_words(self)}"
        if self.on:
            return f"“{self.task}” cannot start before {day_year(self.on)}"
        days = self.days or NO_DAYS
        return f"“{self.task}” takes {days_words(abs(days))} {'longer' if days > 0 else 'less'}"


def key_date_words(key_date: KeyDate, slip: Slip) -> str:
    if slip.on:
        return f"“{key_date}” moves from {day_year(key_date.on)} to {day_year(slip.on)}"
    days = int(slip.days or 0)
    return f"“{key_date}” moves {plural(abs(days), 'day')} {'later' if days > 0 else 'earlier'}"


def away_words(slip: Slip) -> str:
    days = away_days(slip)
    if len(days) == 1:
        return f"on {day_year(days[0])}"
    return f"from {day_year(days[0])} to {day_year(days[-1])}"


def away_days(slip: Slip) -> list[date]:
    """Every day of the absence, worked or not."""
    assert slip.on is not None
    return [slip.on + timedelta(days=n) for n in range(int(slip.days or 1))]


def slipped(rows: plan.Rows, slips: Iterable[Slip]) -> plan.Rows:
    return reduce(with_one, slips, rows)


def with_one(rows: plan.Rows, slip: Slip) -> plan.Rows:
    if slip.key_date:
        return with_key_date(rows, slip.key_date.pk, slip)
    if slip.lane:
        return with_lane_away(rows, slip.lane.pk, slip)
    assert slip.task is not None
    task = copy(next(t for t in rows.tasks if t.pk == slip.task.pk))
    change_task(rows, task, slip)
    return replace(rows, tasks=tuple(task if t.pk == task.pk else t for t in rows.tasks))


def with_key_date(rows: plan.Rows, pk: int, slip: Slip) -> plan.Rows:
    moved = copy(next(k for k in rows.key_dates if k.pk == pk))
    moved.on = slip.on or moved.on + timedelta(days=int(slip.days or 0))
    dates = [moved if k.pk == pk else k for k in rows.key_dates]
    return replace(rows, key_dates=tuple(dates))


def change_task(rows: plan.Rows, task: Task, slip: Slip) -> None:
    """A task under way has so many days more left; the time that is gone stays gone."""
    if slip.on:
        task.not_before = slip.on
        return
    extra = slip.days or NO_DAYS
    if task.started_on:
        task.remaining_days = max(NO_DAYS, days_left(rows, task) + extra)
        task.remaining_on = rows.today
    task.days = max(NO_DAYS, task.days + extra)


def days_left(rows: plan.Rows, task: Task) -> Decimal:
    calendar = rows.calendars[plan.calendar_keys(rows)[task.pk]]
    minutes = plan.activity(task, calendar, engine.instant(rows.today)).remaining or 0
    return (Decimal(minutes) / calendar.day_minutes).quantize(Decimal("0.01"))


def with_lane_away(rows: plan.Rows, lane: int, slip: Slip) -> plan.Rows:
    """Its tasks have those days off; one that keeps hours of its own does not follow the lane."""
    tasks, calendars = [], dict(rows.calendars)
    for task in rows.tasks:
        if follows(task, lane):
            calendars |= twins(calendars, rows.hours_of(task).removesuffix(LIT), lane, slip)
            task = copy(task)
            task.calendar_id = -lane
        tasks.append(task)
    return replace(rows, tasks=tuple(tasks), calendars=calendars)


def follows(task: Task, lane: int) -> bool:
    """Whether it keeps the lane's hours, as saved or as tried already."""
    return task.lane_id == lane and not task.finished_on and task.calendar_id in (None, -lane)


def twins(
    calendars: Mapping[str, engine.Calendar], key: str, lane: int, slip: Slip
) -> dict[str, engine.Calendar]:
    """The lane's hours without those days, and the same by daylight."""
    own = {key + lit: f"{-lane}{lit}" for lit in ("", LIT) if key + lit in calendars}
    return {new: off(calendars[old], new, slip) for old, new in own.items()}


def off(calendar: engine.Calendar, key: str, slip: Slip) -> engine.Calendar:
    days = {**calendar.exceptions, **dict.fromkeys(away_days(slip), ())}
    return engine.Calendar(key=key, week=calendar.week, exceptions=days)
