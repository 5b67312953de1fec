"""Days and times of the day, read as people write them and shown short."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time, timedelta, tzinfo

from worksheets.engine.dimensions import System

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
YEAR_FIRST = re.compile(r"(?P<y>\d{4})[-/.](?P<m>\d{1,2})[-/.](?P<d>\d{1,2})")
YEAR_LAST = re.compile(r"(?P<a>\d{1,2})(?P<mark>[-/.])(?P<b>\d{1,2})(?P=mark)(?P<y>\d{4}|\d{2})")
NAMED = re.compile(
    r"(?:(?P<d>\d{1,2})\.?[ -](?P<mon>[a-z]{3})[a-z]*\.?"
    r"|(?P<mon2>[a-z]{3})[a-z]*\.? (?P<d2>\d{1,2}))"
    r",?[ -](?P<y>\d{4})",
    re.IGNORECASE,
)
CLOCK = re.compile(
    r"(?P<h>\d{1,2})(?:[:.h](?P<min>\d{2})(?::\d{2}(?:\.\d+)?)?)?\s*(?P<half>[ap])?\.?(?:m\.?)?"
    r"\s*(?P<off>z|utc|[+-]\d{2}:?\d{2})?",
    re.IGNORECASE,
)
JOINED = re.compile(r"(?<=\d)T(?=\d)")
WEEKDAY = re.compile(r"^(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+", re.IGNORECASE)
SAMPLE = "2031-06-14 09:00"


class NotATime(ValueError):
    """The message is the sentence to show."""


def read_moment(text: str, system: System, zone: tzinfo | None = None) -> datetime:
    """A day and a time of the day, by the wall clock of ``zone`` and without it.

    The day may stand as 2031-06-14, 14.06.2031, 14 Jun 2031, or 6/14/2031, which is read month
    first in US units and day first in metric ones, unless only the other way is possible.
    A time that ends in Z or +02:00 is turned into the wall clock. Raises NotATime.

    >>> read_moment("6/14/2031 2:30 PM", System.US).isoformat()
    '2031-06-14T14:30:00'
    >>> read_moment("14.06.2031 09:00", System.US) == read_moment("Sat 14 Jun 2031 9 am", System.US)
    True
    """
    plain = WEEKDAY.sub("", " ".join(JOINED.sub(" ", text).split()))
    day, rest = _day(plain, text, system)
    found = CLOCK.fullmatch(rest.strip(" ,"))
    if not rest.strip(" ,"):
        raise NotATime(f"“{_short(text)}” has no time of the day. Write one such as {SAMPLE}.")
    if found is None:
        raise _no_moment(text)
    moment = datetime.combine(day, _clock(found, text))
    return _by_wall(moment, found["off"], zone, text)


def _day(plain: str, text: str, system: System) -> tuple[date, str]:
    if found := YEAR_FIRST.match(plain):
        year, month, day = int(found["y"]), int(found["m"]), int(found["d"])
    elif found := YEAR_LAST.match(plain):
        month, day = _order(int(found["a"]), int(found["b"]), found["mark"], system)
        year = int(found["y"]) + (2000 if len(found["y"]) == 2 else 0)
    elif found := NAMED.match(plain):
        name = (found["mon"] or found["mon2"]).lower()
        month = MONTHS.index(name) + 1 if name in MONTHS else 0
        year, day = int(found["y"]), int(found["d"] or found["d2"])
    else:
        raise _no_moment(text)
    try:
        return date(year, month, day), plain[found.end() :]
    except ValueError:
        raise NotATime(f"“{_short(text)}” is no day of the calendar.") from None


def _order(first: int, second: int, mark: str, system: System) -> tuple[int, int]:
    """Month and day. A point between them means that the day stands first."""
    day_first = mark == "." or system == System.METRIC
    if first > 12:
        day_first = True
    elif second > 12:
        day_first = False
    return (second, first) if day_first else (first, second)


def _clock(found: re.Match[str], text: str) -> time:
    hour, minute = int(found["h"]), int(found["min"] or 0)
    if found["half"]:
        if not 1 <= hour <= 12:
            raise _no_moment(text)
        hour = hour % 12 + (12 if found["half"].lower() == "p" else 0)
    elif found["min"] is None:  # a bare “9” could be a count of anything
        raise _no_moment(text)
    try:
        return time(hour, minute)
    except ValueError:
        raise NotATime(f"“{_short(text)}” is no time of the day.") from None


def _by_wall(moment: datetime, off: str | None, zone: tzinfo | None, text: str) -> datetime:
    if not off:
        return moment
    if zone is None:
        raise NotATime(f"“{_short(text)}” names an offset, but the time zone here is not known.")
    ahead = timedelta()
    if off[0] in "+-":
        minutes = int(off[1:3]) * 60 + int(off[-2:])
        ahead = timedelta(minutes=minutes if off[0] == "+" else -minutes)
    return (moment - ahead).replace(tzinfo=UTC).astimezone(zone).replace(tzinfo=None)


def _no_moment(text: str) -> NotATime:
    return NotATime(f"“{_short(text)}” is not a day and a time. Write one such as {SAMPLE}.")


def _short(text: str) -> str:
    return text if len(text) <= 30 else text[:30] + "…"


def day_words(day: date) -> str:
    """
    >>> day_words(date(2031, 6, 14))
    'Sat 14 Jun'
    """
    return f"{day:%a} {day.day} {day:%b}"


def clock_words(moment: datetime) -> str:
    return f"{moment:%H:%M}"
