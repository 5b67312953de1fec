"""Every way through a network, for tables of path lengths."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from .network import Network
from .solve import solve


def paths(network: Network) -> Iterator[tuple[str, ...]]:
    """All paths from activities without predecessor to those without successor.

    Their number can double with every activity, so take only as many as you need.
    The network must have no loop.

    >>> from . import Activity, Calendar, Link
    >>> pair = tuple(Activity(key=k, duration=60, calendar="always") for k in "AB")
    >>> list(paths(Network(activities=pair, links=(Link(key="1", before="A", after="B"),),
    ...     calendars={"always": Calendar.always("always")}, project_calendar="always")))
    [('A', 'B')]
    """
    following: dict[str, dict[str, None]] = {a.key: {} for a in network.activities}
    for link in network.links:
        following[link.before][link.after] = None
    led_to = {link.after for link in network.links}
    trails: list[tuple[str, ...]] = [(key,) for key in reversed(following) if key not in led_to]
    while trails:
        trail = trails.pop()
        trails += [(*trail, key) for key in reversed(following[trail[-1]])]
        if not following[trail[-1]]:
            yield trail


def path_length(network: Network, path: tuple[str, ...], *, data_date: int) -> int:
    """Minutes from the data date to the finish of a path with all else left out.

    >>> from . import Activity, Calendar
    >>> lone = Activity(key="A", duration=60, calendar="always")
    >>> path_length(Network(activities=(lone,), links=(), project_calendar="always",
    ...     calendars={"always": Calendar.always("always")}), ("A",), data_date=0)
    60
    """
    steps = set(pairwise(path))
    alone = replace(
        network,
        activities=tuple(a for a in network.activities if a.key in path),
        links=tuple(k for k in network.links if (k.before, k.after) in steps),
        key_dates=tuple(k for k in network.key_dates if k.activity in path),
        end=path[-1],
    )
    return solve(alone, data_date=data_date).finish - data_date
