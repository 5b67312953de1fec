"""The four links, lags and several calendars."""

from dataclasses import replace

import pytest

from schedules.engine import DuplicateLink, LagClock, Plan, solve

from .networks import DAY, MONDAY, at, cure, link, net, plan, task

HOUR = 60


def always(key: str, minutes: int) -> object:
    return task(key, minutes, "always")


def starts(found: Plan) -> dict[str, int]:
    return {key: dates.early_start for key, dates in found.dates.items()}


def test_start_and_finish_links_between_the_same_two_are_both_kept() -> None:
    """Mubarak, Construction Project Scheduling and Control, web reading copy p. 121."""
    found = plan(
        always("A", 5), always("B", 7), always("C", 3),
        link("A SS B"), link("A FF B"), link("B SS C"), link("B FF C"),
        data_date=0,
    )  # fmt: skip
    assert starts(found) == {"A": 0, "B": 0, "C": 4}
    assert found.dates["A"].late_finish == 5


@pytest.mark.parametrize(
    ("text", "lag", "start"),
    [
        ("A FS B", 2, 12),
        ("A FS B", -2, 8),
        ("A SS B", 3, 3),
        ("A FF B", 1, 7),
        ("A SF B", 9, 5),
        ("A SF B", 0, 0),
    ],
)
def test_each_link_bounds_the_start_in_its_own_way(text: str, lag: int, start: int) -> None:
    """A lasts 10 and B 4, from instant 0; our own arithmetic."""
    found = plan(always("A", 10), always("B", 4), link(text, lag), data_date=0)
    assert found.dates["B"].early_start == start


def test_a_finish_link_means_no_earlier_not_at_once() -> None:
    found = plan(always("A", 2), always("B", 9), link("A FF B"), data_date=0)
    assert found.dates["B"].early_finish == 9


def test_volunteers_finish_on_sunday_and_the_crew_goes_on_on_monday() -> None:
    """With one shared calendar the middle task would wait for Monday."""
    found = plan(
        task("frame", 5 * DAY), task("skin", DAY, "weekend"), task("hang"),
        link("frame FS skin"), link("skin FS hang"),
    )  # fmt: skip
    assert found.dates["frame"].early_finish == at("2031-06-20T17:00")
    assert found.dates["skin"].early_start == at("2031-06-21T08:00")
    assert found.dates["hang"].early_start == at("2031-06-23T08:00")
    assert found.dates["frame"].total_float == 0


def test_float_is_counted_in_the_working_time_of_its_own_calendar() -> None:
    found = plan(task("frame"), task("skin", DAY, "weekend"), link("frame FS skin"))
    assert found.dates["frame"].total_float == 4 * DAY
    assert found.dates["frame"].late_finish == at("2031-06-20T17:00")


def test_paint_dries_on_a_weekend_but_not_as_working_days() -> None:
    """Finish Thursday 2 July 2026 at 16:00; 3 July is taken as a working day here."""
    parts = (task("paint", 8 * HOUR, "crew"), task("seal"))
    elapsed = plan(*parts, cure("paint FS seal", 72), data_date=at("2026-07-02"))
    working = plan(*parts, link("paint FS seal", 3 * DAY), data_date=at("2026-07-02"))
    assert elapsed.dates["seal"].early_start == at("2026-07-06T08:00")
    assert working.dates["seal"].early_start == at("2026-07-07T16:00")


def test_a_lag_in_working_time_runs_on_the_calendar_of_the_predecessor() -> None:
    found = plan(task("notice", DAY), task("watch", 60, "always"), link("notice FS watch", DAY))
    assert found.dates["watch"].early_start == at("2031-06-17T17:00")


@pytest.mark.parametrize(
    ("clock", "ends", "starts", "late"),
    [
        ("work", "2031-06-24T17:00", "2031-06-28T08:00", "2031-06-19T17:00"),
        ("after", "2031-07-06T17:00", "2031-07-12T08:00", "2031-06-20T17:00"),
        ("project", "2031-06-18T23:00", "2031-06-21T08:00", "2031-06-18T17:00"),
    ],
)
def test_six_days_of_nine_hours_end_on_the_day_of_the_calendar_that_counts_them(
    clock: str, ends: str, starts: str, late: str
) -> None:
    """The crew ends on Monday, volunteers follow, the project never sleeps. By hand:

    six weekdays end on the Tuesday after, six weekend days on the third Sunday, 54 hours on
    Wednesday night. Back from the start: the crew's six weekdays are free from Friday 20 June
    at 8:00, the weekend days from Saturday 21 June, the hours from Thursday 19 June at 2:00.
    """
    wait = link("pour FS skin", 6 * DAY, LagClock(clock))
    network = replace(net(task("pour"), task("skin", DAY, "weekend"), wait), zone=None)
    found = solve(replace(network, project_calendar="always"), data_date=MONDAY).dates
    assert found["skin"].drivers[0].at == at(ends)
    assert found["skin"].early_start == at(starts)
    assert found["pour"].late_finish == at(late)


