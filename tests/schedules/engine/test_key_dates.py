"""Events, imposed dates, several ends, days in hand."""

from dataclasses import replace

import pytest

from schedules.engine import KeyDate, KeyDateRole, Reason, critical, solve

from .networks import CALENDARS, CREW, DAY, MONDAY, at, date_for, link, net, plan, task

PARTS = (
    task("frame", 2 * DAY), task("skin", 3 * DAY), task("walk", 0),
    link("frame FS skin"), link("skin FS walk"),
)  # fmt: skip


def test_an_event_happens_at_its_hour_whatever_the_calendar() -> None:
    walk = date_for("walk", "event", "2031-06-28T18:00")
    found = plan(*PARTS, walk, end="walk")
    assert found.dates["walk"].early_start == at("2031-06-28T18:00") == found.finish
    assert found.dates["walk"].drivers == ((Reason.KEY_DATE, "event", at("2031-06-28T18:00")),)


def test_days_in_hand_run_from_the_last_work_to_the_event() -> None:
    found = plan(*PARTS, date_for("walk", "event", "2031-06-28T18:00"), end="walk")
    assert found.ready_at == at("2031-06-20T17:00")
    assert found.in_hand == 5 * DAY
    assert found.dates["frame"].total_float == 5 * DAY
    assert found.dates["frame"].late_start == at("2031-06-23T08:00")


def test_the_chain_into_an_event_is_traced_from_the_work_not_from_its_date() -> None:
    found = plan(*PARTS, date_for("walk", "event", "2031-06-28T18:00"), end="walk")
    assert found.chain == ("frame", "skin", "walk")
    assert found.chain_links == ("frame FS skin", "skin FS walk")


def test_a_late_plan_keeps_honest_early_dates_and_negative_float() -> None:
    found = plan(*PARTS, date_for("walk", "event", "2031-06-18T18:00"), end="walk")
    assert found.dates["skin"].early_finish == at("2031-06-20T17:00")
    assert found.dates["walk"].early_start == at("2031-06-20T17:00")
    assert found.in_hand == found.dates["frame"].total_float == -2 * DAY
    assert found.dates["frame"].late_start == at("2031-06-12T08:00")


def test_five_days_short_all_along_the_chain() -> None:
    """Contractor's pocket scheduling guide (2012), section 2.2: ends 31 August, due 24 August."""
    found = plan(
        task("A", 10 * DAY), task("B", 20 * DAY), task("C", 10 * DAY),
        link("A FS B"), link("B FS C"), date_for("C", "no_later", "2012-08-25"),
        data_date=at("2012-07-09"),
    )  # fmt: skip
    assert [found.dates[key].total_float for key in "ABC"] == [-5 * DAY] * 3
    assert found.dates["C"].early_finish == at("2012-08-31T17:00")
    assert [found.dates[key].free_float for key in "ABC"] == [0, 0, 0]


def test_lateness_on_a_saturday_evening_is_not_lost_between_working_hours() -> None:
    parts = (task("sew", 3 * 60, "weekend"), task("walk", 0), link("sew FS walk"))
    walk = date_for("walk", "event", "2031-06-21T09:00")
    found = plan(*parts, walk, end="walk")
    assert found.ready_at == at("2031-06-21T11:00")
    assert found.in_hand == -2 * 60


def test_an_event_with_a_length_runs_on_by_the_wall_clock() -> None:
    walk = date_for("walk", "event", "2031-06-28T18:00")
    found = plan(task("walk", 4 * 60), task("strike"), walk, link("walk FS strike"))
    assert found.dates["walk"].early_finish == at("2031-06-28T22:00")
    assert found.dates["walk"].late_start == at("2031-06-28T18:00")
    assert found.dates["strike"].early_start == at("2031-06-30T08:00")


def test_a_start_not_before_a_saturday_is_a_start_on_monday() -> None:
    found = plan(task("hang"), date_for("hang", "no_earlier", "2031-06-21"))
    assert found.dates["hang"].early_start == at("2031-06-23T08:00")
    assert found.dates["hang"].drivers == ((Reason.KEY_DATE, "no_earlier", at("2031-06-21")),)


def test_a_deadline_never_moves_an_early_date() -> None:
    free, bound = plan(task("hang", 3 * DAY)), date_for("hang", "no_later", "2031-06-18")
    found = plan(task("hang", 3 * DAY), bound)
    assert found.dates["hang"].early_finish == free.dates["hang"].early_finish
    assert found.dates["hang"].total_float == -DAY
    assert found.dates["hang"].late_finish == at("2031-06-17T17:00")


ENDS = (
    task("B", 7 * DAY), task("A", 3 * DAY), task("C", 5 * DAY), task("D", 3 * DAY),
    task("E", 2 * DAY), task("F", 3 * DAY), task("G", 7 * DAY),
    link("A FS C"), link("A FS D"), link("D FS E"), link("D FS G"),
    link("B FS F"), link("C FS F"), link("E FS F"),
)  # fmt: skip


