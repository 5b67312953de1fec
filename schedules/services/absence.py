"""Somebody is away: days off in the hours of one lane, and of no other."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.db.models import Q

from schedules.models import Calendar, DayException, Lane, Task
from schedules.selectors.trying import Slip, away_days

Row = dict[str, Any]  # what was done, so that it can be put back
NOTE = "Away"


def take_off(slip: Slip) -> Row:
    """Put the days into the lane's own hours; a lane that shares its hours gets a copy of them."""
    lane = Lane.objects.select_related("supplier").get(pk=slip.lane.pk if slip.lane else 0)
    calendar, old = calendar_of(lane), lane.calendar_id
    copied = is_shared(calendar, lane)
    if copied:
        calendar = copy_for(lane, calendar)
    days = [day for day in away_days(slip) if not is_off(calendar, day)]
    flipped = DayException.objects.filter(calendar=calendar, day__in=days, works=True)
    worked = [row.day.isoformat() for row in flipped]
    flipped.delete()
    DayException.objects.bulk_create(
        [DayException(calendar=calendar, day=day, works=False, note=NOTE) for day in days]
    )
    return {
        "lane": lane.pk,
        "name": lane.name,
        "calendar": calendar.pk,
        "copied": copied,
        "old": old,
        "days": [day.isoformat() for day in days],
        "worked": worked,
    }


def calendar_of(lane: Lane) -> Calendar:
    """The lane's own, else its supplier's, else the project's."""
    rows = Calendar.objects.filter(project_id=lane.project_id)
    own = rows.filter(pk=lane.calendar_id).first() if lane.calendar_id else None
    held = rows.filter(supplier_id=lane.supplier_id).first() if lane.supplier_id else None
    return own or held or rows.get(is_default=True)


def is_shared(calendar: Calendar, lane: Lane) -> bool:
    """Whether anything but this lane works by it."""
    if calendar.is_default or Task.objects.filter(calendar=calendar).exists():
        return True
    by_maker = Q(calendar=None, supplier_id=calendar.supplier_id, supplier__isnull=False)
    others = Lane.objects.filter(Q(calendar=calendar) | by_maker, project_id=lane.project_id)
    return others.exclude(pk=lane.pk).exists()


def is_off(calendar: Calendar, day: Any) -> bool:
    return calendar.exceptions.filter(day=day, works=False).exists()


def copy_for(lane: Lane, calendar: Calendar) -> Calendar:
    exceptions = list(calendar.exceptions.all())
    twin = Calendar.objects.get(pk=calendar.pk)
    twin.pk, twin.is_default, twin.supplier = None, False, None
    twin.name = f"Hours of {lane.name}"[:80]
    twin.save()
    DayException.objects.bulk_create(
        [DayException(calendar=twin, day=e.day, works=e.works, note=e.note) for e in exceptions]
    )
    Lane.objects.filter(pk=lane.pk).update(calendar=twin)
    return twin


def changed_since(rows: Iterable[Row]) -> list[str]:
    return [said for row in rows if (said := difference(row))]


def difference(row: Row) -> str:
    kept = DayException.objects.filter(
        calendar_id=row["calendar"], day__in=row["days"], works=False, note=NOTE
    )
    if kept.count() != len(row["days"]):
        return f"The days on which {row['name']} is away were changed since."
    lane = Lane.objects.filter(pk=row["lane"]).first()
    if lane is None:
        return f"{row['name']} is no longer a lane of the schedule."
    if row["copied"] and lane.calendar_id != row["calendar"]:
        return f"{row['name']} works by another calendar since."
    if row["copied"] and is_shared(Calendar.objects.get(pk=row["calendar"]), lane):
        return f"Others work by the hours of {row['name']} since."
    return ""


def put_back(row: Row) -> None:
    if row["copied"]:
        Lane.objects.filter(pk=row["lane"]).update(calendar=row["old"])
        Calendar.objects.filter(pk=row["calendar"]).delete()
        return
    DayException.objects.filter(calendar_id=row["calendar"], day__in=row["days"]).delete()
    DayException.objects.bulk_create(
        [DayException(calendar_id=row["calendar"], day=day, works=True) for day in row["worked"]]
    )
