"""When: calendars, tasks, links, key dates, and the plan computed from them."""

from schedules.models.calendars import Calendar, DayException, Lane
from schedules.models.dates import KeyDate, KeyDateEffect, KeyDateKind
from schedules.models.kept import ChanceResult, Forecast, PlanOfRecord, PlanState, Weather
from schedules.models.tasks import Hammock, LagClock, Link, LinkKind, Task
from schedules.models.told import AppliedSlip, Feed, FeedEntry, Notice, Told

__all__ = [
    "AppliedSlip",
    "Calendar",
    "ChanceResult",
    "DayException",
    "Feed",
    "FeedEntry",
    "Forecast",
    "Hammock",
    "KeyDate",
    "KeyDateEffect",
    "KeyDateKind",
    "LagClock",
    "Lane",
    "Link",
    "LinkKind",
    "Notice",
    "PlanOfRecord",
    "PlanState",
    "Task",
    "Told",
    "Weather",
]
