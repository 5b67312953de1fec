"""Levelling on random networks: three calendars, all links, lags, key dates, work begun."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, product

from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.engine import (
    Activity,
    KeyDate,
    KeyDateRole,
    Link,
    LinkKind,
    Network,
    Plan,
    ScheduleError,
    solve,
)
from schedules.engine.levelling import Hands, broken, level, overloads

from .strategies import START, laws, networks

EFFORT = 0.1
LANES = ("artist", "lift")


@st.composite
def booked(draw: st.DrawFn, most: int = 1) -> tuple[Network, Hands]:
    """A network whose activities share an artist and a lift."""
    network = draw(networks(kinds=[LinkKind.FS, LinkKind.SS, LinkKind.FF]))
    keys = [a.key for a in network.activities]
    taken = {key: draw(st.sets(st.sampled_from(LANES), max_size=2)) for key in keys}
    capacity = {lane: draw(st.integers(1, most)) for lane in LANES}
    amount = st.integers(1, min(capacity.values()))
    needs = {key: {lane: draw(amount) for lane in sorted(taken[key])} for key in keys}
    begun = draw(st.sets(st.sampled_from(keys), max_size=2))
    activities = tuple(
        replace(a, actual_start=START - 9, remaining=max(1, a.duration)) if a.key in begun else a
        for a in network.activities
    )
    dates = draw(st.lists(st.builds(
        KeyDate, key=st.just("held"), activity=st.sampled_from(keys),
        at=st.integers(START, START + 3000), role=st.sampled_from(KeyDateRole),
    ), max_size=1))  # fmt: skip
    network = replace(network, activities=activities, key_dates=tuple(dates))
    if draw(st.booleans()):
        network = with_walk(network, draw(st.sets(st.sampled_from(keys), min_size=1, max_size=2)))
    return network, Hands(capacity=capacity, needs={"walk": {}} | needs)


def with_walk(network: Network, before: set[str]) -> Network:
    """The public date, for which some of the tasks must be finished."""
    walk = Activity(key="walk", duration=0, calendar="always")
    links = tuple(Link(key=f"{key} walk", before=key, after="walk") for key in sorted(before))
    return replace(
        network,
        activities=(*network.activities, walk),
        links=(*network.links, *links),
        end="walk",
    )


def orders(network: Network, hands: Hands, forced: frozenset[str]) -> Iterator[Network]:
    """Every way to say of each two tasks with a lane of one in common who goes first."""
    pairs = [
        pair
        for pair in combinations([a.key for a in network.activities], 2)
        if any(lane in hands.needs[pair[1]] for lane in hands.needs[pair[0]])
        and not set(pair) <= forced
    ]
    begun = {a.key for a in network.activities if a.actual_start is not None} & forced
    for turns in product((False, True), repeat=len(pairs)):
        chosen = [(b, a) if turn else (a, b) for (a, b), turn in zip(pairs, turns, strict=True)]
        if any(after in begun for _, after in chosen):
            continue
        links = tuple(Link(key=f"o{a}{b}", before=a, after=b) for a, b in chosen)
        taken = {(k.before, k.after) for k in network.links if k.kind == "FS"}
        if not taken & set(chosen):
            yield replace(network, links=(*network.links, *links))


def moved(network: Network, plan: Plan, forced: frozenset[str]) -> bool:
    """Whether an event that can keep its date does not."""
    dates = [k for k in network.key_dates if k.role is KeyDateRole.EVENT and k.activity in forced]
    return any(plan.dates[k.activity].early_start > k.at for k in dates)


def least_date(network: Network, hands: Hands, forced: frozenset[str]) -> int | None:
    found = []
    for ordered in orders(network, hands, forced):
        try:
            plan = solve(ordered, data_date=START)
        except ScheduleError:
            continue
        if moved(ordered, plan, forced):
            continue
        if not broken(ordered, hands, plan, data_date=START, forced=forced):
            found.append(plan.finish if plan.ready_at is None else plan.ready_at)
    return min(found, default=None)


@settings(laws, max_examples=100)
@given(booked(most=3))
def test_nobody_is_booked_above_what_they_can_do(case):
    network, hands = case
    found = level(network, hands, data_date=START)
    assert not broken(found.network, hands, found.plan, data_date=START, forced=found.forced)
    for overload in overloads(found.network, hands, found.plan, data_date=START):
        assert set(overload.activities) <= found.forced


@settings(laws, max_examples=30)
@given(booked(most=2))
def test_the_search_is_never_worse_and_its_bound_is_kept(case):
    network, hands = case
    first = level(network, hands, data_date=START)
    better = level(network, hands, data_date=START, effort=EFFORT)
    assert better.bound <= better.date <= first.date
    assert not broken(better.network, hands, better.plan, data_date=START, forced=better.forced)


@settings(laws, max_examples=50)
@given(booked())
def test_what_is_proven_best_is_the_best_of_all_orders(case):
    network, hands = case
    found = level(network, hands, data_date=START, effort=EFFORT)
    least = least_date(network, hands, found.forced)
    if least is not None:
        assert found.bound <= least
        assert found.date <= least or not found.proven
