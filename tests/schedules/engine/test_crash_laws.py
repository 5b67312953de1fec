"""Crash plans against every combination of steps, on random networks with all links."""

from dataclasses import replace
from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from schedules.engine import Activity, Link, Network, solve
from schedules.engine.crash import Shortening, curve, next_ways, shortened

from .strategies import START, laws, networks

UNIT = 2


@st.composite
def priced(draw: st.DrawFn) -> tuple[Network, dict[str, Shortening]]:
    """A network in which up to four activities can be shortened, and perhaps a public date."""
    network = replace(draw(networks(least=1)), project_calendar="short")
    keys = [a.key for a in network.activities]
    chosen = sorted(draw(st.sets(st.sampled_from(keys), max_size=4)))
    costs = {
        key: Shortening(
            step=draw(st.integers(1, 2)), most=draw(st.integers(1, 2)), cost=draw(st.integers(0, 5))
        )
        for key in chosen
    }
    begun = draw(st.sets(st.sampled_from(keys), max_size=1))
    activities = tuple(
        replace(a, actual_start=START - 9, remaining=a.duration) if a.key in begun else a
        for a in network.activities
    )
    network = replace(network, activities=activities)
    if draw(st.booleans()):
        return network, costs
    walk = Activity(key="walk", duration=0, calendar="always")
    tied = sorted(draw(st.sets(st.sampled_from(keys), min_size=1, max_size=2)))
    links = tuple(Link(key=f"{key} walk", before=key, after="walk") for key in tied)
    all_links = (*network.links, *links)
    return replace(network, activities=(*activities, walk), links=all_links, end="walk"), costs


def length(network: Network, key: str) -> int:
    activity = next(a for a in network.activities if a.key == key)
    return activity.duration if activity.remaining is None else activity.remaining


def every(network: Network, costs: dict[str, Shortening]) -> list[tuple[int, int]]:
    """Units won and cost of all combinations of steps that leave something to do."""
    line = network.calendars["short"]
    ranges = [
        range(min(s.most, (length(network, key) - 1) // s.step) + 1) for key, s in costs.items()
    ]
    first, found = ready(network), []
    for counts in product(*ranges):
        steps = dict(zip(costs, counts, strict=True))
        won = line.between(ready(shortened(network, costs, steps)), first) // UNIT
        found.append((won, sum(costs[key].cost * n for key, n in steps.items())))
    return found


def ready(network: Network) -> int:
    plan = solve(network, data_date=START)
    return plan.finish if plan.ready_at is None else plan.ready_at


@laws
@given(priced())
def test_each_crash_plan_is_the_cheapest_of_all_and_the_curve_is_whole(case):
    network, costs = case
    found = curve(network, costs, data_date=START, unit=UNIT)
    best = every(network, costs)
    assert not found.more
    reached = 0
    for plan in found.plans:
        for units in range(reached + 1, plan.units + 1):
            assert plan.cost == min(cost for won, cost in best if won >= units)
        reached = plan.units
    assert reached == max(0, *(won for won, _ in best))


@laws
@given(priced())
def test_a_crash_plan_says_what_the_engine_says(case):
    network, costs = case
    for plan in curve(network, costs, data_date=START, unit=UNIT).plans:
        assert plan.date == ready(shortened(network, costs, plan.steps))
        assert plan.cost == sum(costs[key].cost * n for key, n in plan.steps.items())
        assert all(n <= costs[key].most for key, n in plan.steps.items())


@laws
@given(priced())
def test_each_next_way_wins_a_unit_and_holds_no_other(case):
    network, costs = case
    ways = next_ways(network, costs, data_date=START, unit=UNIT)
    line = network.calendars["short"]
    for way in ways:
        then = ready(shortened(network, costs, way.steps))
        assert line.between(then, ready(network)) >= UNIT
    for one, other in product(ways, ways):
        assert one is other or not one.steps.items() <= other.steps.items()
