"""A plan held against another: how far each piece of work has moved, in working days.

A plan kept is a copy that never changes (schedule baseline: GAO-16-89G, practice 10).
Days are those that are shown, first and last both worked, so that what a page says of two
dates is the number of working days a reader counts between them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from fractions import Fraction

from .calendar import Calendar
from .instants import DAY, instant


class Fate(StrEnum):
    """Whether a piece of work is in both plans."""

    BOTH = "both"
    ADDED = "added"
    DROPPED = "dropped"


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A piece of work in a plan: first and last day, and its length in working days.

    >>> Span(start=date(2026, 3, 9), finish=date(2026, 3, 13), days=Fraction(5)).days
    Fraction(5, 1)
    """

    start: date
    finish: date
    days: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Variance:
    """Working days by which a piece of work moved, above zero when later or longer.

    Work that is in one plan alone has no variance: None, not zero.

    >>> Variance(key="new", fate=Fate.ADDED).finish is None
    True
    """

    key: str
    fate: Fate
    start: int | None = None
    finish: int | None = None
    days: Fraction | None = None

    @property
    def moved(self) -> bool:
        """Whether anything differs."""
        return self.fate is not Fate.BOTH or bool(self.start or self.finish or self.days)


def variances(
    kept: Mapping[str, Span], then: Mapping[str, Span], calendars: Mapping[str, Calendar]
) -> tuple[Variance, ...]:
    """Every piece of work of both plans: those of `then` in order, then those dropped.

    `calendars` gives the calendar on which each key is counted.

    >>> week = Calendar(key="week", week=(((480, 960),),) * 5 + ((), ()))
    >>> kept = {"skin": Span(start=date(2026, 3, 9), finish=date(2026, 3, 13), days=Fraction(5))}
    >>> now = {"skin": Span(start=date(2026, 3, 9), finish=date(2026, 3, 17), days=Fraction(7))}
    >>> variances(kept, now, {"skin": week})[0].finish
    2
    """
    met = [
        _both(key, kept[key], span, calendars[key])
        if key in kept
        else Variance(key=key, fate=Fate.ADDED)
        for key, span in then.items()
    ]
    gone = [Variance(key=key, fate=Fate.DROPPED) for key in kept if key not in then]
    return (*met, *gone)


def days_between(calendar: Calendar, first: date, last: date) -> int:
    """Worked days after `first`, up to `last`; below zero when `last` is earlier.

    >>> week = Calendar(key="week", week=(((480, 960),),) * 5 + ((), ()))
    >>> days_between(week, date(2026, 3, 13), date(2026, 3, 17))
    2
    >>> days_between(week, date(2026, 3, 17), date(2026, 3, 13))
    -2
    """
    if last < first:
        return -days_between(calendar, last, first)
    days = (first + timedelta(days=n) for n in range(1, (last - first).days + 1))
    return sum(1 for day in days if calendar.between(instant(day), instant(day) + DAY))


def _both(key: str, kept: Span, then: Span, calendar: Calendar) -> Variance:
    return Variance(
        key=key,
        fate=Fate.BOTH,
        start=_starts_later(calendar, kept.start, then.start),
        finish=days_between(calendar, kept.finish, then.finish),
        days=then.days - kept.days,
    )


def _starts_later(calendar: Calendar, kept: date, then: date) -> int:
    """Worked days from one first day to the other, counted before each."""
    one = timedelta(days=1)
    return days_between(calendar, kept - one, then - one)
