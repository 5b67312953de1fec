"""The few numbers that tell how a plan is, and the test that it still answers to its work.

Sources: DCMA-EA PAM 200.1 (October 2012), section 4, for the critical path test, the length
index and missed work; Defense Acquisition University, "Critical path length index", for the
index; NDIA Planning and Scheduling Excellence Guide for hit tasks. The width of the band of
the near-critical, and three predecessors for a merge: common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from .critical import critical
from .errors import NoWorkingTime
from .network import Activity, KeyDate, KeyDateRole, Network
from .plan import Plan
from .solve import solve

BAND_DAYS, BAND_SHARE = 3, Fraction(1, 20)
DELAY_DAYS = 600
MERGES = 3


def length_index(length: Fraction | int, room: Fraction | int) -> Fraction | None:
    """The time there is for each unit of time that the plan needs: (CPL + TF) / CPL.

    `length` is what is left of the longest path, `room` the days in hand at its end, below
    zero when late; both in one unit. Work must go at 1 / index of the plan's pace. None
    when nothing is left.

    >>> length_index(720, -60), length_index(80, 20)
    (Fraction(11, 12), Fraction(5, 4))
    """
    return Fraction(length + room) / length if length > 0 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Vitals:
    """`length`, `in_hand` and `band` in working minutes of the project's calendar.

    `length` runs from the data date to when all before the chosen end is done; `near` are
    the activities within the band of the least float, without those that have it.

    >>> Vitals(length=60, in_hand=None, index=None, band=3, near=(), merges=()).near
    ()
    """

    length: int
    in_hand: int | None
    index: Fraction | None
    band: int
    near: tuple[str, ...]
    merges: tuple[str, ...]


def vitals(network: Network, plan: Plan, *, data_date: int) -> Vitals:
    """The numbers of a solved network.

    >>> from . import Calendar
    >>> lone = Activity(key="sweep", duration=60, calendar="a")
    >>> bare = Network(activities=(lone,), links=(), calendars={"a": Calendar.always("a")},
    ...     project_calendar="a")
    >>> vitals(bare, solve(bare, data_date=0), data_date=0).length
    60
    """
    own = network.calendars[network.project_calendar]
    length = max(0, own.between(data_date, target(plan)))
    band = max(BAND_DAYS * own.day_minutes, int(length * BAND_SHARE))
    aside = {network.end} | {a.key for a in network.activities if not a.duration}
    near = critical(plan, within=band, leave_out={key for key in aside if key})
    least = critical(plan, leave_out={key for key in aside if key})
    return Vitals(
        length=length,
        in_hand=plan.in_hand,
        index=None if plan.in_hand is None else length_index(length, plan.in_hand),
        band=band,
        near=tuple(key for key in near if key not in least),
        merges=merges(network, plan),
    )


def target(plan: Plan) -> int:
    """When all before the chosen end is done, else when all is done."""
    return plan.finish if plan.ready_at is None else plan.ready_at


def merges(network: Network, plan: Plan) -> tuple[str, ...]:
    """Unfinished activities that wait for three others or more: where dates are lost.

    >>> merges(Network(activities=(), links=(), calendars={}, project_calendar="a"),
    ...     Plan(dates={}, finish=0, chain=(), chain_links=(), ready_at=None, in_hand=None))
    ()
    """
    into: dict[str, set[str]] = {}
    for link in network.links:
        into.setdefault(link.after, set()).add(link.before)
    return tuple(
        a.key
        for a in network.activities
        if len(into.get(a.key, ())) >= MERGES and not plan.dates[a.key].finished
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """Work that a plan kept would have finished by now: all of it, and how it went.

    `done` is finished; `hit` finished no later than kept; `missed` finished, or is
    forecast to finish, later than kept.

    >>> Due(due=("a", "b"), done=("a",), hit=(), missed=("a", "b")).done
    ('a',)
    """

    due: tuple[str, ...]
    done: tuple[str, ...]
    hit: tuple[str, ...]
    missed: tuple[str, ...]


def due_work(kept: Mapping[str, int], plan: Plan, *, data_date: int) -> Due:
    """`kept` gives the finish of each activity in the plan kept, without milestones.

    >>> due_work({}, Plan(dates={}, finish=0, chain=(), chain_links=(), ready_at=None,
    ...     in_hand=None), data_date=0).due
    ()
    """
    due = tuple(key for key, at in kept.items() if at <= data_date and key in plan.dates)
    done = tuple(key for key in due if plan.dates[key].finished)
    late = tuple(key for key in due if plan.dates[key].early_finish > kept[key])
    return Due(due=due, done=done, missed=late, hit=tuple(k for k in done if k not in late))


@dataclass(frozen=True, slots=True, kw_only=True)
class DelayTest:
    """What 600 more working days of one activity did to the end of the plan.

    `moved` and `expected` are working minutes of the project's calendar.

    >>> DelayTest(activity="weld", moved=60, expected=60, held=True).held
    True
    """

    activity: str
    moved: int
    expected: int
    held: bool


def delay_test(network: Network, plan: Plan, *, data_date: int) -> DelayTest | None:
    """Lengthen the first unfinished activity of the longest path: the end must follow.

    On one calendar the end moves by exactly as much. With several it moves by what the
    delay does when it is carried down its path alone, with all else left out. None when
    no work is left on the path, or a calendar has no room for the delay.

    >>> from . import Calendar
    >>> lone = Activity(key="sweep", duration=60, calendar="a")
    >>> bare = Network(activities=(lone,), links=(), calendars={"a": Calendar.always("a")},
    ...     project_calendar="a")
    >>> delay_test(bare, solve(bare, data_date=0), data_date=0).held
    True
    """
    activity = _tried(network, plan)
    if activity is None:
        return None
    own = network.calendars[network.project_calendar]
    try:
        longer = lengthened(network, activity)
        after = solve(longer, data_date=data_date)
        alone = solve(_path_alone(longer, plan, after, activity.key), data_date=data_date)
        moved = own.between(target(plan), target(after))
        expected = own.between(target(plan), target(alone))
    except NoWorkingTime:
        return None
    finish = after.dates[activity.key].early_finish
    held = activity.key in after.chain and moved == expected and finish <= target(after)
    return DelayTest(activity=activity.key, moved=moved, expected=expected, held=held)


def lengthened(network: Network, activity: Activity, days: int = DELAY_DAYS) -> Network:
    """The network with so many more working days of one activity, on its own calendar.

    >>> from . import Calendar
    >>> lone = Activity(key="sweep", duration=60, calendar="a")
    >>> bare = Network(activities=(lone,), links=(), calendars={"a": Calendar.always("a")},
    ...     project_calendar="a")
    >>> lengthened(bare, lone, 1).activities[0].duration
    1500
    """
    more = days * network.calendars[activity.calendar].day_minutes
    left = None if activity.remaining is None else activity.remaining + more
    longer = replace(activity, duration=activity.duration + more, remaining=left)
    activities = (longer if a.key == activity.key else a for a in network.activities)
    return replace(network, activities=tuple(activities))


def _tried(network: Network, plan: Plan) -> Activity | None:
    by_key = {a.key: a for a in network.activities}
    left = (by_key[key] for key in plan.chain if key != network.end)
    return next((a for a in left if a.duration and a.actual_finish is None), None)


def _path_alone(longer: Network, plan: Plan, after: Plan, key: str) -> Network:
    """The path from an activity on, which starts where it started, with all else left out."""
    path = after if key in after.chain else plan
    place = path.chain.index(key)
    kept, links = set(path.chain[place:]), set(path.chain_links[place:])
    start = KeyDate(
        key=key, activity=key, at=plan.dates[key].early_start, role=KeyDateRole.NO_EARLIER
    )
    return replace(
        longer,
        activities=tuple(a for a in longer.activities if a.key in kept),
        links=tuple(link for link in longer.links if link.key in links),
        key_dates=(start,),
    )
