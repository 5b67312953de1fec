"""From paintable hours to stretches of work, days, and the coats that fit into them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from worksheets.engine.paintable import HOUR, Hour


@dataclass(frozen=True, slots=True)
class Stretch:
    """Hours in a row that can be painted; ``until`` is the end of the last."""

    start: datetime
    until: datetime

    @property
    def hours(self) -> int:
        return round((self.until - self.start) / HOUR)


def stretches(hours: Sequence[Hour]) -> list[Stretch]:
    """The paintable hours of work, joined where they follow each other."""
    found: list[Stretch] = []
    for each in (hour for hour in hours if hour.counts):
        if found and found[-1].until == each.at:
            found[-1] = Stretch(found[-1].start, each.at + HOUR)
        else:
            found.append(Stretch(each.at, each.at + HOUR))
    return found


@dataclass(frozen=True, slots=True)
class Coat:
    number: int
    start: datetime
    until: datetime
    days: tuple[date, ...]


def lay_coats(hours: Sequence[Hour], coats: int, each: float, recoat: float) -> list[Coat]:
    """The coats that fit, one after the other, each ``each`` hours of work.

    A coat starts no sooner than ``recoat`` hours after the one before it was finished; a started
    hour is used up. Fewer than ``coats`` come back where the hours do not suffice.
    """
    free = [hour.at for hour in hours if hour.counts]
    found: list[Coat] = []
    need, earliest = math.ceil(each - 1e-9), datetime.min
    for number in range(1, coats + 1):
        mine = [at for at in free if at >= earliest][:need]
        if len(mine) < need:
            break
        until = mine[-1] + HOUR
        days = tuple(sorted({at.date() for at in mine}))
        found.append(Coat(number, mine[0], until, days))
        free = [at for at in free if at >= until]
        earliest = until + timedelta(hours=recoat)
    return found


def by_day(hours: Sequence[Hour]) -> dict[date, list[Hour]]:
    found: dict[date, list[Hour]] = {}
    for each in hours:
        found.setdefault(each.at.date(), []).append(each)
    return found
