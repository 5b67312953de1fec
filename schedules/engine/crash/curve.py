"""The least cost of every number of units, and the ways to win the next one."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..network import Network
from .search import Literal, Search, TooMuch
from .shortening import Shortened, Shortening, shortened


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """The least cost of every number of units, until it cannot be shortened further.

    `stop` is the chain that then carries the date and has nothing left that would shorten
    it; empty when `more` says that the search was broken off before the end.

    >>> Curve(date=0, plans=(), stop=("cure",), more=False).stop
    ('cure',)
    """

    date: int
    plans: tuple[Shortened, ...]
    stop: tuple[str, ...]
    more: bool


def curve(
    network: Network,
    shortenings: Mapping[str, Shortening],
    *,
    data_date: int,
    unit: int,
    most: int = 60,
) -> Curve:
    """The cheapest plans that are 1, 2, 3 and more units earlier, up to `most`.

    `unit` is in working minutes of the project calendar. Each plan keeps the steps of the one
    before where that costs no more. Of plans that cost the same only the earliest is given,
    so units can be missing. Raises a ScheduleError.

    >>> from .. import Activity, Calendar, Network
    >>> weld = Activity(key="weld", duration=300, calendar="always")
    >>> network = Network(activities=(weld,), links=(), project_calendar="always",
    ...     calendars={"always": Calendar.always("always")})
    >>> found = curve(network, {"weld": Shortening(step=60, most=2, cost=900)},
    ...     data_date=0, unit=60)
    >>> [(p.units, p.cost) for p in found.plans], found.stop
    ([(1, 900), (2, 1800)], ('weld',))
    """
    search = Search(network, shortenings, data_date, unit)
    plans, steps = list[Shortened](), dict[str, int]()
    try:
        while not plans or plans[-1].units < most:
            wanted = plans[-1].units + 1 if plans else 1
            found = search.cheapest(wanted, near=steps)
            if found is None:
                return Curve(date=search.date, plans=tuple(plans), stop=search.stop(), more=False)
            plans.append(found)
            steps = dict(found.steps)
    except TooMuch:
        pass
    return Curve(date=search.date, plans=tuple(plans), stop=(), more=True)


def next_ways(
    network: Network,
    shortenings: Mapping[str, Shortening],
    *,
    data_date: int,
    unit: int,
    steps: Mapping[str, int] | None = None,
    most: int = 6,
) -> tuple[Shortened, ...]:
    """The ways to win one unit more once `steps` are taken, the cheapest first.

    None holds all the steps of another; `steps` and `cost` are of what is added.

    >>> from .. import Calendar, Network
    >>> next_ways(Network(activities=(), links=(), project_calendar="always",
    ...     calendars={"always": Calendar.always("always")}), {}, data_date=0, unit=60)
    ()
    """
    taken = steps or {}
    base = shortened(network, shortenings, taken)
    left = {k: replace(s, most=s.most - taken.get(k, 0)) for k, s in shortenings.items()}
    search, found = Search(base, left, data_date, unit), list[Shortened]()
    try:
        while len(found) < most and (way := search.cheapest(1, near={})):
            found.append(way)
            search.cuts.append(tuple(Literal(k, n, True) for k, n in way.steps.items()))
    except TooMuch:
        pass
    return tuple(found)
