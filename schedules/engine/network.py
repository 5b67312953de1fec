"""What goes in: activities, links, key dates and the calendars they run on."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from .calendar import Calendar


class LinkKind(StrEnum):
    """Which point of the first activity holds which point of the second."""

    FS = "FS"
    SS = "SS"
    FF = "FF"
    SF = "SF"


class LagClock(StrEnum):
    """The clock of a lag.

    WORK, the default: the predecessor's working time. SUCCESSOR: the successor's.
    PROJECT: that of the project's calendar. ELAPSED: day and night.
    """

    WORK = "work"
    SUCCESSOR = "after"
    PROJECT = "project"
    ELAPSED = "elapsed"


class KeyDateRole(StrEnum):
    """How a key date acts on its activity."""

    EVENT = "event"
    NO_EARLIER = "no_earlier"
    NO_LATER = "no_later"


@dataclass(frozen=True, slots=True, kw_only=True)
class Activity:
    """Work of a fixed duration, in working minutes of its calendar.

    Zero minutes make a milestone; `finish_milestone` tells whether it closes the
    work before it (shown on Friday) or opens the work after it (shown on Monday).
    Progress: `actual_start` alone means in progress, with `remaining` working
    minutes left (None: what is left of the duration, counted from the actual start);
    `actual_finish` means finished. Work begun before its predecessors were done waits
    for them with its rest; with `ahead` the rest ignores those that are unfinished.
    `low` and `high` are the shortest and longest durations anybody expects.

    >>> Activity(key="weld", duration=960, calendar="shop").actual_start is None
    True
    """

    key: str
    duration: int
    calendar: str
    actual_start: int | None = None
    actual_finish: int | None = None
    remaining: int | None = None
    finish_milestone: bool = True
    ahead: bool = False
    low: int | None = None
    high: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """`after` waits for `before`; the lag is in minutes and may be negative.

    >>> Link(key="cure", before="pour", after="load", lag=72 * 60, clock=LagClock.ELAPSED).kind
    <LinkKind.FS: 'FS'>
    """

    key: str
    before: str
    after: str
    kind: LinkKind = LinkKind.FS
    lag: int = 0
    clock: LagClock = LagClock.WORK


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyDate:
    """An imposed instant.

    EVENT: the activity happens at `at` by the wall clock, whatever its calendar, and
    what comes before must be done by then; it moves only when that is impossible.
    NO_EARLIER: the activity starts no earlier. NO_LATER: it finishes no later; this
    bounds late dates alone, so early dates stay honest.

    >>> KeyDate(key="walk", activity="opening", at=0, role=KeyDateRole.EVENT).role.value
    'event'
    """

    key: str
    activity: str
    at: int
    role: KeyDateRole


@dataclass(frozen=True, slots=True, kw_only=True)
class Network:
    """Everything `solve` needs.

    `end` is the chosen end, None for the latest finish. `zone` is an IANA name
    through which elapsed lags are added, None for clocks that never change.
    Days in hand are counted on `project_calendar`, and lags by the project's clock.

    >>> always = Calendar.always("round the clock")
    >>> Network(activities=(), links=(), calendars={always.key: always},
    ...         project_calendar=always.key).end is None
    True
    """

    activities: tuple[Activity, ...]
    links: tuple[Link, ...]
    calendars: Mapping[str, Calendar]
    key_dates: tuple[KeyDate, ...] = ()
    end: str | None = None
    zone: str | None = None
    project_calendar: str
