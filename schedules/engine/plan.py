"""What comes out: dates, floats and the reasons for them."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple


class Reason(StrEnum):
    """What put an early start where it is."""

    LINK = "link"
    DATA_DATE = "data_date"
    KEY_DATE = "key_date"
    ACTUAL = "actual"


class Driver(NamedTuple):
    """One binding reason: the key of the link or key date, and the bound it gave.

    The bound is the instant before snapping to working time; for FF and SF links
    it is a bound on the finish.

    >>> Driver(Reason.LINK, "cure", 480).key
    'cure'
    """

    reason: Reason
    key: str | None
    at: int


class Dates(NamedTuple):
    """Dates of one activity, as instants; floats in working minutes of its calendar.

    Of an activity in progress, `early_start` is the actual start, `late_start` the
    latest instant at which the remaining work must go on, and the drivers after
    ACTUAL say what the remaining work waits for. A finished one has its actual
    dates everywhere and no float. Without a path to the chosen end (`to_end`
    False) the float is the room to the last finish of the whole network, or to
    a date imposed further on. A path ends at work that no longer waits.

    One total float serves as start float and as finish float: both are counted along
    the calendar's working minutes, and between start and finish lies the same duration
    early and late, so they cannot differ. Independent float is what is left when what
    comes before is as late, and what comes after as early, as it can be.

    >>> dates = Dates(0, 60, 30, 90, 30, 10, (), False, True)
    >>> dates.total_float, dates.interfering_float
    (30, 20)
    """

    early_start: int
    early_finish: int
    late_start: int
    late_finish: int
    total_float: int
    free_float: int
    drivers: tuple[Driver, ...]
    finished: bool
    to_end: bool
    independent_float: int = 0

    @property
    def interfering_float(self) -> int:
        """What moves successors, though not the end, when it is used; never below zero.

        >>> Dates(0, 60, -30, 30, -30, 0, (), False, True).interfering_float
        0
        """
        return max(0, self.total_float - self.free_float)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The answer of `solve`.

    `finish` is the early finish of the chosen end, else the latest of all.
    `chain` is the longest path into the chosen end, first to last, and `chain_links`
    the links that join it. `ready_at` is when everything before the chosen end is
    done (None without a chosen end, or when no link leads into it). `in_hand` is
    the working time of the project calendar from then to the event; below zero the
    plan is late. When it is late and no working minute lies between, `in_hand` is
    the elapsed time, so that a late plan never reads as on time.

    >>> Plan(dates={}, finish=0, chain=(), chain_links=(), ready_at=None, in_hand=None).finish
    0
    """

    dates: Mapping[str, Dates]
    finish: int
    chain: tuple[str, ...]
    chain_links: tuple[str, ...]
    ready_at: int | None
    in_hand: int | None
