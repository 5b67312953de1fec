"""The schedule engine: pure, integer minutes, standard library (the sun: astral).

Give `solve` a Network and a data date; it answers a Plan whose dates carry their
reasons. `check` lists open ends and other things worth a question.
"""

from .answer import times
from .calendar import Calendar
from .check import Finding, check
from .critical import critical, near_band, near_critical
from .errors import (
    BadWeek,
    BeyondHorizon,
    Cycle,
    DuplicateActivity,
    DuplicateLink,
    EmptyHammock,
    NegativeDuration,
    NoWorkingTime,
    ScheduleError,
    SelfLink,
    UnknownActivity,
    UnknownCalendar,
    UnknownZone,
)
from .hammock import Hammock, HammockDates, hammock_dates
from .instants import EPOCH, day_that_begins, day_that_ends, instant, moment
from .network import Activity, KeyDate, KeyDateRole, LagClock, Link, LinkKind, Network
from .paths import path_length, paths
from .plan import Dates, Driver, Plan, Reason
from .sequence import OutOfSequence, SequenceRule, out_of_sequence
from .solve import solve
from .zone import Zone

__all__ = [
    "EPOCH",
    "Activity",
    "BadWeek",
    "BeyondHorizon",
    "Calendar",
    "Cycle",
    "Dates",
    "Driver",
    "DuplicateActivity",
    "DuplicateLink",
    "EmptyHammock",
    "Finding",
    "Hammock",
    "HammockDates",
    "KeyDate",
    "KeyDateRole",
    "LagClock",
    "Link",
    "LinkKind",
    "NegativeDuration",
    "Network",
    "NoWorkingTime",
    "OutOfSequence",
    "Plan",
    "Reason",
    "ScheduleError",
    "SelfLink",
    "SequenceRule",
    "UnknownActivity",
    "UnknownCalendar",
    "UnknownZone",
    "Zone",
    "check",
    "critical",
    "day_that_begins",
    "day_that_ends",
    "hammock_dates",
    "instant",
    "moment",
    "near_band",
    "near_critical",
    "out_of_sequence",
    "path_length",
    "paths",
    "solve",
    "times",
]
