"""Findings about open ends and impossible progress. Open and dangling ends: DCMA-EA PAM 200.1
(2012), section 4, first metric, as restated in trade guides."""

from dataclasses import replace
from datetime import date

from schedules.engine import Calendar, Finding, LagClock, check

from .networks import DAY, HOURS, MONDAY, date_for, link, net, task


def codes(*parts: object, **more: object) -> set[tuple[str, str]]:
    return {(f.code, f.activity) for f in check(net(*parts, **more))}


def test_one_open_start_and_one_open_finish_are_as_they_should_be() -> None:
    assert codes(task("A"), task("B"), link("A FS B")) == set()
    assert codes(task("A"), task("B"), link("A FS B"), end="B") == set()


def test_a_second_open_start_or_finish_is_found() -> None:
    found = codes(task("A"), task("B"), task("C"), link("A FS B"))
    assert ("no_predecessor", "C") in found and ("no_successor", "C") in found


def test_a_task_beside_the_way_to_the_end_is_found() -> None:
    found = codes(task("A"), task("B"), task("C"), link("A FS B"), link("A FS C"), end="B")
    assert found == {("no_successor", "C"), ("no_path_to_end", "C")}


def test_a_start_that_nothing_holds_is_found() -> None:
    assert ("dangling_start", "B") in codes(task("A"), task("B"), link("A FF B"))


def test_a_finish_that_nobody_uses_is_found() -> None:
    found = codes(task("A"), task("B"), link("A SS B"), end="B")
    assert found == {("dangling_finish", "A")}


def test_progress_from_the_future_or_backwards_is_found() -> None:
    wrong = task("A", actual_start=MONDAY + DAY, actual_finish=MONDAY + 1)
    found = check(net(wrong), data_date=MONDAY)
    assert [f.code for f in found] == ["actual_after_data_date", "finish_before_start"]


def test_a_key_date_on_finished_work_is_found() -> None:
    done = task("A", actual_start=0, actual_finish=DAY)
    found = check(net(done, date_for("A", "no_later", "2031-06-28")))
    assert found == (Finding(code="key_date_on_finished", activity="A", key_date="no_later"),)


def test_a_loop_does_not_stop_the_check() -> None:
    found = codes(task("A"), task("B"), task("end"), link("A FS B"), link("B FS A"), end="end")
    assert ("no_path_to_end", "A") in found


def test_estimates_out_of_order_are_found() -> None:
    wrong = (task("A", low=2 * DAY), task("B", high=0), task("C", low=DAY, high=DAY))
    found = [(f.code, f.activity) for f in check(net(*wrong)) if f.code.startswith("est")]
    assert found == [("estimates_out_of_order", "A"), ("estimates_out_of_order", "B")]


def test_work_on_a_calendar_that_is_closed_for_good_is_found() -> None:
    closed = Calendar(key="closed", week=((),) * 7, exceptions={date(2031, 6, 17): ()})
    once = replace(closed, key="once", exceptions={date(2031, 6, 17): HOURS})
    network = net(task("A", calendar="closed"), task("B", calendar="once"))
    found = check(replace(network, calendars={**network.calendars, "closed": closed, "once": once}))
    assert [f.activity for f in found if f.code == "no_working_time"] == ["A"]


def test_a_wait_in_days_of_a_project_that_is_closed_for_good_is_found() -> None:
    closed = Calendar(key="closed", week=((),) * 7)
    wait = link("A FS B", DAY, LagClock.PROJECT)
    network = replace(net(task("A"), task("B"), wait), project_calendar="closed")
    network = replace(network, calendars={**network.calendars, "closed": closed})
    found = [(f.activity, f.link) for f in check(network) if f.code == "no_working_time"]
    assert found == [("B", "A FS B")]
    plain = replace(network, links=(link("A FS B", DAY),))
    assert "no_working_time" not in {f.code for f in check(plain)}


def lags(*parts: object) -> list[tuple[str, str | None]]:
    found = check(net(*parts), data_date=MONDAY)
    return [(f.activity, f.link) for f in found if f.code == "lag_before_start"]


def test_a_lag_that_pushes_before_the_start_is_found() -> None:
    pair = (task("A", 2 * DAY), task("B"))
    assert lags(*pair, link("A FS B", -3 * DAY)) == [("B", "A FS B")]
    assert lags(*pair, link("A SS B", -DAY)) == [("B", "A SS B")]
    assert lags(*pair, link("A FS B", -2 * DAY)) == lags(*pair, link("A SF B")) == []


def test_a_lag_after_work_that_has_begun_is_history() -> None:
    begun = task("A", 2 * DAY, actual_start=MONDAY - 9 * DAY, remaining=DAY)
    assert lags(begun, task("B"), link("A FS B", -3 * DAY)) == []


def test_a_network_that_cannot_be_computed_is_still_checked() -> None:
    parts = task("A"), task("B"), task("C"), link("A FS A", -DAY)
    found = check(net(*parts), data_date=MONDAY)
    assert [f.activity for f in found if f.code == "no_predecessor"] == ["B", "C"]
