"""Small networks for the engine's tests."""

from dataclasses import replace
from datetime import datetime
from typing import Any

from schedules.engine import (
    Activity,
    Calendar,
    KeyDate,
    KeyDateRole,
    LagClock,
    Link,
    LinkKind,
    Network,
    Plan,
    instant,
    solve,
)

HOURS = ((480, 1020),)
CREW = Calendar(key="crew", week=(HOURS,) * 5 + ((), ()))
WEEKEND = Calendar(key="weekend", week=((),) * 5 + (HOURS, HOURS))
ALWAYS = Calendar.always("always")
CALENDARS = {calendar.key: calendar for calendar in (CREW, WEEKEND, ALWAYS)}
DAY = CREW.day_minutes


def at(text: str) -> int:
    """The instant of a local time such as 2031-06-16T08:00, or of a date's 00:00."""
    return instant(datetime.fromisoformat(text))


MONDAY = at("2031-06-16")  # the data date of these tests


def task(key: str, minutes: int = DAY, calendar: str = "crew", **more: Any) -> Activity:
    """An activity, by default of one day on the crew's calendar."""
    return Activity(key=key, duration=minutes, calendar=calendar, **more)


def link(text: str, lag: int = 0, clock: LagClock = LagClock.WORK) -> Link:
    """A link from words such as 'pour FS load'; they are its key too."""
    before, kind, after = text.split()
    return Link(key=text, before=before, after=after, kind=LinkKind(kind), lag=lag, clock=clock)


def cure(text: str, hours: int) -> Link:
    """A link with a lag in elapsed hours."""
    return link(text, hours * 60, LagClock.ELAPSED)


def date_for(activity: str, role: str, text: str) -> KeyDate:
    """A key date; its key is its role."""
    return KeyDate(key=role, activity=activity, at=at(text), role=KeyDateRole(role))


def net(*parts: Activity | Link | KeyDate, **more: Any) -> Network:
    """A network of activities, links and key dates in any order."""
    return Network(
        activities=tuple(p for p in parts if isinstance(p, Activity)),
        links=tuple(p for p in parts if isinstance(p, Link)),
        key_dates=tuple(p for p in parts if isinstance(p, KeyDate)),
        calendars=CALENDARS,
        project_calendar="crew",
        **more,
    )


def plan(*parts: Activity | Link | KeyDate, data_date: int = MONDAY, **more: Any) -> Plan:
    """The plan of a network."""
    return solve(net(*parts, **more), data_date=data_date)


def delayed(network: Network, key: str, start: int) -> Network:
    """The network with one activity held back to an instant."""
    held = KeyDate(key="held", activity=key, at=start, role=KeyDateRole.NO_EARLIER)
    return replace(network, key_dates=(*network.key_dates, held))
