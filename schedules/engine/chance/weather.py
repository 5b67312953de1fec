"""Wet days: drawn once for each day of each draw, for all outdoor work alike."""

from calendar import monthrange
from collections.abc import Sequence
from datetime import timedelta

import numpy as np
from numpy.typing import NDArray

from ..errors import ScheduleError
from ..instants import DAY, moment
from .ruler import Ruler
from .spread import Ints

BLOCK = 64  # days drawn together: a longer look ahead leaves the earlier days as they were


class TooWet(ScheduleError):
    """Outdoor work finds no dry days, however far ahead."""

    code = "too_wet"

    def __init__(self) -> None:
        super().__init__("Outdoor work does not end: there are too few dry days.")


def rates(wet_days: Sequence[float], first_day: int, days: int) -> NDArray[np.float32]:
    """The chance of each day to be wet, from the wet days of each month, January first.

    >>> float(rates([15.5] + [0] * 11, 0, 40)[0])
    0.5
    """
    found = np.zeros(days, dtype=np.float32)
    for day in range(days):
        date = moment(0) + timedelta(days=first_day + day)
        found[day] = min(1, wet_days[date.month - 1] / monthrange(date.year, date.month)[1])
    return found


class Sky:
    """Which days are wet, by day and draw."""

    def __init__(self, wet_days: Sequence[float], first_day: int, days: int, draws: int, seed: int):
        self._first, self._draw = first_day, np.arange(draws)
        chances = rates(wet_days, first_day, days)
        self._wet = np.empty((days, draws), dtype=bool)
        for start in range(0, days, BLOCK):
            stream = np.random.default_rng([seed, start, 2])
            rolls = stream.random((BLOCK, draws), dtype=np.float32)[: days - start]
            np.less(
                rolls, chances[start : start + BLOCK, None], out=self._wet[start : start + BLOCK]
            )
        self._lost: dict[int, NDArray[np.int32]] = {}

    def place(self, ruler: Ruler, mark: Ints, minutes: Ints) -> tuple[Ints, Ints]:
        """The marks where outdoor work starts and ends that may start at `mark`.

        It starts on a dry day. Wet minutes push its end on, over days that may be wet
        again, until it rests; draws at rest are not looked at again.
        """
        mark = self._dry(ruler, np.array(np.broadcast_to(mark, self._draw.shape)))
        end = mark + minutes
        dry = end - self._lost_before(ruler, ruler.begins(mark) // DAY, self._draw)
        moving = self._draw
        while moving.size:
            at = end[moving]
            last = (ruler.ends(at) - 1) // DAY
            further = dry[moving] + self._lost_before(ruler, last + 1, moving)
            end[moving] = further
            moving = moving[further != at]
        return mark, end

    def _dry(self, ruler: Ruler, mark: Ints) -> Ints:
        """The first marks that begin on a dry day; changes `mark`."""
        moving = self._draw
        while True:
            day = ruler.begins(mark[moving]) // DAY
            wet = self._wet.take((day - self._first) * len(self._draw) + moving)
            moving = moving[wet]
            if not moving.size:
                return mark
            mark[moving] = ruler.mark((day[wet] + 1) * DAY)

    def _lost_before(self, ruler: Ruler, day: Ints, draws: Ints) -> Ints:
        """Working minutes that a calendar loses to wet days before the day of some draws."""
        table = self._lost.get(id(ruler))
        if table is None:
            table = self._lost[id(ruler)] = self._count(ruler)
        return table.take((day - self._first) * len(self._draw) + draws).astype(np.int64)

    def _count(self, ruler: Ruler) -> NDArray[np.int32]:
        days, draws = self._wet.shape
        table = np.zeros((days + 1, draws), dtype=np.int32)
        np.multiply(self._wet, ruler.day_minutes[:, None], out=table[1:])
        for day in range(1, days + 1):
            table[day] += table[day - 1]
        return table
