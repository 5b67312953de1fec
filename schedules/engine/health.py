"""What ails a plan: each fault by name, with the activity and the figure that shows it.

Sources: GAO-16-89G Schedule Assessment Guide (December 2015), practices 2, 3, 6, 7 and 9;
DCMA-EA PAM 200.1 (October 2012), section 4, points 1 to 3, 5 to 10. Faults are named, not
counted as shares: with a few dozen tasks one task moves a share by several points. The
limits of 5 and 15 working days, and of 20 days or a quarter of what remains, are common
practice, no source; the documents' own 44 working days suit monthly reports. Float is held
to that limit after taking off what all the work has: our own reading, no source.
"""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from .calendar import Calendar
from .check import check
from .errors import Cycle
from .network import Activity, KeyDateRole, LagClock, Link, Network
from .plan import Plan
from .sequence import SequenceRule, out_of_sequence
from .solve import solve
from .vitals import target
from .ways import driving, following

LAG_DAYS = 5
LAG_ELAPSED = 7 * 24 * 60  # five working days are a week on the clock
OWN_DAYS = 15
FLOAT_DAYS, FLOAT_SHARE = 20, Fraction(1, 4)


class Code(StrEnum):
    """The faults, worst first."""

    LOOP = "loop"
    SHORT = "short"
    ACTUAL_AHEAD = "actual_after_data_date"
    CROSSED = "finish_before_start"
    OUT_OF_SEQUENCE = "out_of_sequence"
    CLOSED = "no_working_time"
    NO_PATH = "no_path_to_end"
    NO_SUCCESSOR = "no_successor"
    NO_PREDECESSOR = "no_predecessor"
    DANGLING_FINISH = "dangling_finish"
    DANGLING_START = "dangling_start"
    HARD_DATE = "hard_date"
    EARLY = "lag_before_start"
    LEAD = "lead"
    LAG = "lag"
    LONG_LAG = "long_lag"
    NO_OWNER = "no_owner"
    ESTIMATES = "estimates_out_of_order"
    LONG = "long"
    HIGH_FLOAT = "high_float"


