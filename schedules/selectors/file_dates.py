"""Days in a calendar file of somebody else (RFC 5545), on the project's clock."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from itertools import islice
from time import monotonic
from typing import Any
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event
from icalendar.prop import vBroken

from schedules.recurrence import BadRule, instances

MOST_EVENTS = 200
MOST_INSTANCES = 60  # of one event that repeats
MOST_STEPS = 20_000  # from its first day to the last one that is asked for
MOST_SECONDS = 3.0  # for all rules together
LONGEST_NAME, LONGEST_UID = 120, 255
AHEAD = timedelta(days=550)
SLOW = re.compile(r"FREQ=(SECONDLY|MINUTELY|HOURLY)|BY(HOUR|MINUTE|SECOND)=", re.IGNORECASE)
ODD = re.compile(r"BY(MONTHDAY|YEARDAY|WEEKNO|SETPOS|EASTER)=", re.IGNORECASE)
FREQUENT = re.compile(r"FREQ=(DAILY|WEEKLY)", re.IGNORECASE)
MONTHS = re.compile(r"BYMONTH=([^;]*)", re.IGNORECASE)
DAY = timedelta(days=1)
DAMAGE = (ValueError, TypeError, LookupError, AttributeError, OSError, RecursionError)
Moment = date | datetime


class BadFile(ValueError):
    """The file is no calendar; the message says what is wrong with it and what would be right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One day of the file, and what could not be kept of it."""

    uid: str
    name: str
    on: date
    at: time | None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    days: tuple[Found, ...]
    left_out: int  # past, cancelled, too far ahead, without a day, or too many


def days_in(data: bytes, zone: ZoneInfo, today: date) -> Contents:
    """The days from today to a year and a half ahead, in order. Raises BadFile."""
    events = events_in(data)
    window = Window(today, today + AHEAD, monotonic() + MOST_SECONDS)
    found: list[Found] = []
    left_out = 0
    for event, moved in by_uid(events):
        days = list(days_of(event, moved, zone, window))
        left_out += not days
        found += days
    found.sort(key=lambda day: (day.on, day.at or time(), day.name))
    kept = tuple({day.uid: day for day in found}.values())[:MOST_EVENTS]
    return Contents(days=kept, left_out=left_out + len(found) - len(kept))


def events_in(data: bytes) -> list[Event]:
    text = data.decode("utf-8-sig", errors="replace").lstrip()
    if not text[:15].upper().startswith("BEGIN:VCALENDAR"):
        raise BadFile(
            "This is not a calendar file. Choose one whose name ends in .ics, as calendars export."
        )
    try:
        calendars = Calendar.from_ical(text, multiple=True)
        every = [one for calendar in calendars for one in calendar.walk("VEVENT")]
        found = [one for one in every if isinstance(one, Event)]
    except DAMAGE as error:
        raise BadFile(
            "This calendar file is damaged. Export it once more, and choose the new file."
        ) from error
    if not found:
        raise BadFile("There are no events in this calendar file. Choose another.")
    return found


@dataclass(frozen=True, slots=True)
class Window:
    """The days that are asked for, and when to stop looking."""

    first: date
    last: date
    until: float

    def holds(self, day: date) -> bool:
        return self.first <= day <= self.last


def by_uid(events: Iterable[Event]) -> Iterator[tuple[Event, list[Event]]]:
    """Every event with the instances of it that were moved (RECURRENCE-ID, section 3.8.4.4)."""
    masters: list[Event] = []
    moved: dict[str, list[Event]] = {}
    for event in events:
        if not values_of(event, "RECURRENCE-ID"):
            masters.append(event)
        else:
            moved.setdefault(str(event.get("UID", "")), []).append(event)
    for event in masters:
        yield event, moved.pop(str(event.get("UID", "")), [])
    for others in moved.values():  # moved instances of an event that is not in the file
        yield others[0], others


def days_of(event: Event, moved: list[Event], zone: ZoneInfo, window: Window) -> Iterator[Found]:
    if not is_off(event) and not any(event is one for one in moved):
        apart = {key for one in moved if (key := instance_key(one, zone))}
        yield from (
            day for day in own_days(event, zone, window) if day.uid.split("\n")[-1] not in apart
        )
    for one in moved:
        start = moment_of(one, "DTSTART")
        if start is None or is_off(one):
            continue
        day = found_on(one, start, zone, instance_key(one, zone))
        if window.holds(day.on):
            yield day


def is_off(event: Event) -> bool:
    return str(event.get("STATUS", "")).upper() == "CANCELLED"


def own_days(event: Event, zone: ZoneInfo, window: Window) -> Iterator[Found]:
    """The day of an event, or the days on which it repeats."""
    start = moment_of(event, "DTSTART")
    if start is None:
        return
    rule = rule_of(event)
    once = found_on(event, start, zone, "")
    if not rule and not moments_of(event, "RDATE"):
        if window.holds(once.on):
            yield once
        return
    days: list[Found] = []
    with suppress(BadRule, ValueError, TypeError, OverflowError, LookupError):
        days += repeated(event, rule, start, zone, window)
    if not days and window.holds(once.on):
        days = [replace(once, note="It repeats in a way that is not read; this is the first day.")]
    yield from days


def repeated(
    event: Event, rule: str, start: Moment, zone: ZoneInfo, window: Window
) -> Iterator[Found]:
    """At most some days from today on."""
    if is_endless(rule) or monotonic() > window.until:
        raise BadRule(rule)
    first = as_time(start)
    excluded = [like(first, moment) for moment in moments_of(event, "EXDATE")]
    added = [like(first, moment) for moment in moments_of(event, "RDATE")]
    whole = not isinstance(start, datetime)
    found = 0
    once = rule or "FREQ=DAILY;COUNT=1"
    for moment in islice(instances(once, first, excluded=excluded, added=added), MOST_STEPS):
        day = found_on(event, moment.date() if whole else moment, zone, "each")
        if day.on > window.last or found == MOST_INSTANCES:
            return
        if day.on >= window.first:
            found += 1
            yield replace(day, note="It repeats.")


def is_endless(rule: str) -> bool:
    """Whether a rule asks for hours, or might be searched for an instance for ever."""
    months = MONTHS.search(rule)
    named = months[1].split(",") if months else []
    strange = any(not m.isdecimal() or not 1 <= int(m) <= 12 for m in named)
    return bool(strange or SLOW.search(rule) or (FREQUENT.search(rule) and ODD.search(rule)))


def found_on(event: Event, moment: Moment, zone: ZoneInfo, instance: str) -> Found:
    on, at = local(moment, zone)
    key = f"{on:%Y%m%d}" if instance == "each" else instance
    name = " ".join(str(event.get("SUMMARY", "")).split()) or "Without a name"
    return Found(
        uid=source_uid(event, on, name, key),
        name=name if len(name) <= LONGEST_NAME else f"{name[: LONGEST_NAME - 1]}…",
        on=on,
        at=at,
        note="" if instance else until_words(event, moment, zone),
    )


def source_uid(event: Event, on: date, name: str, instance: str) -> str:
    """What tells the day apart when the file comes again; a file may lack the UID it must have."""
    uid = str(event.get("UID", "")).strip() or f"{on} {name}"
    whole = f"{uid}\n{instance}" if instance else uid
    if len(whole) <= LONGEST_UID:
        return whole
    return f"{hashlib.sha256(uid.encode()).hexdigest()}\n{instance}"


def instance_key(event: Event, zone: ZoneInfo) -> str:
    moment = moment_of(event, "RECURRENCE-ID")
    return "" if moment is None else f"{local(moment, zone)[0]:%Y%m%d}"


def until_words(event: Event, moment: Moment, zone: ZoneInfo) -> str:
    """A key date is one day: of an event of several the first is taken."""
    end = moment_of(event, "DTEND")
    if end is None:
        return ""
    last = local(end, zone)[0] - (DAY if not isinstance(end, datetime) else timedelta())
    if last <= local(moment, zone)[0]:
        return ""
    return f"It goes on until {last:%a} {last.day} {last:%b}; its first day is taken."


def local(moment: Moment, zone: ZoneInfo) -> tuple[date, time | None]:
    """Its day and time by the clock of the project; one without a zone is on that clock."""
    if not isinstance(moment, datetime):
        return moment, None
    there = moment.astimezone(zone) if moment.tzinfo else moment
    return there.date(), there.time().replace(second=0, microsecond=0, tzinfo=None)


def as_time(moment: Moment) -> datetime:
    return moment if isinstance(moment, datetime) else datetime.combine(moment, time())


def like(first: datetime, moment: Moment) -> datetime:
    """A date of an exception on the clock of the first."""
    found = as_time(moment)
    if first.tzinfo and found.tzinfo:
        return found.astimezone(first.tzinfo)
    if not isinstance(moment, datetime):
        return datetime.combine(moment, first.time(), first.tzinfo)
    return found


def moment_of(event: Event, name: str) -> Moment | None:
    return next(iter(moments_of(event, name)), None)


def moments_of(event: Event, name: str) -> list[Moment]:
    """All dates of a property, however often it stands; of a period its start."""
    found: list[Moment] = []
    for one in values_of(event, name):
        for moment in getattr(one, "dts", [one]):
            held = getattr(moment, "dt", None)
            held = held[0] if isinstance(held, tuple) else held
            if isinstance(held, date):
                found.append(held)
    return found


def rule_of(event: Event) -> str:
    one = next(iter(values_of(event, "RRULE")), None)
    return one.to_ical().decode() if one is not None else ""


def values_of(event: Event, name: str) -> list[Any]:
    """The values of a property that could be read."""
    value: Any = event.get(name)
    every = value if isinstance(value, list) else [value]
    return [one for one in every if one is not None and not isinstance(one, vBroken)]
