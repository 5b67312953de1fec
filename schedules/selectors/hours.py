"""Whose hours are worked, and which they are, in words."""

from __future__ import annotations

from projects.words import listed
from schedules.engine.sun import Spans
from schedules.models import Calendar, Task
from schedules.plan import Rows
from schedules.plan.rows import LIT, hours_on
from schedules.selectors.wording import weekday_words


def worked_words(calendar: Calendar) -> str:
    """“Mon to Thu 07:00 to 17:00, Fri 07:00 to 12:00”."""
    groups: dict[Spans, list[str]] = {}
    for weekday, worked in enumerate(calendar.weekdays):
        if worked == "1":
            days = groups.setdefault(hours_on(calendar, weekday), list("0" * 7))
            days[weekday] = "1"
    return listed(
        [f"{weekday_words(''.join(days))} {spans_words(spans)}" for spans, days in groups.items()]
    )


def spans_words(spans: Spans) -> str:
    """“07:00 to 17:00”, “00:00 to 02:10 and 03:40 to 24:00”."""
    return " and ".join(f"{clock(opens)} to {clock(closes)}" for opens, closes in spans)


def clock(minute: int) -> str:
    return f"{minute // 60:02d}:{minute % 60:02d}"


def hours_words(rows: Rows, task: Task) -> str:
    """“the hours of Saltglaze Metalworks”; nothing where the project's own are meant."""
    key = rows.hours_of(task).removesuffix(LIT)
    return "" if key == rows.default else rows.called.get(key, "")


def daylight_words(rows: Rows, task: Task) -> str:
    """What daylight does to a task, or what is missing before it can do so."""
    if not task.daylight or task.finished_on:
        return ""
    if rows.hours_of(task).endswith(LIT):
        return "Work stops at sunset and goes on at sunrise."
    return (
        "It needs daylight, but the position of the site is not known, so its hours are not cut. "
        "Write it in the details of the project."
    )
