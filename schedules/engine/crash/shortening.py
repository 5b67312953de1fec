"""What can be made shorter, by how much and at what cost."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..network import Activity, Network


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortening:
    """An activity can be up to `most` steps shorter, each of `step` minutes for `cost` cents.

    >>> Shortening(step=480, most=3, cost=12_000).most
    3
    """

    step: int
    most: int
    cost: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortened:
    """The cheapest steps that make the date at least so early.

    `date` is when all before the chosen end is done, else the last finish; `units` by how
    many whole units it is earlier than without steps.

    >>> Shortened(steps={"weld": 2}, cost=24_000, date=0, units=2).steps["weld"]
    2
    """

    steps: Mapping[str, int]
    cost: int
    date: int
    units: int


def shortened(
    network: Network, shortenings: Mapping[str, Shortening], steps: Mapping[str, int]
) -> Network:
    """The network with so many steps taken of each activity.

    >>> from .. import Activity, Calendar, Network
    >>> weld = Activity(key="weld", duration=300, calendar="always")
    >>> network = Network(activities=(weld,), links=(), project_calendar="always",
    ...     calendars={"always": Calendar.always("always")})
    >>> less = shortened(network, {"weld": Shortening(step=60, most=2, cost=1)}, {"weld": 2})
    >>> less.activities[0].duration
    180
    """
    changed = (
        _shorter(a, shortenings[a.key].step * steps[a.key]) if steps.get(a.key) else a
        for a in network.activities
    )
    return replace(network, activities=tuple(changed))


def _shorter(activity: Activity, minutes: int) -> Activity:
    left = activity.remaining
    return replace(
        activity,
        duration=max(0, activity.duration - minutes),
        remaining=None if left is None else max(0, left - minutes),
    )


def limit(activity: Activity, left: int, shortening: Shortening) -> int:
    """Whole steps that leave something of what is left to do: nothing can be shortened away."""
    if activity.actual_finish is not None or shortening.step <= 0:
        return 0
    return max(0, min(shortening.most, (left - 1) // shortening.step))
