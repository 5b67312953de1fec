"""Entries as an iCalendar file: RFC 5545 (2009), with the name and pace of RFC 7986 (2016)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import UTC, date, datetime, timedelta
from uuid import NAMESPACE_OID, uuid5
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event

from projects.models import Project
from schedules.models import FeedEntry
from schedules.selectors.feeds import Item
from schedules.selectors.ical_zone import time_zone

PRODUCT = "-//Giornata//Schedule//EN"
PACE = timedelta(hours=1)  # how often to look again
DAY = timedelta(days=1)
YEAR = timedelta(days=366)


def calendar_file(
    project: Project, name: str, items: Iterable[Item], entries: Mapping[str, FeedEntry]
) -> bytes:
    """The file; an entry that was never told before has no row in ``entries`` and is an error."""
    found = Calendar()
    found.add("prodid", PRODUCT)
    found.add("version", "2.0")
    found.add("calscale", "GREGORIAN")
    found.add("name", name)
    found.add("x-wr-calname", name)
    found.add("refresh-interval", PACE, parameters={"VALUE": "DURATION"})
    told = list(items)
    timed = [item.first for item in told if item.at]
    if timed:
        found.add_component(time_zone(project.zone, min(timed) - YEAR, max(timed) + YEAR))
    for item in told:
        found.add_component(event(project, item, entries[item.key]))
    return bytes(found.to_ical())


def event(project: Project, item: Item, entry: FeedEntry) -> Event:
    found = Event()
    changed = entry.changed_at.astimezone(UTC).replace(microsecond=0)
    found.add("uid", f"{item.key}@{source_of(project)}")
    found.add("dtstamp", changed)
    found.add("last-modified", changed)
    found.add("sequence", entry.sequence)
    found.add("summary", item.name)
    found.add("description", item.says)
    if item.place:
        found.add("location", item.place)
    add_days(found, item)
    found.add("status", "CONFIRMED" if item.firm else "TENTATIVE")
    found.add("transp", "OPAQUE" if item.at else "TRANSPARENT")
    return found


def add_days(found: Event, item: Item) -> None:
    """Whole days end before the day after (section 3.6.1); a moment has no end."""
    if item.at:
        zone = ZoneInfo(item.zone)
        found.add("dtstart", datetime.combine(item.first, item.at, zone))
    else:
        found.add("dtstart", item.first)
        found.add("dtend", next_day(item.last))


def next_day(day: date) -> date:
    return day + DAY


def source_of(project: Project) -> str:
    """The right side of each UID: the same for ever, and it names no machine (RFC 7986, 5.3)."""
    return str(uuid5(NAMESPACE_OID, f"giornata {project.pk} {project.made_at.isoformat()}"))
