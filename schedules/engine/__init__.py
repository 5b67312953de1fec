"""The schedule engine: pure, integer minutes, standard library only.

Give `solve` a Network and a data date; it answers a Plan whose dates carry their
reasons. `check` lists open ends and other things worth a question.
"""

from .answer import times
from .calendar import Calendar
from .check import Finding, check
from .critical import critical
from .errors import (
    Cycle,
    DuplicateActivity,
    DuplicateLink,
    NegativeDuration,
    NoWorkingTime,
    ScheduleError,
    SelfLink,
    UnknownActivity,
    UnknownCalendar,
    UnknownZone,
)
from .instants import EPOCH, day_that_begins, day_that_ends, instant, moment
from .network import Activity, KeyDate, KeyDateRole, LagClock, Link, LinkKind, Network
from .paths import path_length, paths
from .plan import Dates, Driver, Plan, Reason
from .solve import solve
from .zone import Zone

__all__ = [
    "EPOCH",
    "Activity",
    "Calendar",
    "Cycle",
    "Dates",
    "Driver",
    "DuplicateActivity",
    "DuplicateLink",
    "Finding",
    "KeyDate",
    "KeyDateRole",
    "LagClock",
    "Link",
    "LinkKind",
    "NegativeDuration",
    "Network",
    "NoWorkingTime",
    "Plan",
    "Reason",
    "ScheduleError",
    "SelfLink",
    "UnknownActivity",
    "UnknownCalendar",
    "UnknownZone",
    "Zone",
    "check",
    "critical",
    "day_that_begins",
    "day_that_ends",
    "instant",
    "moment",
    "path_length",
    "paths",
    "solve",
    "times",
]
