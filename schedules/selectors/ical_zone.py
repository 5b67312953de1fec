"""A time zone as an iCalendar file tells it: RFC 5545, section 3.6.5 (2009)."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from icalendar import Timezone, TimezoneDaylight, TimezoneStandard

NONE, DAY, SECOND = timedelta(), timedelta(days=1), timedelta(seconds=1)


def time_zone(key: str, first: date, last: date) -> Timezone:
    """Every change of the clocks between two days, after the offset that the first begins with."""
    zone = ZoneInfo(key)
    found = Timezone()
    found.add("tzid", key)
    start = datetime.combine(first, time(), UTC)
    found.add_component(observance(zone, start, start))
    for change in changes(zone, start, datetime.combine(last, time(), UTC)):
        found.add_component(observance(zone, change - SECOND, change))
    return found


def changes(zone: ZoneInfo, start: datetime, end: datetime) -> Iterator[datetime]:
    """When the clocks change, in UTC."""
    while start < end:
        low, high = start, start + DAY
        start = high
        if offset(zone, low) == offset(zone, high):
            continue
        while high - low > SECOND:
            middle = low + (high - low) // SECOND // 2 * SECOND
            same = offset(zone, middle) == offset(zone, low)
            low, high = (middle, high) if same else (low, middle)
        yield high


def offset(zone: ZoneInfo, moment: datetime) -> timedelta:
    return moment.astimezone(zone).utcoffset() or NONE


def observance(
    zone: ZoneInfo, before: datetime, onset: datetime
) -> TimezoneStandard | TimezoneDaylight:
    """Its onset stands in the local time of the offset before it (TZOFFSETFROM)."""
    local = onset.astimezone(zone)
    found = TimezoneDaylight() if (local.dst() or NONE) > NONE else TimezoneStandard()
    was = offset(zone, before)
    found.add("dtstart", (onset + was).replace(tzinfo=None))
    found.add("tzoffsetfrom", was)
    found.add("tzoffsetto", offset(zone, onset))
    found.add("tzname", local.tzname() or str(zone))
    return found
