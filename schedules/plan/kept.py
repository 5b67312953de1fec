"""A plan kept: frozen into plain values, read back, and held against another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

from projects.hooks import PlanDays
from schedules import engine
from schedules.engine import earned, variance
from schedules.plan.days import plan_days
from schedules.plan.rows import Rows
from schedules.plan.translate import calendar_keys, network, solve

DAY = 1440
PARTS = 100  # a task's days are kept to the hundredth
LinkKey = tuple[int, int, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptTask:
    key: str
    name: str
    lane: str
    days: Decimal
    start: date
    finish: date
    early_start: int | None  # copies from before they were kept hold days alone
    early_finish: int | None
    weight: int  # hundredths of a task-day; none for what only waits
    calendar: str | None

    @property
    def span(self) -> tuple[int, int]:
        """Instants; of an old copy, from its first morning to its last midnight."""
        if self.early_start is None or self.early_finish is None:
            return engine.instant(self.start), engine.instant(self.finish) + DAY
        return self.early_start, self.early_finish


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    on: date
    tasks: Mapping[str, KeptTask]
    links: Mapping[LinkKey, tuple[str, str]]
    public_on: date | None
    ready_on: date | None
    in_hand_days: int | None
    calendars: Mapping[str, Any]


def freeze(rows: Rows, today: date) -> dict[str, Any]:
    """Dates, durations, links and calendars, so that later plans can be held against it."""
    solved = solve(rows)
    days = plan_days(rows, solved)
    keys = calendar_keys(rows)
    return {
        "on": today.isoformat(),
        "in_hand_days": days.in_hand_days,
        "public_on": days.public_on.isoformat() if days.public_on else None,
        "ready_on": days.work_done_on.isoformat() if days.work_done_on else None,
        "tasks": [
            {
                "pk": task.pk,
                "name": task.name,
                "lane": task.lane.name,
                "days": f"{task.days.normalize():f}",
                "start": days.tasks[task.pk].start.isoformat(),
                "finish": days.tasks[task.pk].finish.isoformat(),
                "late_finish": days.tasks[task.pk].late_finish.isoformat(),
                "early_start": solved.dates[str(task.pk)].early_start,
                "early_finish": solved.dates[str(task.pk)].early_finish,
                "calendar": keys[task.pk],
                "weight": 0 if task.waits else int(task.days * PARTS),
            }
            for task in rows.tasks
        ],
        "links": [
            [row.before_id, row.after_id, str(row.kind), str(row.lag), str(row.lag_clock)]
            for row in rows.links
        ],
        "key_dates": [{"pk": k.pk, "name": k.name, "on": k.on.isoformat()} for k in rows.key_dates],
        "calendars": [
            freeze_calendar(rows.calendars[key], *reach(days))
            for key in sorted({rows.default, *keys.values()})
        ],
    }


def reach(days: PlanDays) -> tuple[date, date]:
    """From the first day of the plan to its last, however late it may be."""
    tasks = days.tasks.values()
    first = min((task.start for task in tasks), default=days.today)
    last = max((max(task.finish, task.late_finish) for task in tasks), default=days.today)
    return min(first, days.today), last


def freeze_calendar(calendar: engine.Calendar, first: date, last: date) -> dict[str, Any]:
    """Its week, and the days that differ within the reach of the plan."""
    differ = {day: spans for day, spans in calendar.exceptions.items() if first <= day <= last}
    return {
        "key": calendar.key,
        "week": [list(map(list, spans)) for spans in calendar.week],
        "exceptions": {day.isoformat(): list(map(list, s)) for day, s in sorted(differ.items())},
    }


def thaw(data: Mapping[str, Any], public: int | None = None) -> Kept:
    """``public`` is the key of the public date, for copies that do not name their own."""
    dates = {row["pk"]: row["on"] for row in data.get("key_dates", ())}
    return Kept(
        on=date.fromisoformat(data["on"]),
        tasks={str(row["pk"]): thaw_task(row) for row in data["tasks"]},
        links={
            (row[0], row[1], row[2]): (f"{Decimal(row[3]).normalize():f}", row[4])
            for row in data["links"]
        },
        public_on=day_of(data.get("public_on") or dates.get(public)),
        ready_on=day_of(data.get("ready_on")),
        in_hand_days=data.get("in_hand_days"),
        calendars={row["key"]: row for row in data["calendars"]},
    )


def thaw_task(row: Mapping[str, Any]) -> KeptTask:
    days = Decimal(row["days"])
    return KeptTask(
        key=str(row["pk"]),
        name=row["name"],
        lane=row["lane"],
        days=days,
        start=date.fromisoformat(row["start"]),
        finish=date.fromisoformat(row["finish"]),
        early_start=row.get("early_start"),
        early_finish=row.get("early_finish"),
        weight=row.get("weight", int(days * PARTS)),
        calendar=row.get("calendar"),
    )


def day_of(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None


def thaw_calendar(row: Mapping[str, Any]) -> engine.Calendar:
    return engine.Calendar(
        key=row["key"],
        week=tuple(tuple((a, b) for a, b in spans) for spans in row["week"]),
        exceptions={
            date.fromisoformat(day): tuple((a, b) for a, b in spans)
            for day, spans in row["exceptions"].items()
        },
    )


def held_against(kept: Kept, then: Kept, rows: Rows) -> dict[str, variance.Variance]:
    """What moved, counted on the calendar that each task has today."""
    now = {str(pk): key for pk, key in calendar_keys(rows).items()}
    keys = {*kept.tasks, *then.tasks}
    on = {key: rows.calendars[now.get(key, rows.default)] for key in keys}
    found = variance.variances(spans(kept), spans(then), on)
    return {each.key: each for each in found}


def spans(kept: Kept) -> dict[str, variance.Span]:
    return {
        key: variance.Span(start=task.start, finish=task.finish, days=Fraction(task.days))
        for key, task in kept.tasks.items()
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkDone:
    """Work in hundredths of a task-day, against a plan kept; ``reached`` is the instant at
    which that plan would have had as much done."""

    whole: int
    due: int
    done: int
    reached: int | None
    behind: int  # working minutes of the project's calendar; below zero: ahead
    dropped: int  # tasks of the plan kept that are no longer in the plan


def work_done(kept: Kept, rows: Rows) -> WorkDone:
    """By the calendars as they were kept, so that what was due does not change afterwards."""
    shares = done_shares(rows)
    tasks = [task for key, task in kept.tasks.items() if key in shares]
    on = {**rows.calendars, **{key: thaw_calendar(row) for key, row in kept.calendars.items()}}
    now_on = {str(pk): key for pk, key in calendar_keys(rows).items()}
    work = [planned(task, on[task.calendar or now_on[task.key]]) for task in tasks]
    done = sum((task.weight * shares[task.key] for task in tasks), Fraction(0))
    now = engine.instant(rows.today)
    due = earned.planned_by(work, now)
    reached = earned.planned_at(work, done)
    own = rows.calendars[rows.default]
    return WorkDone(
        whole=sum(task.weight for task in tasks),
        due=round(due),
        done=round(done),
        reached=reached,
        behind=0 if reached is None or due == done else own.between(reached, now),
        dropped=len(kept.tasks) - len(tasks),
    )


def planned(task: KeptTask, calendar: engine.Calendar) -> earned.Planned:
    start, finish = task.span
    return earned.Planned(amount=task.weight, start=start, finish=finish, calendar=calendar)


def done_shares(rows: Rows) -> dict[str, Fraction]:
    """How much of each task is done: what is left of it, not a guess in percent."""
    return {each.key: done_share(each) for each in network(rows).activities}


def done_share(each: engine.Activity) -> Fraction:
    if each.actual_finish is not None:
        return Fraction(1)
    if each.actual_start is None or each.remaining is None or not each.duration:
        return Fraction(0)
    return max(Fraction(0), 1 - Fraction(each.remaining, each.duration))
