"""All the rows that a plan is computed from: five queries, and a sixth where daylight counts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, time
from functools import lru_cache

from projects.models import Project, Site
from schedules import engine
from schedules.engine.sun import Spans, daylight, within
from schedules.holidays import UnknownCountry, holidays_between
from schedules.models import Calendar, KeyDate, KeyDateKind, Link, Task
from schedules.plan.once import once

ALWAYS = "always"  # the calendar of a task that happens on a key date: day and night
LIT = "-daylight"  # ends the key of a calendar that is worked by daylight alone
YEARS_AROUND = 4  # public holidays are read from this many years before today to after
YEARS_LIT = range(-1, 4)  # daylight is looked at in these years around today


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
    keepers: Mapping[int, str] = field(default_factory=dict)  # a supplier's calendar
    called: Mapping[str, str] = field(default_factory=dict)  # a calendar, in words

    @property
    def public(self) -> KeyDate | None:
        return next((k for k in self.key_dates if k.kind == KeyDateKind.PUBLIC), None)

    def hours_of(self, task: Task) -> str:
        """The key of a task's calendar: its own, its lane's, the supplier's, the project's."""
        own = task.calendar_id or task.lane.calendar_id
        key = str(own) if own else self.keepers.get(task.lane.supplier_id or 0, self.default)
        return f"{key}{LIT}" if task.daylight and f"{key}{LIT}" in self.calendars else key


def read(project: Project, today: date) -> Rows:
    """Five queries, whatever the size of the project; six when a task needs daylight."""
    found = Calendar.objects.filter(project=project).select_related("supplier")
    rows = list(found.prefetch_related("exceptions"))
    calendars = {str(c.pk): working_calendar(c, project, today) for c in rows}
    read_rows = Rows(
        project=project,
        today=today,
        tasks=tasks_of(project),
        links=tuple(Link.objects.filter(project=project)),
        key_dates=key_dates_of(project),
        calendars={ALWAYS: engine.Calendar.always(ALWAYS), **calendars},
        default=next((str(c.pk) for c in rows if c.is_default), ALWAYS),
        keepers={c.supplier_id: str(c.pk) for c in rows if c.supplier_id},
        called={str(c.pk): hours_words(c) for c in rows},
    )
    return with_daylight(read_rows)


def tasks_of(project: Project) -> tuple[Task, ...]:
    """Each with its lane; read once in a request that only looks."""
    rows = Task.objects.filter(project=project).select_related("lane")
    return once(project, ("tasks", None), lambda: tuple(rows))


def key_dates_of(project: Project) -> tuple[KeyDate, ...]:
    rows = KeyDate.objects.filter(project=project)
    return once(project, ("key dates", None), lambda: tuple(rows))


def hours_words(calendar: Calendar) -> str:
    """“the hours of Saltglaze Metalworks”, “Volunteer weekends”."""
    if calendar.supplier:
        return f"the hours of {calendar.supplier}"
    return f"“{calendar.name}”"


def working_calendar(calendar: Calendar, project: Project, today: date) -> engine.Calendar:
    spans = [hours_on(calendar, weekday) for weekday in range(7)]
    week = tuple(
        span if worked == "1" else () for span, worked in zip(spans, calendar.weekdays, strict=True)
    )
    days: dict[date, Spans] = {}
    if calendar.keeps_holidays:
        days = dict.fromkeys(holidays_around(project.country, today.year, project.region), ())
    for row in calendar.exceptions.all():
        days[row.day] = spans[row.day.weekday()] if row.works else ()
    return engine.Calendar(key=str(calendar.pk), week=week, exceptions=days)


def hours_on(calendar: Calendar, weekday: int) -> Spans:
    """The hours of a weekday: its own where they differ; until midnight if they end at 0:00."""
    own = calendar.day_hours.get(str(weekday))
    opens, closes = map(time.fromisoformat, own) if own else (calendar.opens, calendar.closes)
    return ((minutes(opens), minutes(closes) or 1440),)


def with_daylight(rows: Rows) -> Rows:
    """Adds a twin that stops at dusk to each calendar on which a task needs daylight.

    None as long as nobody said where the site is.
    """
    wanted = {rows.hours_of(t) for t in rows.tasks if t.daylight and not t.finished_on}
    place = position_of(rows.project) if wanted else None
    if place is None:
        return rows
    years = [daylight(*place, rows.project.zone, rows.today.year + n) for n in YEARS_LIT]
    twins = (lit_calendar(rows.calendars[key], years) for key in wanted)
    return replace(rows, calendars={**rows.calendars, **{twin.key: twin for twin in twins}})


def lit_calendar(calendar: engine.Calendar, years: list[Mapping[date, Spans]]) -> engine.Calendar:
    days, week = dict(calendar.exceptions), calendar.week
    for year in years:
        for day, light in year.items():
            worked = days.get(day, week[day.weekday()])
            if worked:
                days[day] = within(worked, light)
    return engine.Calendar(key=f"{calendar.key}{LIT}", week=week, exceptions=days)


def position_of(project: Project) -> tuple[float, float] | None:
    """Latitude and longitude of the site, in degrees."""
    site = Site.objects.filter(project=project).only("latitude", "longitude").first()
    if site is None or site.latitude is None or site.longitude is None:
        return None
    return float(site.latitude), float(site.longitude)


@lru_cache(maxsize=64)
def holidays_around(country: str, year: int, region: str = "") -> Mapping[date, str]:
    """Public holidays by day, with their names; none for a country that is not known."""
    first, last = date(year - YEARS_AROUND, 1, 1), date(year + YEARS_AROUND, 12, 31)
    try:
        return holidays_between(country, first, last, part=region or None)
    except UnknownCountry:
        return holidays_around(country, year) if region else {}


def minutes(clock: time) -> int:
    return clock.hour * 60 + clock.minute
