"""Dates against a linear program: the least and the greatest solution of the link inequalities."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from schedules.engine import Activity, LagClock, Link, Network, solve

from .strategies import CALENDARS, START, laws, networks, on_one_line

FROM_FINISH, TO_FINISH = ("FS", "FF"), ("FF", "SF")
Row = tuple[str | None, str, int]  # start of the second - start of the first >= number


def inequalities(network: Network) -> Iterator[Row]:
    """What each link says about two starts, in minutes of one line; None is a date that is past."""
    tasks = {activity.key: activity for activity in network.activities}
    for link in network.links:
        before, after = tasks[link.before], tasks[link.after]
        if not overtaken(link, before, after):
            first, add = source(before, link.kind in FROM_FINISH)
            yield first, after.key, add + link.lag - left(after) * (link.kind in TO_FINISH)


def overtaken(link: Link, before: Activity, after: Activity) -> bool:
    """Links that progress has met: into finished work, ahead, or between two begun starts."""
    if after.actual_finish is not None:
        return True
    if after.actual_start is None:
        return False
    unfinished = before.actual_finish is None
    return (after.ahead and unfinished) or (link.kind == "SS" and before.actual_start is not None)


def source(activity: Activity, finish: bool) -> tuple[str | None, int]:
    """Where a link runs from: the start that is sought plus a number, or an actual date."""
    actual = activity.actual_finish if finish else activity.actual_start
    if actual is not None:
        return None, actual - START
    return activity.key, left(activity) if finish else 0


def left(activity: Activity) -> int:
    """What is still to do; the strategies give every begun activity its remainder."""
    return activity.duration if activity.remaining is None else activity.remaining


def program(network: Network, *, until: int | None = None) -> dict[str, int]:
    """The least starts after the data date; with `until` the greatest that finish by then."""
    open_tasks = [a for a in network.activities if a.actual_finish is None]
    column = {activity.key: n for n, activity in enumerate(open_tasks)}
    rows, numbers = [], []
    for first, second, number in inequalities(network):
        row = np.zeros(len(column))
        if first is not None:
            row[column[first]] += 1
        row[column[second]] -= 1
        rows.append(row)
        numbers.append(-number)
    bounds = [(0, None) if until is None else (None, until - left(a)) for a in open_tasks]
    goal = np.full(len(column), 1 if until is None else -1)
    if not open_tasks:
        return {}
    best = linprog(goal, np.array(rows) if rows else None, numbers or None, bounds=bounds)
    assert best.success, best.message
    return {key: round(best.x[n]) for key, n in column.items()}


@laws
@given(st.sampled_from(("always", "short")).flatmap(lambda key: networks(
    keys=(key,), least=1, clocks=(LagClock.WORK,))))  # fmt: skip
def test_early_dates_are_the_least_and_late_dates_the_greatest_solution(network: Network) -> None:
    """Law 8: all four links with lags of both signs, in the working minutes of one calendar."""
    found, line = solve(network, data_date=START), CALENDARS[network.activities[0].calendar].line()
    begin = line.mark(START)
    early = {key: line.mark(d.early_start) - begin for key, d in found.dates.items()}
    late = {key: line.mark(d.late_start) - begin for key, d in found.dates.items()}
    assert early == program(network)
    assert late == program(network, until=line.mark(found.finish) - begin)


@st.composite
def begun(draw: st.DrawFn) -> Network:
    """Work of which some is finished, some in progress, and some of that ahead."""
    network = draw(on_one_line(least=1))
    past = st.integers(START - 9, START)
    activities = []
    for activity in network.activities:
        state = draw(st.sampled_from(("waits", "begun", "ahead", "done")))
        if state == "done":
            first, last = sorted((draw(past), draw(past)))
            activity = replace(activity, actual_start=first, actual_finish=last)
        elif state != "waits":
            activity = replace(activity, actual_start=draw(past), ahead=state == "ahead")
            activity = replace(activity, remaining=draw(st.integers(0, 6)))
        activities.append(activity)
    return replace(network, activities=tuple(activities))


@laws
@given(begun())
def test_under_way_the_least_solution_counts_from_actual_dates(network: Network) -> None:
    """Law 8 with progress: lags from actual dates, met starts, finishes that still bind."""
    plan = solve(network, data_date=START)
    least, most = program(network), program(network, until=max(0, plan.finish - START))
    for activity in network.activities:
        dates = plan.dates[activity.key]
        if activity.key in least:
            finish = START + left(activity)
            assert dates.early_finish == finish + least[activity.key]
            assert dates.late_finish == finish + most[activity.key]
        else:
            assert dates.early_finish == dates.late_finish == activity.actual_finish
