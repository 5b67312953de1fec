"""Finished and started work, retained logic."""

from schedules.engine import LagClock, Reason

from .networks import DAY, MONDAY, at, cure, date_for, link, plan, task

FRIDAY, THURSDAY = at("2031-06-13T17:00"), at("2031-06-12T08:00")
DONE = task("frame", 2 * DAY, actual_start=THURSDAY, actual_finish=FRIDAY)


def test_finished_work_keeps_its_actual_dates_and_has_no_float() -> None:
    found = plan(DONE, task("skin"), link("frame FS skin")).dates["frame"]
    assert (found.early_start, found.late_start) == (THURSDAY, THURSDAY)
    assert (found.early_finish, found.late_finish) == (FRIDAY, FRIDAY)
    assert (found.total_float, found.free_float, found.finished) == (0, 0, True)
    assert found.drivers == ((Reason.ACTUAL, None, THURSDAY),)


def test_work_done_on_a_sunday_stays_on_that_sunday() -> None:
    sunday = at("2031-06-15T12:00")
    found = plan(task("frame", actual_start=sunday, actual_finish=sunday + 90))
    assert found.dates["frame"].early_finish == sunday + 90


def test_a_finish_without_a_start_is_dated_back_by_its_duration() -> None:
    found = plan(task("frame", 2 * DAY, actual_finish=FRIDAY)).dates["frame"]
    assert found.early_start == THURSDAY


def test_a_lag_runs_from_the_actual_finish() -> None:
    found = plan(DONE, task("skin"), cure("frame FS skin", 96))
    assert found.dates["skin"].early_start == at("2031-06-18T08:00")
    assert found.dates["skin"].drivers[0].at == at("2031-06-17T17:00")


def test_unstarted_work_is_not_placed_before_the_data_date() -> None:
    found = plan(DONE, task("skin"), link("frame FS skin")).dates["skin"]
    assert found.early_start == at("2031-06-16T08:00")
    assert Reason.DATA_DATE in {driver.reason for driver in found.drivers}


def test_started_work_goes_on_at_the_data_date_with_what_remains() -> None:
    begun = task("frame", 5 * DAY, actual_start=THURSDAY, remaining=2 * DAY)
    found = plan(begun).dates["frame"]
    assert found.early_start == THURSDAY
    assert found.early_finish == at("2031-06-17T17:00")
    assert found.drivers[0] == (Reason.ACTUAL, None, THURSDAY)


def test_remaining_work_not_given_is_what_the_calendar_leaves_of_it() -> None:
    found = plan(task("frame", 5 * DAY, actual_start=THURSDAY)).dates["frame"]
    assert found.early_finish == at("2031-06-18T17:00")


def test_nothing_remaining_is_done_on_the_data_date_not_before() -> None:
    begun = task("frame", 5 * DAY, actual_start=THURSDAY, remaining=0)
    assert plan(begun).dates["frame"].early_finish == at("2031-06-16T08:00") >= MONDAY


def test_work_begun_out_of_order_waits_with_its_rest() -> None:
    """One-page note on out-of-sequence progress (2010): 5 left and 5 left, in day numbers:
    A ends on day 155, B goes on from 156 to 160 when the data date is day 151."""
    day = 1440
    parts = (
        task("A", 5 * day, "always", actual_start=140 * day, remaining=5 * day),
        task("B", 5 * day, "always", actual_start=145 * day, remaining=5 * day),
        link("A FS B"),
    )
    found = plan(*parts, data_date=150 * day)
    assert found.dates["A"].early_finish == 155 * day
    assert found.dates["B"].early_finish == 160 * day
    assert found.dates["B"].late_start == 155 * day
    assert found.chain == ("A", "B")


def test_a_start_link_between_two_begun_tasks_is_met() -> None:
    begun = {"actual_start": FRIDAY - DAY, "remaining": DAY}
    lag = link("frame SS skin", 9 * DAY)
    both = plan(task("frame", 9 * DAY, **begun), task("skin", 2 * DAY, **begun), lag)
    one = plan(task("frame", 9 * DAY), task("skin", 2 * DAY, **begun), lag)
    assert both.dates["skin"].early_finish == at("2031-06-16T17:00")
    assert one.dates["skin"].early_finish == at("2031-06-27T17:00")


