"""What the calendars page shows."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Count

from projects.models import Project
from schedules.models import Calendar, DayException
from schedules.plan import holidays_around
from schedules.selectors.wording import weekday_words


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
    tasks: int

    @property
    def weekdays(self) -> str:
        return weekday_words(self.row.weekdays)


def calendar_lines(project: Project) -> list[CalendarLine]:
    found = Calendar.objects.filter(project=project).annotate(held=Count("tasks"))
    return [
        CalendarLine(row=row, stretches=stretches(row.exceptions.all()), tasks=row.held)
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
    around = holidays_around(project.country, today.year)
    return [(day, name) for day, name in around.items() if today <= day <= until]
