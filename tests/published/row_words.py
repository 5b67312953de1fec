"""Words of published rows into the engine's terms."""

import json
import re
from datetime import date, datetime, time
from fractions import Fraction
from math import lcm
from typing import Any

from schedules.engine import Calendar
from schedules.holidays import holidays_between

Row = dict[str, Any]
DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
NAME = "(" + "|".join(DAYS) + r")\w*"
RANGE = re.compile(NAME + r"\s*(?:-|–|to)\s*" + NAME)
COUNT = re.compile(r"(\d)\s*(?:-|\s)?days?\b")
HOURS = re.compile(r"(\d{1,2}):(\d{2})\s*(?:-|–|to)\s*(\d{1,2}):(\d{2})")
LESS = re.compile(r"\b(?:less|except|minus|excluding)\b(.*)")
ISO = re.compile(r"\d{4}-\d{2}-\d{2}")
YEAR = re.compile(r"\b(\d{4})-?\d{2}-?\d{2}")
MINUTES = time(1).hour * 60


def calendar(text: str, row: Row, key: str = "row") -> Calendar:
    """A calendar from words such as 'Mon-Fri 08:00-17:00 less observed federal holidays'."""
    words = text.lower()
    spans = hours(words)
    worked = weekdays(words)
    week = tuple(spans if day in worked else () for day in range(len(DAYS)))
    return Calendar(key=key, week=week, exceptions=days_off(words, row))


def hours(words: str) -> tuple[tuple[int, int], ...]:
    """Spans in minutes of the day; the whole day when no hours are named."""
    found = [[int(part) for part in match] for match in HOURS.findall(words)]
    spans = [(h * MINUTES + m, to_h * MINUTES + to_m) for h, m, to_h, to_m in found]
    return tuple(spans) or Calendar.always("").week[0]


def weekdays(words: str) -> set[int]:
    """Working days of the week, Monday 0."""
    kept = LESS.sub("", words)
    if found := RANGE.search(kept):
        first, last = (DAYS.index(day) for day in found.groups())
        return {(first + step) % len(DAYS) for step in range((last - first) % len(DAYS) + 1)}
    if found := COUNT.search(kept):
        return set(range(int(found[1])))
    named = {DAYS.index(day) for day in re.findall(r"\b" + NAME + r"\b", kept)}
    return named or set(range(len(DAYS)))


def days_off(words: str, row: Row) -> dict[date, tuple[tuple[int, int], ...]]:
    """Holidays and single dates that the words take away."""
    found = LESS.search(words)
    if not found:
        return {}
    off = {date.fromisoformat(day): () for day in ISO.findall(found[1])}
    if "holiday" in found[1]:
        off |= dict.fromkeys(holidays_between("US", *span_of(row)), ())
    return off


def span_of(row: Row) -> tuple[date, date]:
    """From a year before to some years after all that the row mentions."""
    years = [int(year) for year in YEAR.findall(json.dumps(row))]
    years += [int(row["year"])] if "year" in row else []
    return date(min(years) - 1, 1, 1), date(max(years) + 5, 12, 31)


def when(text: str) -> datetime:
    """A local date or time in any ISO 8601 form."""
    return datetime.fromisoformat(text).replace(tzinfo=None)


def exact(number: float) -> Fraction:
    """The number as printed."""
    return Fraction(str(number))


def common_scale(row: Row) -> int:
    """Minutes a unit, so that every duration and lag of the row is a whole number."""
    return lcm(*(exact(number).denominator for number in numbers(row)))


def numbers(row: Row) -> list[float]:
    """Every duration and lag, and an imposed finish."""
    found = [row.get("imposed_finish") or 0]
    for activity in row["activities"]:
        found.append(activity["duration"])
        found += [before.get("lag", 0) for before in predecessors(activity)]
    return found


def predecessors(activity: Row) -> list[Row]:
    """Predecessors with type and lag, also when a row lists bare codes."""
    listed = activity.get("predecessors") or []
    return [{"code": each} if isinstance(each, str) else each for each in listed]


def plain(number: Fraction) -> float:
    """An int when whole, else a float."""
    return int(number) if number.denominator == 1 else float(number)
