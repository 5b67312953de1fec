"""What ails a plan: each fault by name, with the activity and the figure that shows it.

Sources: GAO-16-89G Schedule Assessment Guide (December 2015), practices 2, 3, 6, 7 and 9;
DCMA-EA PAM 200.1 (October 2012), section 4, points 1 to 3, 5 to 10. Faults are named, not
counted as shares: with a few dozen tasks one task moves a share by several points. The
limits of 5 and 15 working days, and of 20 days or a quarter of what remains, are common
practice, no source; the documents' own 44 working days suit monthly reports.
"""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from .check import check
from .errors import Cycle
from .network import Activity, KeyDateRole, LagClock, Link, Network
from .plan import Plan, Reason
from .sequence import SequenceRule, out_of_sequence
from .solve import solve
from .vitals import target

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
    NO_PATH = "no_path_to_end"
    NO_SUCCESSOR = "no_successor"
    NO_PREDECESSOR = "no_predecessor"
    DANGLING_FINISH = "dangling_finish"
    DANGLING_START = "dangling_start"
    HARD_DATE = "hard_date"
    LEAD = "lead"
    LAG = "lag"
    LONG_LAG = "long_lag"
    NO_OWNER = "no_owner"
    LONG = "long"
    HIGH_FLOAT = "high_float"


OF_CHECK = {code.value for code in Code}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ailment:
    """One fault of an activity; `link` or `key_date` names what else it concerns.

    `minutes` is how short, how long, or how much float, in working minutes of the
    activity's calendar (of an elapsed lag: minutes on the clock). `chain` is the loop, or
    the way that drives a date that is missed. `explained`: the user gave a reason.

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
    float explained, `waiting` take nobody's hands, `unowned` are done by nobody.

    >>> Facts().links
    frozenset()
    """

    links: Collection[str] = frozenset()
    dates: Collection[str] = frozenset()
    activities: Collection[str] = frozenset()
    waiting: Collection[str] = frozenset()
    unowned: Collection[str] = frozenset()


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


def following(network: Network, key: str | None) -> set[str]:
    """All that comes after an activity along the links.

    >>> following(Network(activities=(), links=(), calendars={}, project_calendar="a"), "x")
    set()
    """
    after: dict[str, list[str]] = {}
    for link in network.links:
        after.setdefault(link.before, []).append(link.after)
    found, waiting = set[str](), [key] if key else []
    while waiting:
        for each in after.get(waiting.pop(), ()):
            if each not in found:
                found.add(each)
                waiting.append(each)
    return found


def _ends(network: Network, plan: Plan, now: int, facts: Facts) -> Iterator[Ailment]:
    """Open and dangling ends, no way to the end, impossible actual dates."""
    finished = {key for key, dates in plan.dates.items() if dates.finished}
    begun = {a.key for a in network.activities if a.actual_start is not None} | finished
    later = following(network, network.end)
    found = [f for f in check(network, data_date=now) if f.code in OF_CHECK]
    open_ended = {f.activity for f in found if f.code == Code.NO_SUCCESSOR}
    quiet = {
        Code.NO_SUCCESSOR: finished | later,
        Code.NO_PATH: finished | later | open_ended,
        Code.DANGLING_FINISH: finished,
        Code.NO_PREDECESSOR: begun,
        Code.DANGLING_START: begun,
    }
    held = {k.activity for k in network.key_dates if k.key in facts.dates}
    for each in found:
        code = Code(each.code)
        if each.activity not in quiet.get(code, ()):
            explained = code == Code.NO_PREDECESSOR and each.activity in held
            yield Ailment(code=code, activity=each.activity, explained=explained)


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


def driving(network: Network, plan: Plan, key: str) -> tuple[str, ...]:
    """The way into an activity along the links that hold each step, first to last.

    >>> lone = Plan(dates={}, finish=0, chain=(), chain_links=(), ready_at=None, in_hand=None)
    >>> driving(Network(activities=(), links=(), calendars={}, project_calendar="a"), lone, "x")
    ('x',)
    """
    before = {link.key: link.before for link in network.links}
    way = [key]
    while way[-1] in plan.dates:
        held = [d.key for d in plan.dates[way[-1]].drivers if d.reason is Reason.LINK and d.key]
        if not held:
            break
        way.append(before[held[0]])
    return tuple(reversed(way))


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
        code = _lag_code(link, by_key[link.before], network, facts)
        if code and not plan.dates[link.after].finished:
            yield Ailment(
                code=code,
                activity=link.after,
                link=link.key,
                minutes=link.lag,
                explained=code != Code.LAG and link.key in facts.links,
            )


def _lag_code(link: Link, before: Activity, network: Network, facts: Facts) -> Code | None:
    if link.lag < 0:
        return Code.LEAD
    most = LAG_DAYS * network.calendars[before.calendar].day_minutes
    if link.lag > (LAG_ELAPSED if link.clock is LagClock.ELAPSED else most):
        return Code.LONG_LAG
    return Code.LAG if link.lag and link.key not in facts.links else None


def _work(network: Network, plan: Plan, now: int, facts: Facts) -> Iterator[Ailment]:
    """Faults of each piece of unfinished work: nobody's, too long, or with too much room."""
    left = network.calendars[network.project_calendar].between(now, target(plan))
    for each in network.activities:
        dates, day = plan.dates[each.key], network.calendars[each.calendar].day_minutes
        if dates.finished or not each.duration:
            continue
        noted, length = each.key in facts.activities, _length(each)
        if each.key in facts.unowned:
            yield Ailment(code=Code.NO_OWNER, activity=each.key)
        if length > OWN_DAYS * day and each.key not in facts.waiting:
            yield Ailment(code=Code.LONG, activity=each.key, minutes=length, explained=noted)
        room = dates.total_float
        most = max(FLOAT_DAYS * day, int(left * FLOAT_SHARE))
        if dates.to_end and room > most:
            yield Ailment(code=Code.HIGH_FLOAT, activity=each.key, minutes=room, explained=noted)


def _length(each: Activity) -> int:
    """What is left of work begun, else all of it."""
    return each.duration if each.remaining is None else each.remaining