OF_CHECK = {code.value for code in Code}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ailment:
    """One fault of an activity; `link` or `key_date` names what else it concerns.

    `minutes` is how short, how long, or how much float beyond what all the work has, in
    working minutes of the activity's calendar (of a lag: minutes on its own clock).
    `chain` is the loop, or the way that drives a date that is missed. `explained`: the user
    gave a reason.

    >>> Ailment(code=Code.LONG, activity="weld", minutes=9600).explained
    False
    """

    code: Code
    activity: str
    link: str | None = None
    key_date: str | None = None
    minutes: int | None = None
    chain: tuple[str, ...] = ()
    explained: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the network does not hold, as keys.

    `links` and `dates` have a reason or need none, `activities` have their length and
    float explained, `waiting` take nobody's hands, `unowned` are done by nobody. What is
    said to have happened by the instant `until` (None: the data date) can have happened.

    >>> Facts().links
    frozenset()
    """

    links: Collection[str] = frozenset()
    dates: Collection[str] = frozenset()
    activities: Collection[str] = frozenset()
    waiting: Collection[str] = frozenset()
    unowned: Collection[str] = frozenset()
    until: int | None = None


def examine(
    network: Network, *, data_date: int, facts: Facts
) -> tuple[Plan | None, tuple[Ailment, ...]]:
    """The plan of a network and all that ails it, worst first; a loop leaves no plan.

    Raises the other ScheduleErrors.

    >>> from . import Calendar
    >>> lone = Activity(key="sweep", duration=60, calendar="a")
    >>> bare = Network(activities=(lone,), links=(), calendars={"a": Calendar.always("a")},
    ...     project_calendar="a")
    >>> examine(bare, data_date=0, facts=Facts())[1]
    ()
    """
    try:
        plan = solve(network, data_date=data_date)
    except Cycle as loop:
        names = loop.activities
        return None, (Ailment(code=Code.LOOP, activity=names[0], chain=names),)
    return plan, ailments(network, plan, data_date=data_date, facts=facts)


def ailments(network: Network, plan: Plan, *, data_date: int, facts: Facts) -> tuple[Ailment, ...]:
    """All that ails a solved network, worst first, then in the order of its activities.

    >>> ailments(Network(activities=(), links=(), calendars={}, project_calendar="a"),
    ...     Plan(dates={}, finish=0, chain=(), chain_links=(), ready_at=None, in_hand=None),
    ...     data_date=0, facts=Facts())
    ()
    """
    if not network.activities:
        return ()
    place = {a.key: n for n, a in enumerate(network.activities)}
    found = [
        *_ends(network, plan, data_date, facts),
        *_short(network, plan),
        *_sequence(network, data_date),
        *_dates(network, facts),
        *_lags(network, plan, facts),
        *_work(network, plan, data_date, facts),
    ]
    order = list(Code)
    return tuple(sorted(found, key=lambda a: (order.index(a.code), place[a.activity])))


def _ends(network: Network, plan: Plan, now: int, facts: Facts) -> Iterator[Ailment]:
    """Open and dangling ends, no way to the end, impossible actual dates."""
    finished = {key for key, dates in plan.dates.items() if dates.finished}
    begun = {a.key for a in network.activities if a.actual_start is not None} | finished
    later = following(network, network.end)
    found = [f for f in check(network, data_date=now) if f.code in OF_CHECK]
    open_ended = {f.activity for f in found if f.code == Code.NO_SUCCESSOR}
    quiet = {
        Code.ACTUAL_AHEAD: _happened(network, facts.until or now),
        Code.NO_SUCCESSOR: finished | later,
        Code.NO_PATH: finished | later | open_ended,
        Code.DANGLING_FINISH: finished,
        Code.NO_PREDECESSOR: begun,
        Code.DANGLING_START: begun,
    }
    held = {k.activity for k in network.key_dates if k.key in facts.dates}
    starts = [f.activity for f in found if f.code == Code.NO_PREDECESSOR]
    one = len([key for key in starts if key not in held]) <= 1  # the rest have their first day
    for each in found:
        code = Code(each.code)
        explained = code == Code.NO_PREDECESSOR and each.activity in held
        if code == Code.NO_PREDECESSOR and one and not explained:
            continue
        if each.activity not in quiet.get(code, ()):
            yield Ailment(code=code, activity=each.activity, explained=explained)


def _happened(network: Network, until: int) -> set[str]:
    """Activities without an actual date later than an instant."""
    return {
        a.key for a in network.activities if max(a.actual_start or 0, a.actual_finish or 0) <= until
    }


def _short(network: Network, plan: Plan) -> Iterator[Ailment]:
    """Dates that the plan misses, each with the way that drives what must be done by then."""
    by_key = {a.key: a for a in network.activities}
    for date in network.key_dates:
        dates = plan.dates[date.activity]
        if date.role is KeyDateRole.NO_EARLIER or dates.finished:
            continue
        if date.activity == network.end and date.role is KeyDateRole.EVENT:
            late, chain = -min(plan.in_hand or 0, 0), plan.chain
        else:
            on = by_key[date.activity].calendar
            if date.role is KeyDateRole.EVENT:
                on = network.project_calendar
            at = dates.early_start if date.role is KeyDateRole.EVENT else dates.early_finish
            late = max(network.calendars[on].between(date.at, at), int(at > date.at))
            chain = driving(network, plan, date.activity)
        if late > 0:
            yield Ailment(
                code=Code.SHORT,
                activity=date.activity,
                key_date=date.key,
                minutes=late,
                chain=chain,
            )


def _sequence(network: Network, now: int) -> Iterator[Ailment]:
    for each in out_of_sequence(network, data_date=now):
        if each.rule is not SequenceRule.ACTUAL:
            explained = each.rule is SequenceRule.OVERRIDE
            yield Ailment(
                code=Code.OUT_OF_SEQUENCE,
                activity=each.activity,
                link=each.link,
                explained=explained,
            )


def _dates(network: Network, facts: Facts) -> Iterator[Ailment]:
    """Imposed dates without a reason, other than on work that it no longer holds."""
    by_key = {a.key: a for a in network.activities}
    for date in network.key_dates:
        on = by_key[date.activity]
        over = on.actual_finish if date.role is KeyDateRole.NO_LATER else on.actual_start
        if date.key not in facts.dates and over is None and on.actual_finish is None:
            yield Ailment(code=Code.HARD_DATE, activity=on.key, key_date=date.key)


def _lags(network: Network, plan: Plan, facts: Facts) -> Iterator[Ailment]:
    by_key = {a.key: a for a in network.activities}
    for link in network.links:
        code = _lag_code(link, network.calendars[_counted(network, link, by_key)], facts)
        if code and not plan.dates[link.after].finished:
            yield Ailment(
                code=code,
                activity=link.after,
                link=link.key,
                minutes=link.lag,
                explained=code != Code.LAG and link.key in facts.links,
            )


def _counted(network: Network, link: Link, by_key: Mapping[str, Activity]) -> str:
    """The calendar of a lag in working time."""
    if link.clock is LagClock.PROJECT:
        return network.project_calendar
    return by_key[link.after if link.clock is LagClock.SUCCESSOR else link.before].calendar


def _lag_code(link: Link, on: Calendar, facts: Facts) -> Code | None:
    if link.lag < 0:
        return Code.LEAD
    most = LAG_DAYS * on.day_minutes
    if link.lag > (LAG_ELAPSED if link.clock is LagClock.ELAPSED else most):
        return Code.LONG_LAG
    return Code.LAG if link.lag and link.key not in facts.links else None


def _work(network: Network, plan: Plan, now: int, facts: Facts) -> Iterator[Ailment]:
    """Faults of each piece of unfinished work: nobody's, too long, or with too much room."""
    rooms = _rooms(network, plan)
    shared = max(Fraction(0), min(rooms.values(), default=Fraction(0)))
    most = _most(network, plan, now)
    for each in network.activities:
        if plan.dates[each.key].finished or not each.duration:
            continue
        day = network.calendars[each.calendar].day_minutes
        noted, length = each.key in facts.activities, _length(each)
        if each.key in facts.unowned:
            yield Ailment(code=Code.NO_OWNER, activity=each.key)
        if length > OWN_DAYS * day and each.key not in facts.waiting:
            yield Ailment(code=Code.LONG, activity=each.key, minutes=length, explained=noted)
        more = rooms.get(each.key, shared) - shared
        if more > most:
            room = int(more * day)
            yield Ailment(code=Code.HIGH_FLOAT, activity=each.key, minutes=room, explained=noted)


def _rooms(network: Network, plan: Plan) -> dict[str, Fraction]:
    """The float, in days of its own calendar, of all unfinished work that leads to the end."""
    days = {a.key: network.calendars[a.calendar].day_minutes for a in network.activities}
    return {
        key: Fraction(dates.total_float, days[key])
        for key, dates in plan.dates.items()
        if dates.to_end and not dates.finished and key != network.end
    }


def _most(network: Network, plan: Plan, now: int) -> Fraction:
    """The days of float beyond which a missing link is likelier than so much room."""
    own = network.calendars[network.project_calendar]
    left = Fraction(own.between(now, target(plan)), own.day_minutes)
    return max(Fraction(FLOAT_DAYS), left * FLOAT_SHARE)


def _length(each: Activity) -> int:
    """What is left of work begun, else all of it."""
    return each.duration if each.remaining is None else each.remaining
