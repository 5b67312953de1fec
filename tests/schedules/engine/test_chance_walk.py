"""The draws of a plan, each held against the plain pass of the same durations."""

from dataclasses import replace
from datetime import datetime

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.engine import LagClock, Network, Zone, instant, solve
from schedules.engine.chance import Simulator, simulate
from schedules.engine.chance.elapsed import Elapsed

from .networks import DAY, MONDAY, at, link, net, task
from .strategies import START, laws
from .test_laws import under_way

SPRING = instant(datetime(2000, 4, 2, 1, 50))  # ten minutes before the clock is put on
AUTUMN = instant(datetime(2000, 10, 29, 0, 55))  # and five before an hour that comes twice
DRAWS = 4


def drawn(network: Network, rows: list[list[int]], monkeypatch) -> None:
    """Make the draws of each activity what is said, in order, whatever its spread."""

    def lengths(board, needed, spreads, draws, seed):
        certain = board.finished | board.points | board.events
        return {row: np.array(rows[row]) for row in range(len(rows)) if row not in certain}

    monkeypatch.setattr("schedules.engine.chance.simulator.lengths", lengths)


def with_lengths(network: Network, rows: list[list[int]], draw: int) -> Network:
    """The network as one draw has it: so much to do, or left to do."""
    changed = []
    for row, activity in enumerate(network.activities):
        minutes = rows[row][draw]
        if activity.actual_finish is not None:
            changed.append(activity)
        elif activity.actual_start is not None:
            changed.append(replace(activity, remaining=minutes))
        else:
            changed.append(replace(activity, duration=minutes))
    return replace(network, activities=tuple(changed))


def points_stay(network: Network, rows: list[list[int]], data_date: int) -> list[list[int]]:
    """What has no length keeps none; what has some draws at least a minute."""
    from schedules.engine.board import lay

    board = lay(network, data_date)
    return [[0] * DRAWS if r in board.points else row for r, row in enumerate(rows)]


@laws
@given(under_way(), st.sampled_from((START, SPRING, AUTUMN)), st.data())
def test_every_draw_has_the_dates_of_the_plain_pass(network, data_date, data):
    """All four links, both clocks, three calendars, clock changes, progress, key dates."""
    end = network.end or data.draw(st.sampled_from([a.key for a in network.activities]))
    network = replace(network, end=end)
    rows = [data.draw(st.lists(st.integers(1, 9), min_size=DRAWS, max_size=DRAWS))
            for _ in network.activities]  # fmt: skip
    rows = points_stay(network, rows, data_date)
    with pytest.MonkeyPatch.context() as patch:
        drawn(network, rows, patch)
        simulator = Simulator(data_date=data_date, draws=DRAWS)
        walk, found = simulator.walk(network, {}), simulator.run(network, {})
    for draw in range(DRAWS):
        plan = solve(with_lengths(network, rows, draw), data_date=data_date)
        for row, activity in enumerate(network.activities):
            if row in walk.finish:
                finish = np.broadcast_to(walk.finish[row], (DRAWS,))[draw]
                assert finish == plan.dates[activity.key].early_finish, activity.key
        check_outcome(found, plan, draw, walk)


@pytest.mark.parametrize(("clock", "done"), [
    ("work", "2031-06-28T17:00"), ("after", "2031-07-12T17:00"), ("project", "2031-06-21T17:00"),
])  # fmt: skip
def test_every_draw_waits_by_the_clock_of_the_lag(clock, done, monkeypatch):
    """Six days of nine hours after Monday, by hand as in test_links.py."""
    wait = link("pour FS skin", 6 * DAY, LagClock(clock))
    network = net(task("pour"), task("skin", DAY, "weekend"), wait, end="skin")
    network = replace(network, project_calendar="always")
    drawn(network, [[DAY] * DRAWS] * 2, monkeypatch)
    assert set(Simulator(data_date=MONDAY, draws=DRAWS).run(network, {}).ready) == {at(done)}


def check_outcome(found, plan, draw, walk):
    event = walk.end_row in walk.board.events
    at = plan.ready_at if event else plan.dates[walk.board.activities[walk.end_row].key][1]
    if at is None:
        assert found is None
    else:
        assert found is not None and found.ready[draw] == at


@laws
@given(under_way(), st.sampled_from((START, SPRING, AUTUMN)), st.data())
def test_what_carries_the_date_is_on_a_longest_path(network, data_date, data):
    """With one draw: the longest path of the plan, and nothing but ties beside it."""
    end = data.draw(st.sampled_from([a.key for a in network.activities]))
    network = replace(network, end=end)
    rows = points_stay(
        network, [[a.remaining or a.duration or 1] for a in network.activities], data_date
    )
    rows = [[max(1, n) if n else 0 for n in row[:1]] for row in rows]
    network = with_lengths(network, rows, 0)
    with pytest.MonkeyPatch.context() as patch:
        drawn(network, rows, patch)
        found = simulate(network, {}, data_date=data_date, draws=1)
    plan = solve(network, data_date=data_date)
    if found is not None:
        held = {key for key, share in found.carried.items() if share}
        assert set(plan.chain) <= held
        assert all(driven(network, plan, key, held) for key in held - {end})


def driven(network, plan, key, held):
    """Whether an activity drives another that carries the date."""
    driving = {d.key for k in held for d in plan.dates[k].drivers}
    ends = {link.key for link in network.links if link.after == network.end}
    return any(
        k.before == key and k.after in held and k.key in driving | ends for k in network.links
    )


@pytest.mark.parametrize("zone", ["America/New_York", "Europe/Berlin", "Australia/Lord_Howe", None])
def test_elapsed_lags_meet_every_clock_change_as_one_by_one(zone):
    first = instant(datetime(2026, 1, 1)) // 1440
    elapsed, single = Elapsed(Zone(zone), first, 400), Zone(zone)
    days = [first + day for day in range(2, 398) if day % 20 == 0 or changes(single, first + day)]
    at = np.array([day * 1440 + minute for day in days for minute in range(0, 1440, 10)])
    for lag in (30, 24 * 60, -45):
        assert elapsed.after(at, lag).tolist() == [single.after(int(a), lag) for a in at]


def changes(zone, day):
    """Whether the clock changes on a day, or on the day before or after it."""
    return zone.after((day - 1) * 1440, 3 * 1440) != (day + 2) * 1440
