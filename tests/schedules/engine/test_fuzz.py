"""Any network at all is refused in the engine's own words, or answered with a sound plan.

A few seconds in the usual run; with GIORNATA_FUZZ_SECONDS so many seconds of new networks
(scripts/nightly). GIORNATA_FUZZ_SEED repeats a night.
"""

import os
from contextlib import suppress
from datetime import date
from itertools import count, pairwise
from time import monotonic

from hypothesis import HealthCheck, given, seed, settings

from schedules.engine import (
    Activity,
    Dates,
    KeyDateRole,
    LagClock,
    Link,
    LinkKind,
    Network,
    NoWorkingTime,
    Plan,
    ScheduleError,
    Zone,
    check,
    critical,
    near_critical,
    out_of_sequence,
    solve,
    times,
)

from .wild import wild

BATCH = 150
quiet = settings(
    deadline=None, max_examples=BATCH, database=None, suppress_health_check=list(HealthCheck)
)


def test_any_network_is_refused_in_words_or_answered_soundly() -> None:
    seconds = float(os.environ.get("GIORNATA_FUZZ_SECONDS", "0"))
    night = date.today().toordinal() * 10_000 if seconds else 0
    first, until = int(os.environ.get("GIORNATA_FUZZ_SEED", night)), monotonic() + seconds
    for number in count(first):
        seed(number)(quiet(given(wild())(refused_or_sound)))()
        if monotonic() >= until:
            return


def refused_or_sound(given_in: tuple[Network, int]) -> None:
    network, data_date = given_in
    codes = {finding.code for finding in check(network, data_date=data_date)}
    try:
        plan = solve(network, data_date=data_date)
    except ScheduleError as error:
        assert error.code != "schedule" and str(error).endswith(".")
        return
    for activity in network.activities:
        is_placed(network, activity, plan.dates[activity.key], data_date)
    for link in network.links:
        is_kept(network, link, plan)
    is_joined(network, plan, data_date)
    read_apart(network, plan, data_date)
    assert ("no_path_to_end" in codes) <= any(not d.to_end for d in plan.dates.values())


def is_placed(network: Network, activity: Activity, dates: Dates, data_date: int) -> None:
    """Dates in order, of the right length, never before the data date; floats in order."""
    events = {k.activity for k in network.key_dates if k.role is KeyDateRole.EVENT}
    assert dates.drivers and dates.finished == (activity.actual_finish is not None)
    assert 0 <= dates.independent_float <= dates.free_float <= max(0, dates.total_float)
    if activity.actual_finish is not None:
        assert dates.early_finish == dates.late_finish == activity.actual_finish
        assert dates.total_float == 0
        return
    assert data_date <= dates.early_finish and dates.early_start <= dates.early_finish
    assert (dates.total_float < 0) == (dates.late_finish < dates.early_finish)
    if activity.actual_start is not None:
        assert dates.early_start == activity.actual_start
        return
    calendar = network.calendars[activity.calendar]
    wall = dates.early_finish - dates.early_start
    worked = calendar.between(dates.early_start, dates.early_finish)
    assert (wall if activity.key in events else worked) == activity.duration
    for held in network.key_dates:
        if held.activity == activity.key and held.role is not KeyDateRole.NO_LATER:
            assert dates.early_start >= held.at


def is_kept(network: Network, link: Link, plan: Plan) -> None:
    """What an unbegun or unfinished successor shows of a link, in the words of the link."""
    tasks = {a.key: a for a in network.activities}
    before, after = tasks[link.before], tasks[link.after]
    to_finish = link.kind in (LinkKind.FF, LinkKind.SF)
    seen = after.actual_start is None or (to_finish and not after.ahead)
    if after.actual_finish is not None or not seen or (link.kind is LinkKind.SF and not link.lag):
        return
    source = plan.dates[before.key][link.kind in (LinkKind.FS, LinkKind.FF)]
    target = plan.dates[after.key][to_finish]
    counted = {
        LagClock.WORK: before.calendar,
        LagClock.SUCCESSOR: after.calendar,
        LagClock.PROJECT: network.project_calendar,
    }
    if link.lag and link.clock in counted:
        assert network.calendars[counted[link.clock]].between(source, target) >= link.lag
    else:
        assert target >= Zone(network.zone).after(source, link.lag)


def is_joined(network: Network, plan: Plan, data_date: int) -> None:
    """The chain leads into the end by links that drive; the four dates are those of the plan."""
    links = {link.key: link for link in network.links}
    assert times(plan) == {key: dates[:4] for key, dates in plan.dates.items()}
    if not plan.chain:
        assert not network.activities and plan.finish == data_date
        return
    end = network.end or plan.chain[-1]
    assert plan.chain[-1] == end and plan.dates[end].early_finish == plan.finish
    if len(links) == len(network.links):
        joined = [(links[key].before, links[key].after) for key in plan.chain_links]
        assert joined == list(pairwise(plan.chain))


def read_apart(network: Network, plan: Plan, data_date: int) -> None:
    """The other readings of the same plan agree with it."""
    first = critical(plan)
    near = near_critical(network, plan, data_date=data_date)
    assert not set(first) & set(near)
    open_keys = {key for key, dates in plan.dates.items() if dates.to_end and not dates.finished}
    assert {*first, *near} <= open_keys and bool(first) == bool(open_keys)
    with suppress(NoWorkingTime):  # a lag into finished work may run on a closed calendar
        for each in out_of_sequence(network, data_date=data_date):
            assert (each.rule == "actual") == plan.dates[each.activity].finished
