"""What the lanes timeline is asked to draw. Times are instants: minutes since 2000-01-01."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

EPOCH = date(2000, 1, 1).toordinal()
DAY = 1440


class State(StrEnum):
    CHAIN = "chain"
    LATE = "late"
    NEAR = "near"
    PLAIN = "free"
    DONE = "done"


STATE_WORDS = {
    State.CHAIN: "carries the date",
    State.LATE: "too late for the date",
    State.NEAR: "within 2 days of carrying the date",
    State.PLAIN: "",
    State.DONE: "done",
}


class Zoom(StrEnum):
    FIT = "fit"
    MONTHS = "months"
    WEEKS = "weeks"
    DAYS = "days"
    PAPER = "paper"  # the whole plan, on the pages that will be printed


class Placed(StrEnum):
    EARLIEST = "earliest"
    LATEST = "latest"


@dataclass(frozen=True, slots=True, kw_only=True)
class LaneName:
    key: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Tie:
    """What a bar waits for; ``words`` are of the lag and of a link that is not finish to start."""

    before: str
    kind: str = "FS"
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """Where the plan of record had a task."""

    start: int
    finish: int
    words: str  # for its title
    moved: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A task. ``earliest`` and ``latest`` are how far its dotted tails reach."""

    key: str
    name: str
    lane: str
    start: int
    finish: int
    earliest: int
    latest: int
    state: State = State.PLAIN
    chain_position: int | None = None
    in_hand: int | None = None  # whole working days; negative: late
    outdoor: bool = False
    url: str = ""
    first_day: date | None = None  # as pages show them, if not the days of start and finish
    last_day: date | None = None
    ties: tuple[Tie, ...] = ()
    kept: Kept | None = None
    calendar: str = ""  # by which its end may be drawn out; empty: it may not


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """Time that passes by itself, day and night: cure, drying, notice."""

    key: str
    name: str
    start: int
    finish: int
    carries: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Hire:
    """It lasts as long as other tasks need it, and moves none."""

    key: str
    name: str
    lane: str
    start: int
    finish: int
    title: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dropped:
    """A task of the plan of record that is no longer planned."""

    key: str
    name: str
    lane: str
    start: int
    finish: int
    title: str = ""


Other = Hire | Dropped


@dataclass(frozen=True, slots=True, kw_only=True)
class Flag:
    key: str
    name: str
    at: int
    public: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """A piece of the thread; ``from_start`` and ``to_finish`` for links that are not FS."""

    before: str
    after: str
    from_start: bool = False
    to_finish: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """A day without work; ``why`` names a holiday or a day off, and is empty for a weekend."""

    day: date
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    today: date
    lanes: tuple[LaneName, ...] = ()
    bars: tuple[Bar, ...] = ()
    waits: tuple[Wait, ...] = ()
    flags: tuple[Flag, ...] = ()
    joins: tuple[Join, ...] = ()
    closed: tuple[Closed, ...] = ()
    hires: tuple[Hire, ...] = ()
    dropped: tuple[Dropped, ...] = ()
    works: Mapping[str, Callable[[date], bool]] = field(default_factory=dict)  # by calendar
    record: str = ""  # the plan of record that can be laid under the plan
    against: bool = False  # it is laid under it

    @property
    def others(self) -> tuple[Other, ...]:
        return self.hires + self.dropped


def instant(day: date) -> int:
    return (day.toordinal() - EPOCH) * DAY


def day_of(at: int) -> date:
    return date.fromordinal(EPOCH + at // DAY)


def first_day(bar: Bar) -> date:
    return bar.first_day or day_of(bar.start)


def last_day(bar: Bar) -> date:
    return bar.last_day or day_of(max(bar.finish - 1, bar.start))
