"""Why this date: the link, the calendar or the date that puts a task where it is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from projects.words import day, listed, plural
from schedules import engine
from schedules.models import DayException, KeyDateEffect, LinkKind, Task
from schedules.plan import Rows, calendar_keys, holidays_around
from schedules.plan.rows import LIT
from schedules.selectors.floats import slip_words
from schedules.selectors.hires import hires_of
from schedules.selectors.hours import daylight_words, hours_words
from schedules.selectors.room import room_of
from schedules.selectors.schedule import TaskRow, find_row
from schedules.selectors.sequence import out_of_sequence
from schedules.selectors.waits import link_reason

MOST_DAYS = 4  # days not worked that are named one by one


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    row: TaskRow
    start: str  # the sentence that says why it starts when it does
    rest: str  # what the calendar has to do with it
    drives: str
    room: str
    slips: str  # how far it may slip before a neighbour moves
    holds: str  # first days that somebody set, where they do not bind now
    hires: str  # what it opens and closes
    order: str  # that it was begun out of order
    hours: str  # whose hours it is planned on, if not the project's own, and its daylight


def why_of(rows: Rows, pk: int) -> Why | None:
    row = find_row(rows, pk)
    if row is None:
        return None
    return Why(
        row=row,
        start=start_words(rows, row),
        rest=rest_words(rows, row.task),
        drives=drives_words(rows, row.task),
        room=room_of(rows, row),
        slips=slip_words(rows, row),
        holds=holds_words(rows, row.task),
        hires=hires_of(rows, pk),
        order=order_words(rows, row.task),
        hours=own_hours(rows, row.task),
    )


def start_words(rows: Rows, row: TaskRow) -> str:
    task = row.task
    if task.finished_on:
        return f"It is done: {finished_words(task)}."
    reasons = [words for driver in task.drivers if (words := reason_words(rows, task, driver))]
    because = " and ".join(dict.fromkeys(reasons)) or "nothing holds it back"
    if task.started_on:
        return f"It started {day(task.started_on)}. What is left ends {day(row.finish)}: {because}."
    if task.pk in events(rows) or not task.days:
        return f"It is on {day(row.start)} because {because}."
    return f"Starts {day(row.start)} because {because}."


def own_hours(rows: Rows, task: Task) -> str:
    words = hours_words(rows, task)
    if task.finished_on or task.pk in events(rows):
        return ""
    planned = f"It is planned on {words}." if words else ""
    return f"{planned} {daylight_words(rows, task)}".strip()


def finished_words(task: Task) -> str:
    start = f"started {day(task.started_on)}, " if task.started_on else ""
    return f"{start}finished {day(task.finished_on)}" if task.finished_on else start


def events(rows: Rows) -> set[int | None]:
    return {k.task_id for k in rows.key_dates if k.effect == KeyDateEffect.EVENT}


def reason_words(rows: Rows, task: Task, driver: dict[str, Any]) -> str:
    """One stored driver as the end of a sentence; nothing for what was said already."""
    reason = driver["reason"]
    if reason == engine.Reason.LINK:
        return link_reason(rows, driver)
    if reason == engine.Reason.KEY_DATE:
        return key_date_reason(rows, task, str(driver["key"]))
    if reason == engine.Reason.DATA_DATE:
        return "nothing holds it back" if not task.started_on else "the work goes on today"
    return ""


def key_date_reason(rows: Rows, task: Task, key: str) -> str:
    if key.startswith("start-") and task.not_before:
        return f"you said that it cannot start before {day(task.not_before)}{told(task)}"
    row = next((k for k in rows.key_dates if str(k.pk) == key), None)
    if row is None:
        return ""
    if row.effect == KeyDateEffect.EVENT:
        return f"“{row}” is on that day"
    because = f" ({row.reason})" if row.reason else ""
    return f"“{row}” lets it start on {day(row.on)} and no earlier{because}"


def told(task: Task) -> str:
    return f" ({task.not_before_reason})" if task.not_before_reason else ""


def holds_words(rows: Rows, task: Task) -> str:
    """A first day that is set but holds nothing back now."""
    bound = {str(d["key"]) for d in task.drivers if d["reason"] == engine.Reason.KEY_DATE}
    if not task.not_before or task.started_on or f"start-{task.pk}" in bound:
        return ""
    return f"You also said that it cannot start before {day(task.not_before)}{told(task)}."


def order_words(rows: Rows, task: Task) -> str:
    if not task.started_on or task.finished_on:
        return ""
    return next((row.says for row in out_of_sequence(rows) if row.task.pk == task.pk), "")


def rest_words(rows: Rows, task: Task) -> str:
    """The days between what it waits for and its start on which nobody works."""
    bound = start_bound(rows, task)
    if bound is None or task.started_on or task.finished_on or task.early_start is None:
        return ""
    key = calendar_keys(rows)[task.pk]
    first = engine.day_that_begins(bound)
    free = idle_days(rows.calendars[key], first, engine.day_that_begins(task.early_start))
    if not free:
        return ""
    if len(free) > MOST_DAYS:
        return f"{plural(len(free), 'day')} between are not worked."
    verb = "is" if len(free) == 1 else "are"
    return f"{listed(named(rows, key, free))} {verb} not worked."


def start_bound(rows: Rows, task: Task) -> int | None:
    """The latest instant that a driver gives for the start itself."""
    finishing = {str(r.pk) for r in rows.links if r.kind in (LinkKind.FF, LinkKind.SF)}
    found = [d["at"] for d in task.drivers if "at" in d and not link_of(d, finishing)]
    return max(found, default=None)


def link_of(driver: dict[str, Any], links: set[str]) -> bool:
    """Whether it is one of these links: key dates have keys of their own that look alike."""
    return driver["reason"] == engine.Reason.LINK and driver["key"] in links


def idle_days(calendar: engine.Calendar, first: date, start: date) -> list[date]:
    days = [first + timedelta(n) for n in range((start - first).days)]
    return [d for d in days if not calendar.exceptions.get(d, calendar.week[d.weekday()])]


def named(rows: Rows, key: str, days: Iterable[date]) -> list[str]:
    """“Sat 3 Oct”, “Mon 5 Oct (Labor Day)”."""
    project = rows.project
    notes = dict(holidays_around(project.country, rows.today.year, project.region))
    own = key.removesuffix(LIT)
    if own.isdigit():
        off = DayException.objects.filter(calendar_id=int(own), day__in=list(days))
        notes.update({row.day: row.note for row in off})
    calendar = rows.calendars[key]
    return [
        f"{day(d)} ({notes[d]})" if notes.get(d) and calendar.week[d.weekday()] else day(d)
        for d in days
    ]


def drives_words(rows: Rows, task: Task) -> str:
    """What starts or ends as it does because of this task."""
    mine = {str(row.pk) for row in rows.links if row.before_id == task.pk}
    driven = [
        t.name for t in rows.tasks if not t.finished_on and any(link_of(d, mine) for d in t.drivers)
    ]
    if driven:
        return f"It decides when {listed([f'“{name}”' for name in driven])} can go on."
    waiting = {row.after_id for row in rows.links if row.before_id == task.pk}
    if not waiting:
        return "No other task waits for it."
    return f"{plural(len(waiting), 'task')} after it would wait for something else even longer."
