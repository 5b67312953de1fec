"""Laws of override, hammocks and the parts of float, on random networks."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from schedules.engine import Dates, Hammock, Link, Network, hammock_dates, out_of_sequence, solve

from .strategies import CALENDARS, START, laws, networks, on_one_line
from .under_way import under_way


@laws
@given(under_way())
def test_override_is_the_plan_without_the_links_from_unfinished_work(network: Network) -> None:
    tasks = {a.key: a for a in network.activities}

    def forgotten(link: Link) -> bool:
        after, before = tasks[link.after], tasks[link.before]
        begun = after.actual_start is not None and after.actual_finish is None
        return after.ahead and begun and before.actual_finish is None

    rest = tuple(link for link in network.links if not forgotten(link))
    loose = tuple(replace(a, ahead=False) for a in network.activities)
    found = solve(network, data_date=START)
    bare = solve(replace(network, activities=loose, links=rest), data_date=START)
    assert dict(found.dates) == dict(bare.dates)
    assert (found.finish, found.chain) == (bare.finish, bare.chain)


@laws
@given(under_way())
def test_under_way_without_imposed_dates_no_float_is_negative(network: Network) -> None:
    """Law 9 with progress, whatever end is chosen."""
    found = solve(replace(network, key_dates=()), data_date=START)
    assert all(dates.total_float >= 0 for dates in found.dates.values())


@laws
@given(under_way())
def test_what_is_out_of_order_waits_unless_it_is_ahead(network: Network) -> None:
    links = {link.key: link for link in network.links}
    found = solve(network, data_date=START).dates
    for each in out_of_sequence(network, data_date=START):
        link, dates = links[each.link], found[each.activity]
        assert (link.before, link.after) == (each.before, each.activity)
        assert dates.finished == (each.rule == "actual")
        if each.rule == "retained" and link.kind == "FS" and not link.lag:
            assert dates.early_finish >= found[each.before].early_finish


@laws
@given(under_way(), st.data())
def test_a_hammock_holds_all_its_work_and_no_more(network: Network, data: st.DataObject) -> None:
    keys = st.lists(st.sampled_from([a.key for a in network.activities]), min_size=1)
    starts, finishes = data.draw(keys), data.draw(keys)
    calendar = data.draw(st.sampled_from(sorted(CALENDARS)))
    hammock = Hammock(key="hire", starts=tuple(starts), finishes=tuple(finishes), calendar=calendar)
    plan = solve(network, data_date=START)
    start, finish, minutes = hammock_dates(plan, network, hammock)
    assert start == sorted(plan.dates[key].early_start for key in starts)[0]
    assert finish == sorted(plan.dates[key].early_finish for key in finishes)[-1]
    assert minutes == max(0, CALENDARS[calendar].between(start, finish))
    assert 0 <= minutes <= max(0, finish - start)


@laws
@given(on_one_line(least=1))
def test_the_parts_of_float_are_those_of_their_definitions(network: Network) -> None:
    """Free: to the early successors; independent: the same after late predecessors."""
    plan = solve(network, data_date=START)
    for activity in network.activities:
        dates = plan.dates[activity.key]
        room = min([dates.total_float, *rooms(network, plan.dates, activity.key)])
        pushed = max([dates.early_start, *pushes(network, plan.dates, activity.key)])
        assert dates.free_float == room
        assert dates.interfering_float == dates.total_float - room
        assert dates.independent_float == max(0, room - (pushed - dates.early_start))


def rooms(network: Network, dates: dict[str, Dates], key: str) -> list[int]:
    """The slack of every link out of an activity, at early dates."""
    found = []
    for link in network.links:
        if link.before == key:
            source = dates[key][link.kind in ("FS", "FF")]
            target = dates[link.after][link.kind in ("FF", "SF")]
            found.append(target - link.lag - source)
    return found


def pushes(network: Network, dates: dict[str, Dates], key: str) -> list[int]:
    """The starts that late predecessors leave."""
    duration = next(a.duration for a in network.activities if a.key == key)
    found = []
    for link in network.links:
        if link.after == key:
            source = dates[link.before][2 + (link.kind in ("FS", "FF"))]
            found.append(source + link.lag - duration * (link.kind in ("FF", "SF")))
    return found


@laws
@given(networks())
def test_no_part_of_float_is_more_than_the_whole(network: Network) -> None:
    for dates in solve(network, data_date=START).dates.values():
        assert 0 <= dates.independent_float <= dates.free_float <= dates.total_float
        assert dates.free_float + dates.interfering_float == dates.total_float
