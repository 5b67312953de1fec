"""All the rows that a plan is computed from, read in five queries."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, time
from functools import lru_cache

from projects.models import Project
from schedules import engine
from schedules.holidays import UnknownCountry, holidays_between
from schedules.models import Calendar, KeyDate, KeyDateKind, Link, Task

ALWAYS = "always"  # the calendar of a task that happens on a key date: day and night
YEARS_AROUND = 4  # public holidays are read from this many years before today to after


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
