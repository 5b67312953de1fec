"""Make key dates of days from a calendar file, or move those that came from it before."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from projects.log import write
from projects.models import Project
from projects.words import listed, plural
from schedules.models import KeyDate
from schedules.selectors.file_dates import Found
from schedules.services.planning import replanned
from schedules.services.tasks import User


def from_file(project: Project) -> Mapping[str, KeyDate]:
    """The key dates that came from a file, by what tells them apart."""
    return {
        row.source_uid: row for row in KeyDate.objects.filter(project=project) if row.source_uid
    }


def news_of(day: Found, row: KeyDate | None) -> str:
    """What keeping a day would do: “new”, “moves”, or nothing where all is as it was."""
    if row is None:
        return "new"
    if (row.on, row.at) != (day.on, day.at):
        return "moves"
    return "renamed" if row.name != day.name else ""


def keep_days(
    *, project: Project, user: User, today: date, days: Iterable[Found], kind: str
) -> str:
    """What was tied to a day that comes again stays tied: only name, day and time follow it."""
    with replanned(project, today):
        before = from_file(project)
        told = [day for day in days if news_of(day, before.get(day.uid))]
        new = [day for day in told if day.uid not in before]
        for day in told:
            row = before.get(day.uid) or KeyDate(
                project=project, source_uid=day.uid, kind=kind, movable=False
            )
            row.name, row.on, row.at = day.name, day.on, day.at
            row.save()
        sentence = kept_words(new, [day for day in told if day.uid in before])
        if told:
            write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def kept_words(new: list[Found], moved: list[Found]) -> str:
    """“Added 2 key dates from a calendar file: “A” and “B”. Changed 1: “C”.”"""
    if not new and not moved:
        return "All of these are on the plan already, as they are."
    parts = []
    if new:
        parts.append(f"Added {plural(len(new), 'key date')} from a calendar file: {names(new)}.")
    if moved:
        parts.append(
            f"Moved {plural(len(moved), 'key date')} with a calendar file: {names(moved)}."
        )
    return " ".join(parts)


def names(days: list[Found]) -> str:
    """“Board meeting” and “Site walk”; of many the first two."""
    found = [f"“{name}”" for name in dict.fromkeys(day.name for day in days)]
    return listed(found if len(found) < 4 else [*found[:2], f"{len(found) - 2} more"])
