"""The plan's figures in words, the same on every page."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from projects.hooks import Level
from projects.words import day, listed, plural
from schedules import engine

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
NEAR_DAYS = 2  # this few days in hand or fewer ask for a look


def in_hand_words(days: int | None) -> str:
    """“3 days in hand”, “no days in hand”, “late by 9 working days”."""
    if days is None:
        return "no public date to plan for"
    if days < 0:
        return f"late by {plural(-days, 'working day')}"
    return f"{plural(days, 'day')} in hand" if days else "no days in hand"


def outcome_words(days: int | None) -> str:
    """The same for a date that may be missed: “missed by 3 days”."""
    if days is not None and days < 0:
        return f"missed by {plural(-days, 'day')}"
    return in_hand_words(days)


def in_hand_level(days: int | None) -> Level:
    if days is None:
        return Level.PLAIN
    if days < 0:
        return Level.BROKEN
    return Level.NEAR if days <= NEAR_DAYS else Level.HOLDS


def moment_words(at: int) -> str:
    """“Mon 5 Oct 08:00”."""
    moment = engine.moment(at)
    return f"{day(moment.date())} {moment:%H:%M}"


def span_words(first: date, last: date) -> str:
    """“Mon 5 Oct”, “Mon 5 – Fri 9 Oct” or “Wed 30 Sep – Fri 9 Oct”."""
    if first == last:
        return day(first)
    if (first.year, first.month) == (last.year, last.month):
        return f"{first:%a} {first.day} – {day(last)}"
    return f"{day(first)} – {day(last)}"


def quoted(names: Iterable[str], most: int = 2) -> str:
    """“Weld” and “Cut”; or the first ones “and 3 more tasks”."""
    found = [f"“{name}”" for name in names]
    if len(found) <= most + 1:
        return " and ".join([", ".join(found[:-1]), found[-1]] if len(found) > 1 else found)
    return f"{', '.join(found[:most])} and {len(found) - most} more tasks"


def decimal_words(value: Decimal) -> str:
    """A number of days without the zeros that say nothing: “10”, “1.5”, “−2”."""
    return f"{value.normalize():f}".replace("-", "−")


def days_words(days: Decimal) -> str:
    return "1 working day" if days == 1 else f"{decimal_words(days)} working days"


def signed(days: int) -> str:
    """“+6 days”, “−1 day”."""
    return f"{'+' if days > 0 else '−' if days < 0 else ''}{plural(abs(days), 'day')}"


def weekday_words(weekdays: str) -> str:
    """“Mon to Fri”, “Sat and Sun”, “Mon, Wed and Fri” for ``1111100`` and so on."""
    worked = [n for n, mark in enumerate(weekdays) if mark == "1"]
    names = [WEEKDAYS[n] for n in worked]
    if len(worked) > 2 and worked[-1] - worked[0] == len(worked) - 1:
        return f"{names[0]} to {names[-1]}"
    return listed(names)
