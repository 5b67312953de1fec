"""A hammock: work that lasts as long as other work does, such as a hire or supervision."""

from dataclasses import dataclass
from typing import NamedTuple

from .errors import EmptyHammock, UnknownActivity, UnknownCalendar
from .network import Network
from .plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Hammock:
    """Lasts from the first start among `starts` to the last finish among `finishes`.

    >>> Hammock(key="scaffold", starts=("skin",), finishes=("paint",), calendar="crew").key
    'scaffold'
    """

    key: str
    starts: tuple[str, ...]
    finishes: tuple[str, ...]
    calendar: str


class HammockDates(NamedTuple):
    """Early start and early finish as instants, and the working minutes between them.

    >>> HammockDates(0, 90, 90).minutes
    90
    """

    start: int
    finish: int
    minutes: int


def hammock_dates(plan: Plan, network: Network, hammock: Hammock) -> HammockDates:
    """Where a hammock begins and ends, and its working minutes on its own calendar.

    Read from a solved plan: a hammock drives nothing and has no float. It has no minutes
    when its last finish lies before its first start. Raises EmptyHammock, UnknownActivity,
    UnknownCalendar or NoWorkingTime. Common practice, no source.

    >>> from . import Activity, Calendar, solve
    >>> weld = Activity(key="weld", duration=60, calendar="always")
    >>> network = Network(activities=(weld,), links=(), project_calendar="always",
    ...     calendars={"always": Calendar.always("always")})
    >>> hire = Hammock(key="hire", starts=("weld",), finishes=("weld",), calendar="always")
    >>> hammock_dates(solve(network, data_date=0), network, hire)
    HammockDates(start=0, finish=60, minutes=60)
    """
    if not hammock.starts or not hammock.finishes:
        raise EmptyHammock(hammock.key)
    for key in (*hammock.starts, *hammock.finishes):
        if key not in plan.dates:
            raise UnknownActivity(hammock.key, key)
    if hammock.calendar not in network.calendars:
        raise UnknownCalendar(hammock.key, hammock.calendar)
    start = min(plan.dates[key].early_start for key in hammock.starts)
    finish = max(plan.dates[key].early_finish for key in hammock.finishes)
    worked = network.calendars[hammock.calendar].between(start, finish)
    return HammockDates(start, finish, max(0, worked))