def test_a_finish_link_between_two_begun_tasks_still_binds() -> None:
    parts = (
        task("frame", 9 * DAY, actual_start=THURSDAY, remaining=4 * DAY),
        task("skin", 2 * DAY, actual_start=THURSDAY, remaining=DAY),
        link("frame FF skin"),
    )
    assert plan(*parts).dates["skin"].early_finish == at("2031-06-19T17:00")
    found = plan(*parts, date_for("skin", "no_later", "2031-06-18"))
    assert found.dates["frame"].total_float == -2 * DAY


def test_a_start_link_counts_from_the_actual_start() -> None:
    begun = task("frame", 9 * DAY, actual_start=at("2031-06-13T10:00"), remaining=5 * DAY)
    found = plan(begun, task("skin"), link("frame SS skin", 3 * DAY))
    assert found.dates["skin"].early_start == at("2031-06-18T10:00")
    assert found.dates["skin"].drivers[0].key == "frame SS skin"


def test_history_does_not_move_when_a_predecessor_is_late() -> None:
    late = task("drawings", 5 * DAY)
    found = plan(late, DONE, link("drawings FS frame"))
    assert found.dates["frame"].early_finish == FRIDAY
    assert found.dates["drawings"].total_float == 0


def test_a_key_date_on_begun_work_says_nothing_more_about_its_start() -> None:
    begun = task("frame", 5 * DAY, actual_start=THURSDAY, remaining=2 * DAY)
    found = plan(begun, date_for("frame", "no_earlier", "2031-06-30"))
    assert found.dates["frame"].early_finish == at("2031-06-17T17:00")


def test_float_of_begun_work_is_that_of_its_rest() -> None:
    begun = task("frame", 5 * DAY, actual_start=THURSDAY, remaining=DAY)
    found = plan(begun, task("skin", 3 * DAY)).dates["frame"]
    assert found.total_float == found.free_float == 2 * DAY
    assert found.late_start == at("2031-06-18T08:00")
    assert LagClock.WORK == "work"


def test_with_override_the_rest_of_begun_work_does_not_wait() -> None:
    """The same two tasks: with the override B goes on at once, from 151 to 155. The note
    draws it only; the numbers are our own arithmetic."""
    day = 1440
    parts = (
        task("A", 5 * day, "always", actual_start=140 * day, remaining=5 * day),
        task("B", 5 * day, "always", actual_start=145 * day, remaining=5 * day, ahead=True),
        link("A FS B"),
    )
    found = plan(*parts, data_date=150 * day)
    assert found.dates["B"].early_finish == found.dates["A"].early_finish == 155 * day
    assert found.dates["A"].late_finish == 155 * day
    assert found.chain == ("A",)


def test_override_says_nothing_about_work_that_has_not_begun() -> None:
    for minutes, remaining in ((DAY, None), (DAY, 60), (0, None)):
        skin = task("skin", minutes, ahead=True, remaining=remaining, finish_milestone=False)
        waiting = plan(task("frame", 2 * DAY), skin, link("frame FS skin"), end="skin")
        assert waiting.dates["skin"].early_start == at("2031-06-18T08:00")
        assert waiting.dates["frame"].to_end and waiting.chain == ("frame", "skin")


def test_override_forgets_unfinished_work_but_no_wait_that_runs() -> None:
    begun = task("skin", 5 * DAY, actual_start=FRIDAY - DAY, remaining=DAY, ahead=True)
    parts = (DONE, begun, cure("frame FS skin", 96))
    assert plan(*parts).dates["skin"].early_finish == at("2031-06-18T17:00")
    held = plan(*parts, task("drawings", 20 * DAY), link("drawings FF skin"))
    assert held.dates["skin"].early_finish == at("2031-06-18T17:00")


def test_a_start_still_to_come_is_not_before_itself() -> None:
    """Progress from the future is a finding; its dates stay in order all the same."""
    begun = task("frame", 2 * DAY, actual_start=at("2031-06-18T08:00"))
    found = plan(begun).dates["frame"]
    assert (found.early_start, found.early_finish) == (begun.actual_start, at("2031-06-19T17:00"))
