"""Working time of a calendar as arrays, for many instants at once.

The marks are those of the calendar's own line (table.py), so that numbers of both may be
compared. A ruler reaches from a little before the data date as far as it was laid; what
lies beyond raises Beyond, and the whole is laid again, longer.
"""

from datetime import timedelta
from typing import Protocol

import numpy as np

from ..calendar import Calendar
from ..instants import DAY, moment
from .spread import Ints


class Beyond(Exception):
    """An instant or a mark after the end of a ruler."""


class Measure(Protocol):
    """What the walk asks of working time."""

    def mark(self, at: Ints) -> Ints: ...
    def begins(self, mark: Ints) -> Ints: ...
    def ends(self, mark: Ints) -> Ints: ...
    def reach(self, at: Ints) -> Ints: ...


class Clock:
    """Work round the clock: a mark is the instant itself."""

    def mark(self, at: Ints) -> Ints:
        return at

    begins = ends = reach = mark


class Ruler:
    """Instants and marks of one calendar; what lies before the ruler counts as its start."""

    def __init__(self, calendar: Calendar, first_day: int, days: int) -> None:
        self._first, self.first_day = first_day * DAY, first_day
        worked = np.zeros(days * DAY, dtype=bool)
        self.day_minutes = np.zeros(days, dtype=np.int32)
        for day in range(days):
            for opens, closes in _spans(calendar, first_day + day):
                worked[day * DAY + opens : day * DAY + closes] = True
        self.day_minutes[:] = worked.reshape(days, DAY).sum(axis=1)
        self._base = calendar.line(self._first).mark(self._first)
        self._mark = np.zeros(days * DAY + 1, dtype=np.int64)
        np.cumsum(worked, out=self._mark[1:])
        self._mark += self._base
        minutes = np.flatnonzero(worked) + self._first
        self._begins = minutes
        self._ends = np.concatenate(([self._first], minutes + 1))

    def mark(self, at: Ints) -> Ints:
        """Working minutes up to each instant."""
        return _take(self._mark, at - self._first)

    def begins(self, mark: Ints) -> Ints:
        """Where the working minute after each mark begins."""
        return _take(self._begins, mark - self._base)

    def ends(self, mark: Ints) -> Ints:
        """Where the working minute before each mark ends."""
        return _take(self._ends, mark - self._base)

    def reach(self, at: Ints) -> Ints:
        """The least mark that ends at each instant or later."""
        return self.mark(at - 1) + 1


def _take(table: Ints, index: Ints) -> Ints:
    if not table.size or index.max() >= table.size:
        raise Beyond
    found: Ints = table.take(index, mode="clip")
    return found


def _spans(calendar: Calendar, day: int) -> tuple[tuple[int, int], ...]:
    date = (moment(0) + timedelta(days=day)).date()
    return calendar.exceptions.get(date, calendar.week[date.weekday()])
