"""What the calendars page shows."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from projects.models import Project
from projects.words import day, plural, span
from schedules.engine.sun import daylight
from schedules.models import Calendar, DayException, Lane
from schedules.plan import Rows, calendar_keys, holidays_around
from schedules.plan.rows import LIT, position_of
from schedules.selectors.hours import spans_words, worked_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Days off, or extra days, that follow each other for the same reason."""

    first: date
    last: date
    works: bool
    note: str
    pk: int  # of its first day


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarLine:
    row: Calendar
    stretches: Sequence[Stretch]
    tasks: int  # that are planned on it
    lanes: Sequence[str]  # that name it

    @property
    def worked(self) -> str:
        return worked_words(self.row)


@dataclass(frozen=True, slots=True, kw_only=True)
class Light:
    """Daylight at the site: who needs it, and when it is light."""

    tasks: Sequence[str]
    known: bool  # whether the position of the site is
    days: Sequence[tuple[date, str, str]]  # the day, why it, and when it is light


def calendar_lines(rows: Rows) -> list[CalendarLine]:
    found = Calendar.objects.filter(project=rows.project).select_related("supplier")
    held = Counter(key.removesuffix(LIT) for key in calendar_keys(rows).values())
    lanes: dict[int | None, list[str]] = {}
    for name, key in Lane.objects.filter(project=rows.project).values_list("name", "calendar_id"):
        lanes.setdefault(key, []).append(name)
    return [
        CalendarLine(
            row=row,
            stretches=stretches(row.exceptions.all()),
            tasks=held[str(row.pk)],
            lanes=lanes.get(row.pk, ()),
        )
        for row in found.prefetch_related("exceptions")
    ]


def stretches(rows: Iterable[DayException]) -> list[Stretch]:
    """Single days laid together where they join, so that a fortnight is one line."""
    found: list[Stretch] = []
    for row in rows:
        last = found[-1] if found else None
        if last and same(last, row):
            found[-1] = Stretch(
                first=last.first, last=row.day, works=row.works, note=row.note, pk=last.pk
            )
        else:
            found.append(
                Stretch(first=row.day, last=row.day, works=row.works, note=row.note, pk=row.pk)
            )
    return found


def same(last: Stretch, row: DayException) -> bool:
    follows = row.day == last.last + timedelta(days=1)
    return follows and (last.works, last.note) == (row.works, row.note)


def coming_holidays(project: Project, today: date) -> list[tuple[date, str]]:
    """The public holidays of the next twelve months."""
    until = today + timedelta(days=365)
    around = holidays_around(project.country, today.year, project.region)
    return [(day, name) for day, name in around.items() if today <= day <= until]


def light_at(rows: Rows) -> Light:
    """Sunrise and sunset today and on the public date."""
    tasks = [t.name for t in rows.tasks if t.daylight and not t.finished_on]
    place = position_of(rows.project)
    wanted = [(rows.today, "today")]
    if rows.public:
        wanted.append((rows.public.on, rows.public.name))
    if place is None:
        return Light(tasks=tasks, known=False, days=())
    found = [(on, why, daylight(*place, rows.project.zone, on.year)[on]) for on, why in wanted]
    days = [(on, why, spans_words(spans) or "no sun") for on, why, spans in found]
    return Light(tasks=tasks, known=True, days=days)


def calendars_lede(rows: Rows, lines: Iterable[CalendarLine], light: Light) -> str:
    """What is missing, else who is away next, else the next public holiday."""
    if light.tasks and not light.known:
        needs = "needs" if len(light.tasks) == 1 else "need"
        return (
            f"{plural(len(light.tasks), 'task')} {needs} daylight, but the position of the site "
            "is not known, so they are planned after dark too. Write it in the details."
        )
    away = [(s.first, s, line.row) for line in lines for s in line.stretches if is_ahead(s, rows)]
    if away:
        _, stretch, calendar = min(away, key=lambda found: found[0])
        who = calendar.supplier or f"“{calendar.name}”"
        return f"The next days off: {who}, {stretch_words(stretch)}."
    first = next(iter(coming_holidays(rows.project, rows.today)), None)
    if first:
        return f"The next public holiday is {day(first[0])}, {first[1]}. No other days off are set."
    return "Which days and hours are worked. No days off are set for the coming year."


def is_ahead(stretch: Stretch, rows: Rows) -> bool:
    return not stretch.works and stretch.last >= rows.today


def stretch_words(stretch: Stretch) -> str:
    """“4 to 8 Jan (shop closes)”."""
    return span(stretch.first, stretch.last) + (f" ({stretch.note})" if stretch.note else "")
