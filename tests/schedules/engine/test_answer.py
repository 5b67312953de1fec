"""Dates are made when they are asked for, and read like a dict of them."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given

from schedules.engine import Calendar, Network, NoWorkingTime, Plan, solve, times

from .networks import DAY, HOURS, MONDAY, at, date_for, link, net, plan, task
from .strategies import START, laws, networks

PAIR = (task("cut"), task("weld"), link("cut FS weld"))


@laws
@given(networks())
def test_the_four_dates_alone_are_those_of_the_dates(network: Network) -> None:
    found = solve(network, data_date=START)
    assert times(found) == {key: dates[:4] for key, dates in found.dates.items()}
    assert times(replace(found, dates=dict(found.dates))) == times(found)


def test_dates_are_made_once_and_equal_those_of_another_reading() -> None:
    found, again = plan(*PAIR), plan(*PAIR)
    assert found.dates["weld"] is found.dates["weld"]
    assert found == again and found.dates == dict(again.dates)
    assert found != plan(task("cut"), task("weld"), link("cut SS weld"))


def test_dates_read_like_a_dict() -> None:
    found: Plan = plan(*PAIR)
    assert list(found.dates) == ["cut", "weld"] and len(found.dates) == 2
    assert "paint" not in found.dates and found.dates.get("paint") is None
    assert repr(found.dates) == repr(dict(found.dates))
    with pytest.raises(KeyError):
        found.dates["paint"]


def test_a_calendar_that_runs_out_is_refused_at_once_not_when_read() -> None:
    """Whether the data date drives the milestone asks for work before the only day worked."""
    once = Calendar(key="once", week=((),) * 7, exceptions={date(2031, 6, 17): HOURS})
    parts = task("carve", 60, "once"), task("hand", 0, "once"), link("carve FS hand")
    network = replace(net(*parts), calendars={"once": once}, project_calendar="once")
    with pytest.raises(NoWorkingTime):
        solve(network, data_date=MONDAY)


def test_work_may_reach_beyond_the_table_on_either_side() -> None:
    crew = Calendar(key="crew", week=(HOURS,) * 7)
    crew.line(at("2031-06-16"))
    early = at("2021-06-16")
    network = replace(net(task("carve", 2000 * DAY)), calendars={"crew": crew})
    assert solve(network, data_date=early).finish == early + 1999 * 1440 + 1020
    assert solve(network, data_date=MONDAY).finish == MONDAY + 1999 * 1440 + 1020
    assert solve(network, data_date=at("2041-06-16")).dates["carve"].total_float == 0


def test_a_late_start_reaches_back_before_the_table() -> None:
    crew = Calendar(key="crew", week=(HOURS,) * 7)
    parts = task("carve", 2000 * DAY), date_for("carve", "no_later", "2031-06-20")
    network = replace(net(*parts), calendars={"crew": crew})
    found = solve(network, data_date=MONDAY).dates["carve"]
    assert found.late_finish == at("2031-06-19T17:00")
    assert found.late_start == at("2031-06-19T08:00") - 1999 * 1440
