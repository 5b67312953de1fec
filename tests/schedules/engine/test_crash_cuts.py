"""Cheapest steps where a shorter task makes another chain later, and on mixed networks.

By hand, and against every combination of steps; common practice, no source.
"""

from dataclasses import replace
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.engine import Activity, KeyDate, KeyDateRole, Link, LinkKind, Network, solve
from schedules.engine.crash import Shortening, curve, shortened

from .networks import DAY, MONDAY, at, date_for, link, net, task
from .strategies import CALENDARS, START, laws, networks

ALL = 10**7  # more units than any of these networks can win
FINISHES = [LinkKind.FS, LinkKind.SS, LinkKind.FF, LinkKind.FF, LinkKind.SF]


def price(cost, step=DAY, most=1):
    return Shortening(step=step, most=most, cost=cost)


def bought(network, prices, unit=DAY):
    return [dict(p.steps) for p in curve(network, prices, data_date=MONDAY, unit=unit).plans]


def test_cheap_steps_that_only_move_the_wait_are_left_for_a_dearer_task():
    """b ends with a: two days less of b bring d one day forward and put c one day off."""
    network = net(task("a", 5 * DAY), task("b", 6 * DAY), task("c", 9 * DAY), task("d", 4 * DAY),
                  link("a FF b"), link("b SS c"), link("b FS d"))  # fmt: skip
    prices = {"b": price(100, step=2 * DAY), "c": price(1000), "d": price(500)}
    assert bought(network, prices)[0] == {"d": 1}


def test_the_last_of_two_waits_of_an_event_is_shortened_though_both_end_at_a_weekend():
    """The public date is a volunteers' weekend: Thursday and Friday are the same to it."""
    ties = link("paint FS open"), link("weld FS open")
    network = net(task("paint", 4 * DAY), task("weld", 5 * DAY), task("open", DAY, "weekend"),
                  *ties, end="open")  # fmt: skip
    found = curve(network, {"weld": price(100)}, data_date=MONDAY, unit=DAY)
    assert [(p.cost, p.date) for p in found.plans] == [(100, at("2031-06-19T17:00"))]


def test_an_end_that_waits_for_a_start_and_a_finish_is_ready_after_both():
    network = net(task("hang", 2 * DAY), task("wire", 4 * DAY), task("open", 3 * DAY),
                  link("hang FS open"), link("wire FF open"), end="open")  # fmt: skip
    assert solve(network, data_date=MONDAY).ready_at == at("2031-06-19T17:00")
    assert bought(network, {"hang": price(1), "wire": price(9, most=2)}) == [
        {"wire": 1},
        {"wire": 2},
    ]


def test_of_work_in_progress_that_only_the_calendar_counts_something_is_left():
    weld = task("weld", 5 * DAY, actual_start=MONDAY - 5 * 1440)
    network = net(weld, date_for("weld", "no_later", "2031-06-20"))
    left = solve(network, data_date=MONDAY)
    assert left.finish == at("2031-06-17T17:00")
    assert bought(network, {"weld": price(100, most=4)}) == [{"weld": 1}]


@st.composite
def mixed(draw: st.DrawFn) -> tuple[Network, dict[str, Shortening]]:
    """Starts driven by finishes, work begun, key dates, and an end with several links into it."""
    network = draw(networks(kinds=FINISHES, least=1))
    keys = [a.key for a in network.activities][:5]
    begun = draw(st.sets(st.sampled_from(keys), max_size=2))
    network = replace(network, activities=tuple(
        replace(a, actual_start=START - 9, ahead=draw(st.booleans()),
                remaining=draw(st.sampled_from((None, a.duration, 2))))
        if a.key in begun else a
        for a in network.activities
    ))  # fmt: skip
    network = replace(network, key_dates=tuple(draw(st.lists(st.builds(
        KeyDate, key=st.just("held"), activity=st.sampled_from(keys),
        at=st.integers(START, START + 3000), role=st.sampled_from(KeyDateRole),
    ), max_size=1))))  # fmt: skip
    chosen = draw(st.lists(st.sampled_from(keys), min_size=1, max_size=4, unique=True))
    steps = st.builds(Shortening, step=st.integers(1, 3), most=st.integers(1, 2),
                      cost=st.integers(0, 9))  # fmt: skip
    return draw(ended(network, keys)), {key: draw(steps) for key in chosen}


@st.composite
def ended(draw: st.DrawFn, network: Network, keys: list[str]) -> Network:
    """With an end of some length that several activities lead to, by any kind of link."""
    walk = Activity(key="walk", duration=draw(st.integers(0, 3)),
                    calendar=draw(st.sampled_from(list(CALENDARS))))  # fmt: skip
    tied = draw(st.sets(st.sampled_from(keys), max_size=3))
    kind = st.sampled_from((LinkKind.FS, LinkKind.SS, LinkKind.FF))
    links = tuple(Link(key=f"{k} walk", before=k, after="walk", kind=draw(kind)) for k in tied)
    return replace(network, activities=(*network.activities, walk),
                   links=(*network.links, *links), end="walk")  # fmt: skip


def ready(network: Network) -> int:
    plan = solve(network, data_date=START)
    return plan.finish if plan.ready_at is None else plan.ready_at


def what_is_left(network: Network, key: str) -> int:
    """Minutes still to do, counted on the calendar where nobody said it."""
    activity = next(a for a in network.activities if a.key == key)
    if activity.actual_start is None or activity.remaining is not None:
        return activity.duration if activity.remaining is None else activity.remaining
    gone = network.calendars[activity.calendar].between(activity.actual_start, START)
    return max(0, activity.duration - gone)


def least_costs(network: Network, prices: dict[str, Shortening]) -> dict[int, int]:
    """By trying every combination of steps: the least cost of every number of units won."""
    line, first = network.calendars[network.project_calendar].line(START), ready(network)
    counts = [
        range(max(0, min(p.most, (what_is_left(network, key) - 1) // p.step)) + 1)
        for key, p in prices.items()
    ]
    found: dict[int, int] = {}
    for taken in product(*counts):
        steps = dict(zip(prices, taken, strict=True))
        won = line.mark(first) - line.mark(ready(shortened(network, prices, steps)))
        cost = sum(prices[key].cost * n for key, n in steps.items())
        found[won] = min(cost, found.get(won, cost))
    return found


@settings(laws, max_examples=250)
@given(mixed())
def test_with_any_links_and_progress_each_plan_is_the_cheapest_and_none_is_missing(case):
    network, prices = case
    costs = least_costs(network, prices)
    found = curve(network, prices, data_date=START, unit=1, most=ALL)
    assert not found.more
    for plan in found.plans:
        assert plan.cost == min(cost for won, cost in costs.items() if won >= plan.units)
    units = [0, *(plan.units for plan in found.plans)]
    assert units[-1] == max(0, *costs)
    for before, plan in zip(units, found.plans, strict=False):
        assert plan.cost == min(cost for won, cost in costs.items() if won > before)
