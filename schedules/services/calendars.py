"""Write calendars: working days and hours, days off and extra days."""

from __future__ import annotations

from datetime import date, timedelta

from projects.log import write
from projects.models import Project
from projects.words import day_year, plural
from schedules.models import Calendar, DayException
from schedules.selectors.hours import worked_words
from schedules.services.planning import changes, in_words, replanned
from schedules.services.tasks import User

LABELS = {
    "name": "name",
    "opens": "start of work",
    "closes": "end of work",
    "keeps_holidays": "public holidays are days off",
    "supplier": "kept by",
}


def save_calendar(*, project: Project, user: User, today: date, calendar: Calendar) -> str:
    with replanned(project, today):
        sentence = f"Added the calendar {calendar}: {worked_words(calendar)}."
        if calendar.pk:
            old = Calendar.objects.get(pk=calendar.pk)
            words = calendar_words(old, calendar)
            if not words:
                return "Nothing was changed."
            sentence = f"Changed the calendar {old}: {words}."
        calendar.project = project
        calendar.save()
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def calendar_words(old: Calendar, new: Calendar) -> str:
    words = in_words(changes(old, new, LABELS), LABELS)
    if (old.weekdays, old.day_hours) == (new.weekdays, new.day_hours):
        return words
    worked = f"works {worked_words(new)}"
    return f"{words}, {worked}" if words else worked


def delete_calendar(*, project: Project, user: User, today: date, calendar: Calendar) -> str:
    """No task may use it: the database refuses otherwise."""
    with replanned(project, today):
        calendar.delete()
        sentence = f"Removed the calendar {calendar}."
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def set_days(
    *,
    project: Project,
    user: User,
    today: date,
    calendar: Calendar,
    first: date,
    last: date,
    works: bool,
    note: str,
) -> str:
    """Make every day from first to last a day off or an extra day; a later word wins."""
    days = [first + timedelta(n) for n in range((last - first).days + 1)]
    with replanned(project, today):
        DayException.objects.bulk_create(
            [DayException(calendar=calendar, day=d, works=works, note=note) for d in days],
            update_conflicts=True,
            unique_fields=["calendar", "day"],
            update_fields=["works", "note"],
        )
        what = plural(len(days), "extra day" if works else "day off", "" if works else "days off")
        until = f" to {day_year(last)}" if last != first else ""
        sentence = f"{calendar}: {what}, {day_year(first)}{until}."
        write(project=project, user=user, about="schedules", sentence=sentence, reason=note)
    return sentence


def clear_days(
    *, project: Project, user: User, today: date, calendar: Calendar, first: date, last: date
) -> str:
    """Let the days from first to last be ordinary again."""
    with replanned(project, today):
        calendar.exceptions.filter(day__range=(first, last)).delete()
        until = f" to {day_year(last)}" if last != first else ""
        sentence = f"{calendar}: no exception any more on {day_year(first)}{until}."
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence
