"""Laws that every network keeps, on random ones."""

import random
from dataclasses import replace

import networkx as nx
from hypothesis import assume, given
from hypothesis import strategies as st

from schedules.engine import KeyDate, KeyDateRole, LagClock, Link, LinkKind, Network, Plan, solve

from .networks import delayed
from .oracle import Oracle, worked
from .strategies import CALENDARS, START, laws, networks, on_one_line
from .under_way import under_way

FS = [LinkKind.FS]
MIRROR = {"FS": LinkKind.FS, "SS": LinkKind.FF, "FF": LinkKind.SS, "SF": LinkKind.SF}


def answer(network: Network) -> Plan:
    return solve(network, data_date=START)


def placed(found: Plan) -> dict[str, tuple[int, int, int, int]]:
    """Dates alone."""
    return {key: dates[:4] for key, dates in found.dates.items()}


@laws
@given(on_one_line(kinds=FS, least=1, least_lag=0))
def test_early_dates_are_the_longest_ways_of_networkx(network: Network) -> None:
    graph: nx.DiGraph = nx.DiGraph()
    for activity in network.activities:
        graph.add_edge("start", activity.key, weight=0)
    duration = {a.key: a.duration for a in network.activities}
    for link in network.links:
        graph.add_edge(link.before, link.after, weight=-duration[link.before] - link.lag)
    longest = nx.single_source_bellman_ford_path_length(graph, "start")
    found = answer(network).dates
    assert {k: START - longest[k] for k in found} == {k: d.early_start for k, d in found.items()}


@laws
@given(networks(kinds=FS, least_lag=0, clocks=(LagClock.WORK,)), st.data())
def test_a_redundant_link_changes_no_date(network: Network, data: st.DataObject) -> None:
    """Law 1: two links in a row already say what one across them says."""
    pairs = [(a, b) for a in network.links for b in network.links if a.after == b.before]
    assume(pairs)
    first, second = data.draw(st.sampled_from(pairs))
    assume(not any((k.before, k.after) == (first.before, second.after) for k in network.links))
    across = Link(key="across", before=first.before, after=second.after)
    more = replace(network, links=(*network.links, across))
    assert placed(answer(more)) == placed(answer(network))


@laws
@given(networks(least=1))
def test_an_activity_takes_its_duration_on_its_own_calendar(network: Network) -> None:
    """Law 2, for early and late dates."""
    found = answer(network).dates
    for a in network.activities:
        calendar, dates = CALENDARS[a.calendar], found[a.key]
        assert calendar.between(dates.early_start, dates.early_finish) == a.duration
        assert calendar.between(dates.late_start, dates.late_finish) == a.duration


@laws
@given(on_one_line(least=1))
def test_total_float_is_the_least_of_slack_and_float_over_the_successors(network: Network) -> None:
    """Law 3."""
    found = answer(network)
    for key, dates in found.dates.items():
        rooms = [found.finish - dates.early_finish]
        for link in network.links:
            if link.before == key:
                after = found.dates[link.after]
                source = dates[link.kind in ("FS", "FF")]
                target = after[link.kind in ("FF", "SF")]
                rooms.append(target - link.lag - source + after.total_float)
        assert dates.total_float == min(rooms)


@laws
@given(on_one_line(least=1), st.data())
def test_delay_within_float_keeps_the_finish_and_beyond_moves_it(
    network: Network, data: st.DataObject
) -> None:
    """Law 4."""
    found = answer(network)
    key = data.draw(st.sampled_from(sorted(found.dates)))
    dates, beyond = found.dates[key], data.draw(st.integers(1, 9))
    within = data.draw(st.integers(0, dates.total_float))
    late = dates.early_start + dates.total_float
    assert answer(delayed(network, key, dates.early_start + within)).finish == found.finish
    assert answer(delayed(network, key, late + beyond)).finish == found.finish + beyond


@laws
@given(on_one_line(least=1))
def test_a_network_read_backwards_swaps_early_and_late(network: Network) -> None:
    """Law 5."""
    turned = tuple(
        replace(k, before=k.after, after=k.before, kind=MIRROR[k.kind]) for k in network.links
    )
    found, mirror = answer(network), answer(replace(network, links=turned))
    total = START + found.finish
    for key, dates in mirror.dates.items():
        own = found.dates[key]
        assert (dates.early_start, dates.early_finish) == (
            total - own.late_finish,
            total - own.late_start,
        )
        assert (dates.late_start, dates.late_finish) == (
            total - own.early_finish,
            total - own.early_start,
        )


@laws
@given(networks(), st.randoms(use_true_random=False), st.booleans())
def test_the_order_of_the_input_changes_nothing(
    network: Network, chance: random.Random, chosen: bool
) -> None:
    """Law 6."""
    network = replace(network, end=network.activities[0].key if chosen else None)
    activities, links = list(network.activities), list(network.links)
    chance.shuffle(activities), chance.shuffle(links)
    shuffled = answer(replace(network, activities=tuple(activities), links=tuple(links)))
    found = answer(network)
    assert (found.chain, found.finish) == (shuffled.chain, shuffled.finish)
    assert {k: d._replace(drivers=()) for k, d in found.dates.items()} == {
        k: d._replace(drivers=()) for k, d in shuffled.dates.items()
    }
    assert all(set(d.drivers) == set(shuffled.dates[k].drivers) for k, d in found.dates.items())


@laws
@given(networks(least=1), st.data())
def test_delay_within_free_float_moves_no_other(network: Network, data: st.DataObject) -> None:
    """Law 7, on several calendars."""
    found = answer(network)
    key = data.draw(st.sampled_from(sorted(found.dates)))
    line = CALENDARS[next(a.calendar for a in network.activities if a.key == key)].line()
    within = data.draw(st.integers(0, found.dates[key].free_float))
    start = line.begins(line.mark(found.dates[key].early_start) + within)
    moved = answer(delayed(network, key, start)).dates
    assert all(moved[k][:2] == d[:2] for k, d in found.dates.items() if k != key)


@laws
@given(networks())
def test_dates_are_the_least_and_the_greatest_that_keep_every_link(network: Network) -> None:
    """Law 8: all four links, both clocks, three calendars, milestones."""
    oracle, found = Oracle(network), answer(network)
    early = oracle.early()
    assert {key: dates[:2] for key, dates in found.dates.items()} == early
    late = oracle.late(max(finish for _, finish in early.values()))
    for a in network.activities:
        dates = found.dates[a.key]
        if a.duration:
            assert dates[2:4] == late[a.key]
        room = worked(a.calendar, late[a.key][0]) - worked(a.calendar, early[a.key][0])
        assert dates.total_float == room


@laws
@given(networks(least=1))
def test_free_float_is_the_room_before_the_first_successor(network: Network) -> None:
    """Law 8 for free float: the greatest place that leaves early successors alone."""
    oracle, found = Oracle(network), answer(network)
    early = oracle.early()
    last = max(finish for _, finish in early.values())
    for a in network.activities:
        most = oracle.most(a.key, oracle.upto(a.key, last)[-1], early)
        room = worked(a.calendar, most[0]) - worked(a.calendar, early[a.key][0])
        assert found.dates[a.key].free_float == min(room, found.dates[a.key].total_float)


@laws
@given(networks(), st.integers(-40, 40), st.sampled_from(KeyDateRole), st.data())
def test_without_imposed_dates_no_float_is_negative(
    network: Network, late: int, role: KeyDateRole, data: st.DataObject
) -> None:
    """Law 9, and its other half: an imposed last date is what makes float negative."""
    key = data.draw(st.sampled_from([a.key for a in network.activities]))
    imposed = KeyDate(key="imposed", activity=key, at=START + late, role=role)
    held = answer(replace(network, key_dates=(imposed,)))
    least = min(dates.total_float for dates in held.dates.values())
    if role is KeyDateRole.NO_LATER and held.dates[key].early_finish > START + late:
        assert least < 0 or not network.activities
    if role is KeyDateRole.NO_EARLIER:
        assert least >= 0
    assert all(dates.total_float >= 0 for dates in answer(network).dates.values())


@laws
@given(networks(), st.data())
def test_the_longest_path_is_joined_by_driving_links(network: Network, data: st.DataObject) -> None:
    end = data.draw(st.sampled_from([a.key for a in network.activities]))
    found = answer(replace(network, end=end))
    links = {link.key: link for link in network.links}
    assert found.chain[-1] == end and len(found.chain) == len(found.chain_links) + 1
    for key, before, after in zip(found.chain_links, found.chain, found.chain[1:], strict=False):
        assert (links[key].before, links[key].after) == (before, after)
        assert key in {driver.key for driver in found.dates[after].drivers}


@laws
@given(on_one_line(), st.data())
def test_nothing_on_the_longest_path_can_wait(network: Network, data: st.DataObject) -> None:
    """On one calendar; between calendars a night can hide a little room."""
    end = data.draw(st.sampled_from([a.key for a in network.activities]))
    found = answer(replace(network, end=end))
    assert all(found.dates[key].total_float == 0 for key in found.chain)


@laws
@given(under_way())
def test_any_mixture_of_progress_and_key_dates_has_a_plan(network: Network) -> None:
    found = answer(network)
    for a in network.activities:
        dates = found.dates[a.key]
        assert dates.finished == (a.actual_finish is not None)
        assert dates.drivers and 0 <= dates.free_float <= max(0, dates.total_float)
        if a.actual_finish is not None:
            assert dates.early_finish == dates.late_finish == a.actual_finish
        else:
            assert dates.early_finish >= START
            assert a.actual_start in (None, dates.early_start)
            assert (dates.total_float < 0) == (dates.late_finish < dates.early_finish)
