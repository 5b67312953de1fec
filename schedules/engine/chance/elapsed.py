"""Elapsed lags across clock changes, for many instants at once: the rules of zone.py."""

from datetime import timedelta

import numpy as np

from ..instants import DAY
from ..zone import Zone
from .spread import Ints

FAR = 1 << 60


class Elapsed:
    """The clock changes of a zone between two days, as arrays."""

    def __init__(self, zone: Zone, first_day: int, days: int) -> None:
        found = _changes(zone, first_day - 3, first_day + days + 3)
        offsets = np.array([offset(zone, (first_day - 3) * DAY), *(new for _, _, new in found)])
        at = np.array([change for change, _, _ in found], dtype=np.int64)
        old, new = offsets[:-1], offsets[1:]
        self._offsets, self._at = offsets.astype(np.int64), at
        self._sure = at + np.maximum(old, new)  # on the wall, the new offset holds from here
        self._next = np.append(at, FAR)
        self._least = np.concatenate(([-FAR], at + old))  # no wall time is told twice

    def after(self, at: Ints, minutes: int) -> Ints:
        """The first wall time that is so many minutes of elapsed time after each, or later."""
        if not self._at.size:
            return at + minutes
        utc = self._utc(at) + minutes
        period = np.searchsorted(self._at, utc, side="right")
        wall: Ints = np.maximum(utc + self._offsets[period], self._least[period])
        return wall

    def _utc(self, at: Ints) -> Ints:
        """A time the clock skips stands for the change, one told twice for the first."""
        period = np.searchsorted(self._sure, at, side="right")
        utc: Ints = np.minimum(at - self._offsets[period], self._next[period])
        return utc


def _changes(zone: Zone, first: int, last: int) -> list[tuple[int, int, int]]:
    """The UTC minute of each change of the clock, and the offsets before and after it."""
    found = []
    old = offset(zone, first * DAY)
    for day in range(first + 1, last + 1):
        new = offset(zone, day * DAY)
        if new != old:
            midnight = (day - 1) * DAY
            found.append((midnight - old + _until(zone, midnight, old), old, new))
            old = new
    return found


def _until(zone: Zone, midnight: int, old: int) -> int:
    """Elapsed minutes from a midnight to the change of the clock in the day after it."""
    low, high = 0, 2 * DAY
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if offset(zone, midnight, middle) == old else (low, middle)
    return high


def offset(zone: Zone, at: int, minutes: int = 0) -> int:
    """Minutes by which the wall clock is ahead of UTC, `minutes` of elapsed time after `at`."""
    return int((zone.aware(at, minutes).utcoffset() or timedelta()).total_seconds()) // 60
