"""Networks of any kind, bad ones included: what a person or a broken row might hand in."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from itertools import combinations

from hypothesis import strategies as st

from schedules.engine import (
    Activity,
    Calendar,
    KeyDate,
    KeyDateRole,
    LagClock,
    Link,
    LinkKind,
    Network,
)

from .strategies import CALENDARS, START

ONCE = {date(2000, 1, 31): ((600, 700),), date(2000, 2, 5): ((0, 1440),)}
NIGHTS = (((0, 120), (1320, 1440)),) * 7
SOUND = {
    **CALENDARS,
    "nights": Calendar(key="nights", week=NIGHTS, exceptions={date(2000, 2, 1): ()}),
    "crew": Calendar(key="crew", week=(((480, 720), (780, 1020)),) * 5 + ((), ())),
}
CLOSED = (
    Calendar(key="closed", week=((),) * 7),
    Calendar(key="once", week=((),) * 7, exceptions=ONCE),
    Calendar(key="six", week=(((480, 1020),),) * 6),
    Calendar(key="over", week=(((480, 1600),),) * 7),
)
ZONES = (None, "America/New_York", "Australia/Lord_Howe")
FAR = st.sampled_from((-(10**12), -(10**7), 10**7, 10**9, 10**12))
PAST = st.none() | st.integers(START - 4000, START + 50)

Spoiled = Callable[[Network], Network]


def activity(key: str) -> st.SearchStrategy:
    """Any activity of that key, waiting, begun or finished."""
    return st.builds(
        Activity,
        key=st.just(key),
        duration=st.integers(0, 9),
        calendar=st.sampled_from(list(SOUND)),
        actual_start=st.none() | PAST,
        actual_finish=st.none() | st.none() | PAST,
        remaining=st.none() | st.integers(0, 9),
        finish_milestone=st.booleans(),
        ahead=st.booleans(),
    )


def link(names: list[str]) -> st.SearchStrategy:
    """Any link onwards in the order of the names."""
    lags = st.just(0) | st.integers(-9, 9) | st.integers(-4000, 4000)
    return st.builds(
        lambda pair, kind, lag, clock: Link(
            key=f"{pair[0]}{kind}{pair[1]}{clock}",
            before=pair[0], after=pair[1], kind=kind, lag=lag, clock=clock,
        ),
        st.sampled_from(list(combinations(names, 2))), st.sampled_from(LinkKind),
        lags, st.sampled_from(LagClock),
    )  # fmt: skip


def key_date(names: list[str]) -> st.SearchStrategy:
    return st.builds(
        KeyDate,
        key=st.sampled_from(("first", "second")),
        activity=st.sampled_from(names),
        at=st.integers(START - 3000, START + 9000),
        role=st.sampled_from(KeyDateRole),
    )


@st.composite
def sound(draw: st.DrawFn) -> Network:
    """A small network that can be computed."""
    names = list("ABCDEFG"[: draw(st.integers(2, 7))])
    tasks = draw(st.tuples(*map(activity, names)))
    return Network(
        activities=tuple(draw(st.permutations(tasks))),
        links=tuple(draw(st.lists(link(names), max_size=10, unique_by=lambda k: k.key))),
        calendars=SOUND,
        key_dates=tuple(draw(st.lists(key_date(names), max_size=3))),
        end=draw(st.none() | st.sampled_from(names)),
        zone=draw(st.sampled_from(ZONES)),
        project_calendar=draw(st.sampled_from(list(SOUND))),
    )


def no_activity(n: Network) -> Network:
    return replace(n, activities=())


def twice(n: Network) -> Network:
    return replace(n, activities=n.activities + n.activities[:1])


def turned(n: Network) -> Network:
    """Every link is there backwards as well."""
    back = tuple(replace(k, key=f"{k.key} back", before=k.after, after=k.before) for k in n.links)
    return replace(n, links=n.links + back)


def looped(n: Network) -> Network:
    return replace(n, links=(*n.links, Link(key="self", before="A", after="A")))


def doubled(n: Network) -> Network:
    return replace(n, links=n.links + tuple(replace(k, lag=k.lag + 1) for k in n.links))


def lost_link(n: Network) -> Network:
    return replace(n, links=(*n.links, Link(key="lost", before="A", after="nobody")))


def lost_end(n: Network) -> Network:
    return replace(n, end="nobody")


def lost_date(n: Network) -> Network:
    date_of = KeyDate(key="lost", activity="nobody", at=START, role=KeyDateRole.EVENT)
    return replace(n, key_dates=(*n.key_dates, date_of))


def lost_calendar(n: Network) -> Network:
    return replace(n, project_calendar="moon")


def lost_zone(n: Network) -> Network:
    return replace(n, zone="../Moon/Base\0")


def first_task(**changes: object) -> Spoiled:
    """Something wrong with the first activity."""
    return lambda n: replace(n, activities=(replace(n.activities[0], **changes), *n.activities[1:]))


def first_link(**changes: object) -> Spoiled:
    return lambda n: replace(n, links=tuple(replace(k, **changes) for k in n.links[:1]))


def on_calendar(calendar: Calendar) -> Spoiled:
    """The first activity on an odd calendar."""
    change = first_task(calendar=calendar.key)
    return lambda n: change(replace(n, calendars={**n.calendars, calendar.key: calendar}))


PLAIN: tuple[Spoiled, ...] = (
    no_activity, twice, turned, looped, doubled,
    lost_link, lost_end, lost_date, lost_calendar, lost_zone,
)  # fmt: skip
FIELDS = ("duration", "remaining", "actual_start", "actual_finish", "low", "high")
SPOILS: st.SearchStrategy = (
    st.sampled_from(PLAIN)
    | st.sampled_from(CLOSED).map(on_calendar)
    | st.tuples(st.sampled_from(FIELDS), FAR).map(lambda pair: first_task(**dict([pair])))
    | FAR.map(lambda far: first_link(lag=far))
)


@st.composite
def wild(draw: st.DrawFn) -> tuple[Network, int]:
    """Any small network and its data date; every other one is spoiled once or twice."""
    network = draw(sound())
    for spoil in draw(st.just([]) | st.lists(SPOILS, min_size=1, max_size=2)):
        network = spoil(network) if network.activities else network
    return network, draw(st.just(START) | st.integers(0, 5 * 10**6) | FAR)