def test_one_pair_may_wait_by_every_clock_but_by_none_twice() -> None:
    every = [replace(link("pour FS skin", DAY, c), key=c.value) for c in LagClock]
    pair = task("pour"), task("skin", DAY, "weekend")
    assert plan(*pair, *every).dates["skin"].early_start == at("2031-06-22T08:00")
    with pytest.raises(DuplicateLink):
        plan(*pair, *every, link("pour FS skin", 2 * DAY, LagClock.SUCCESSOR))


def test_a_finish_held_by_a_weekend_takes_the_next_working_minute() -> None:
    """The crew's finish may not come before the volunteers' on Saturday evening."""
    found = plan(
        task("sew", DAY, "weekend"), task("check"), link("sew FF check"),
        data_date=at("2031-06-20"),
    )  # fmt: skip
    assert found.dates["sew"].early_finish == at("2031-06-21T17:00")
    assert found.dates["check"].early_finish == at("2031-06-23T08:01")


def test_the_watch_ends_where_the_next_shift_begins() -> None:
    """Start to finish: the watch may end once work has started."""
    found = plan(
        task("rest", 3 * DAY), task("work"), task("watch", 60, "always"),
        link("rest FS work"), link("work SF watch"),
    )  # fmt: skip
    assert found.dates["watch"].early_finish == found.dates["work"].early_start
    assert found.dates["work"].early_start == at("2031-06-19T08:00")


def test_a_handover_between_shifts_of_one_calendar_needs_no_extra_minute() -> None:
    found = plan(
        task("old", 2 * DAY), task("wait", 2 * DAY), task("new"),
        link("wait FS new"), link("new SF old"),
    )  # fmt: skip
    assert found.dates["old"].early_finish == at("2031-06-17T17:00")


def test_a_finish_milestone_closes_friday_and_a_start_milestone_opens_monday() -> None:
    """Contractor's pocket scheduling guide (2012), section 2.2: Done falls on the finish day."""
    found = plan(
        task("work", 5 * DAY), task("done", 0), task("begin", 0, finish_milestone=False),
        link("work FS done"), link("work FS begin"),
    )  # fmt: skip
    assert found.dates["done"].early_start == at("2031-06-20T17:00")
    assert found.dates["begin"].early_start == at("2031-06-23T08:00")


def test_the_late_date_of_a_finish_milestone_is_shown_where_work_ends() -> None:
    found = plan(
        task("work", 5 * DAY), task("done", 0), task("next"),
        link("work FS done"), link("done FS next"),
    )  # fmt: skip
    assert found.dates["next"].late_start == at("2031-06-23T08:00")
    assert found.dates["done"].late_start == at("2031-06-20T17:00")


def test_a_milestone_waits_for_working_time_of_its_calendar() -> None:
    parts = (task("pour", 5 * DAY), cure("pour FS cured", 24))
    office = plan(*parts, task("cured", 0))
    clock = plan(*parts, task("cured", 0, "always"))
    assert office.dates["cured"].early_finish == at("2031-06-23T08:00")
    assert clock.dates["cured"].early_finish == at("2031-06-21T17:00")


def test_a_milestone_does_not_take_float_from_the_wait_before_it() -> None:
    found = plan(
        task("pour", 5 * DAY), task("wait", 24 * HOUR, "always"), task("cured", 0), task("load"),
        link("pour FS wait"), link("wait FS cured"), link("cured FS load"),
    )  # fmt: skip
    assert found.dates["wait"].total_float == at("2031-06-23T08:00") - at("2031-06-21T17:00")
    assert found.dates["pour"].total_float == 0


def test_free_float_ends_at_the_first_of_several_successors() -> None:
    found = plan(
        task("cut"), task("dig", 5 * DAY), task("weld"), task("set"),
        link("cut FS weld"), link("cut FS set"), link("dig FS set"),
    )  # fmt: skip
    assert (found.dates["cut"].free_float, found.dates["cut"].total_float) == (0, 4 * DAY)
    assert (found.dates["weld"].free_float, found.dates["dig"].free_float) == (4 * DAY, 0)
