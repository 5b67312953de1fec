"""Hold dates against the network and its hands, by other means than those that made them."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from ..calendar import Calendar
from ..network import Activity, KeyDateRole, LagClock, Link, LinkKind, Network
from ..plan import Plan
from ..zone import zone_named
from .hands import Hands, Overload
from .usage import Usage

Span = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Broken:
    """A rule that dates break: `link`, `length`, `date` or `hands`, and what it is about.

    >>> Broken(rule="hands", about="artist").rule
    'hands'
    """

    rule: str
    about: str


def spans(network: Network, plan: Plan, data_date: int) -> dict[str, Span]:
    """What is still to be done of each activity, from its first instant to its last.

    Work in progress counts from the data date, or from when its rest goes on.
    """
    clocks = _clocks(network)
    found = {}
    for activity in network.activities:
        dates = plan.dates[activity.key]
        start, finish = dates.early_start, dates.early_finish
        if activity.actual_start is not None and activity.actual_finish is None:
            left = _left(network, activity, data_date)
            start = clocks[activity.key].sub(finish, left) if left else finish
        found[activity.key] = start, finish
    return found


def _clocks(network: Network) -> dict[str, Calendar]:
    """By which calendar an activity passes: an event goes by the wall clock."""
    events = {k.activity for k in network.key_dates if k.role is KeyDateRole.EVENT}
    wall = Calendar.always("")
    own = network.calendars
    return {a.key: wall if a.key in events else own[a.calendar] for a in network.activities}


def _left(network: Network, activity: Activity, data_date: int) -> int:
    if activity.remaining is not None:
        return activity.remaining
    calendar = network.calendars[activity.calendar]
    gone = calendar.between(activity.actual_start or 0, data_date)
    return max(0, activity.duration - max(0, gone))


def overloads(
    network: Network, hands: Hands, plan: Plan, *, data_date: int
) -> tuple[Overload, ...]:
    """Every stretch in which a lane is overbooked, by lane and time.

    >>> from .. import Activity, Calendar, solve
    >>> two = tuple(Activity(key=k, duration=60, calendar="always") for k in ("a", "b"))
    >>> network = Network(activities=two, links=(), project_calendar="always",
    ...     calendars={"always": Calendar.always("always")})
    >>> hands = Hands(capacity={"artist": 1}, needs={"a": {"artist": 1}, "b": {"artist": 1}})
    >>> [(o.start, o.finish) for o in overloads(network, hands, solve(network, data_date=0),
    ...     data_date=0)]
    [(0, 60)]
    """
    placed = spans(network, plan, data_date)
    taking = [a.key for a in network.activities if a.actual_finish is None]
    found = list[Overload]()
    for lane in sorted(hands.capacity):
        users = {key: need for key in taking if (need := hands.needs.get(key, {}).get(lane, 0))}
        found += _lane_overloads(lane, hands.capacity[lane], users, placed)
    return tuple(found)


def _lane_overloads(
    lane: str, capacity: int, users: Mapping[str, int], placed: Mapping[str, Span]
) -> list[Overload]:
    usage, found = Usage(), list[Overload]()
    for key, need in users.items():
        usage.take(*placed[key], need)
    for start, finish, used in usage.above(capacity):
        if found and found[-1].finish == start:
            start, used = found[-1].start, max(used, found.pop().used)
        keys = [k for k in users if placed[k][0] < finish and start < placed[k][1]]
        keys = [k for k in keys if placed[k][0] < placed[k][1]]
        one = Overload(lane=lane, start=start, finish=finish, activities=tuple(keys), used=used)
        found.append(one)
    return found


def broken(
    network: Network,
    hands: Hands,
    plan: Plan,
    *,
    data_date: int,
    forced: frozenset[str] = frozenset(),
) -> tuple[Broken, ...]:
    """Every rule that the early dates of a plan break; none, when it can be done.

    `forced` are activities that nobody can put off: an overload of these alone is not the
    plan's fault.

    >>> from .. import Calendar, solve
    >>> empty = Network(activities=(), links=(), project_calendar="always",
    ...     calendars={"always": Calendar.always("always")})
    >>> broken(empty, Hands(capacity={}, needs={}), solve(empty, data_date=0), data_date=0)
    ()
    """
    placed = spans(network, plan, data_date)
    wrong = [*_links(network, placed), *_lengths(network, placed, data_date)]
    wrong += _dates(network, placed, data_date)
    for overload in overloads(network, hands, plan, data_date=data_date):
        if not set(overload.activities) <= forced:
            wrong.append(Broken(rule="hands", about=overload.lane))
    return tuple(wrong)


def _links(network: Network, placed: Mapping[str, Span]) -> Iterator[Broken]:
    by_key = {a.key: a for a in network.activities}
    for link in network.links:
        if not _holds(network, link, by_key, placed):
            yield Broken(rule="link", about=link.key)


def _holds(
    network: Network, link: Link, by_key: Mapping[str, Activity], placed: Mapping[str, Span]
) -> bool:
    before, after = by_key[link.before], by_key[link.after]
    if after.actual_finish is not None or (after.ahead and before.actual_finish is None):
        return True
    first, second = placed[link.before], placed[link.after]
    finishing = link.kind in (LinkKind.FS, LinkKind.FF)
    at = first[1] if finishing else first[0]
    if not finishing and before.actual_start is not None:
        if after.actual_start is not None and link.kind is LinkKind.SS:
            return True
        at = before.actual_start
    to = second[0] if link.kind in (LinkKind.FS, LinkKind.SS) else second[1]
    if link.kind is LinkKind.SF and not link.lag:
        return network.calendars[after.calendar].between(at, to) >= 0
    if not link.lag:
        return to >= at
    if link.clock is LagClock.ELAPSED:
        return to >= zone_named(network.zone).after(at, link.lag)
    counted = {
        LagClock.WORK: before.calendar,
        LagClock.SUCCESSOR: after.calendar,
        LagClock.PROJECT: network.project_calendar,
    }
    return network.calendars[counted[link.clock]].between(at, to) >= link.lag


def _lengths(network: Network, placed: Mapping[str, Span], data_date: int) -> Iterator[Broken]:
    clocks = _clocks(network)
    for activity in network.activities:
        if activity.actual_finish is not None:
            continue
        calendar = clocks[activity.key]
        begun = activity.actual_start is not None
        length = _left(network, activity, data_date) if begun else activity.duration
        start, finish = placed[activity.key]
        if calendar.between(start, finish) != length or (not length and start != finish):
            yield Broken(rule="length", about=activity.key)


def _dates(network: Network, placed: Mapping[str, Span], data_date: int) -> Iterator[Broken]:
    begun = {a.key for a in network.activities if a.actual_start is not None}
    done = {a.key for a in network.activities if a.actual_finish is not None}
    for key, (start, _) in placed.items():
        if key not in done and start < data_date:
            yield Broken(rule="date", about=key)
    for held in network.key_dates:
        free = held.role is not KeyDateRole.NO_LATER and held.activity not in begun | done
        if free and placed[held.activity][0] < held.at:
            yield Broken(rule="date", about=held.key)