def test_two_open_ends_are_measured_to_the_later_or_to_the_chosen_one() -> None:
    """Network of the published row cpm-renovation-13: F ends at 11, G at 13."""
    project, chosen = plan(*ENDS), plan(*ENDS, end="F")
    assert project.dates["F"].total_float == 2 * DAY
    assert chosen.dates["F"].total_float == chosen.dates["C"].total_float == 0
    assert [key for key, dates in chosen.dates.items() if not dates.to_end] == ["G"]
    assert (project.chain, chosen.chain) == (("A", "D", "G"), ("A", "C", "F"))


def test_what_does_not_lead_to_the_end_does_not_press_on_what_does() -> None:
    walk = (task("walk", 0), link("F FS walk"), date_for("walk", "event", "2031-07-02T12:00"))
    chosen = plan(*ENDS, *walk, end="walk")
    assert chosen.dates["G"].total_float == 0
    assert chosen.dates["D"].total_float == chosen.dates["E"].total_float > 0


def test_a_deadline_off_the_path_still_presses_on_what_leads_to_it() -> None:
    chosen = plan(*ENDS, date_for("G", "no_later", "2031-06-28"), end="F")
    assert chosen.dates["G"].total_float == chosen.dates["D"].total_float == -3 * DAY


def test_without_a_chosen_end_there_is_nothing_in_hand() -> None:
    found = plan(*ENDS)
    assert (found.ready_at, found.in_hand) == (None, None)
    assert found.finish == found.dates["G"].early_finish


def test_an_end_without_links_is_never_ready() -> None:
    found = plan(task("walk", 0), date_for("walk", "event", "2031-06-28T18:00"), end="walk")
    assert (found.ready_at, found.in_hand, found.chain) == (None, None, ("walk",))


def test_the_critical_set_is_that_of_the_least_float() -> None:
    """An imposed finish moves every float: zero float would name nobody but the event."""
    found = plan(*PARTS, date_for("walk", "event", "2031-06-28T18:00"), end="walk")
    assert critical(found, leave_out={"walk"}) == ("frame", "skin")
    assert critical(found) == ("walk",)


def test_a_near_critical_band_takes_in_more() -> None:
    found = plan(*ENDS)
    assert critical(found, within=2 * DAY) == ("A", "C", "D", "E", "F", "G")


@pytest.mark.parametrize("role", list(KeyDateRole))
def test_a_key_date_before_the_data_date_pulls_nothing_back(role: KeyDateRole) -> None:
    past = KeyDate(key="past", activity="hang", at=MONDAY - 7 * 1440, role=role)
    found = plan(task("hang"), past)
    assert found.dates["hang"].early_start >= MONDAY
    assert CREW.snap(MONDAY) == at("2031-06-16T08:00")


def test_work_that_nothing_waits_for_any_more_has_no_path_to_the_end() -> None:
    """Its link was overtaken: what comes after it is finished, or does not wait."""
    over = {"actual_start": MONDAY - 9 * 1440, "actual_finish": MONDAY - 1440}
    begun = {"actual_start": MONDAY - 9 * 1440, "remaining": DAY, "ahead": True}
    for skin in (task("skin", **over), task("skin", **begun)):
        found = plan(task("frame"), skin, task("walk", 0), link("frame FS skin"),
                     link("skin FS walk"), end="walk")  # fmt: skip
        assert [key for key, dates in found.dates.items() if not dates.to_end] == ["frame"]


@pytest.mark.parametrize("around", [-4000, 4000])
def test_an_overtaken_link_bounds_nothing_wherever_its_calendar_was_laid(around: int) -> None:
    crew = replace(CREW)
    crew.line(MONDAY + around * 1440)
    begun = {"actual_start": MONDAY - 9 * 1440, "remaining": DAY, "ahead": True}
    parts = (task("frame"), task("skin", **begun), task("walk", 0))
    links = (link("frame FS skin"), link("skin FS walk"))
    network = replace(net(*parts, *links, end="walk"), calendars={**CALENDARS, "crew": crew})
    dates = solve(network, data_date=MONDAY).dates["frame"]
    assert (dates.to_end, dates.late_finish) == (False, at("2031-06-16T17:00"))


def test_finished_work_keeps_its_path_to_the_end() -> None:
    over = {"actual_start": MONDAY - 9 * 1440, "actual_finish": MONDAY - 1440}
    found = plan(task("frame", **over), task("skin", **over), task("walk", 0),
                 link("frame FS skin"), link("skin FS walk"), end="walk")  # fmt: skip
    assert all(dates.to_end for dates in found.dates.values())
