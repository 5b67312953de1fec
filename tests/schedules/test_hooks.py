"""What the schedule says on the overview, in the title block and to a slip."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from projects.hooks import Level
from schedules import overview, titleblock
from schedules.models import Hammock, KeyDate, PlanOfRecord, Task
from schedules.plan import plan_days, read, recompute, solve
from schedules.ripples import hire_windows, key_dates
from tests import factories


def test_the_chain_is_listed_with_its_days(place):
    panel = overview.what_carries_the_date(place.project, factories.TODAY)
    assert [(row.text, row.detail) for row in panel.rows] == [
        ("Weld lantern frame (Artist)", "Mon 3 Mar to Fri 14 Mar"),
        ("Cut and sew skin (Artist)", "Mon 17 Mar to Fri 11 Apr"),
    ]
    assert panel.sentence.startswith("45 days in hand.")


def test_each_lane_shows_what_it_does_next(place):
    loft = factories.LaneFactory(project=place.project, name="Third Bell Canvas Loft")
    Task.objects.filter(name__startswith="Cut").update(lane=loft)
    panel = overview.next_actions(place.project, factories.TODAY)
    assert [(row.text, row.detail) for row in panel.rows] == [
        ("Artist: Weld lantern frame", "start by Mon 5 May"),
        ("Third Bell Canvas Loft: Cut and sew skin", "from Mon 17 Mar"),
    ]


def test_a_lane_that_should_have_started_is_told_so(place):
    Task.objects.filter(name__startswith="Weld").update(days=70)
    recompute(place.project, factories.TODAY)
    row = overview.next_actions(place.project, factories.TODAY).rows[0]
    assert row.detail == "should have started by Mon 10 Feb"
    assert row.level == Level.BROKEN


def test_what_is_under_way_comes_with_its_end(place):
    Task.objects.filter(name__startswith="Weld").update(started_on=date(2031, 2, 28))
    recompute(place.project, factories.TODAY)
    row = overview.next_actions(place.project, factories.TODAY).rows[0]
    assert row.detail.startswith("under way, finish by")


@pytest.mark.parametrize(
    ("days", "value", "level"),
    [
        (10, "45 days", Level.HOLDS),
        (53, "2 days", Level.NEAR),
        (58, "late by 3 days", Level.BROKEN),
    ],
)
def test_the_days_in_hand_have_a_colour_and_a_word(place, days, value, level):
    Task.objects.filter(name__startswith="Weld").update(days=days)
    recompute(place.project, factories.TODAY)
    cell = titleblock.in_hand(place.project, factories.TODAY)
    assert (cell.value, cell.level) == (value, level)


def test_the_public_date_counts_down_and_then_up(place):
    cell = titleblock.public_date(place.project, factories.TODAY)
    assert (cell.value, cell.detail) == ("Sat 14 Jun", "103 days")
    assert titleblock.public_date(place.project, date(2031, 6, 14)).detail == "today"
    assert titleblock.public_date(place.project, date(2031, 7, 24)).detail == "opened 40 days ago"


def test_the_plan_of_record_is_named_by_its_letter(place):
    PlanOfRecord.objects.create(
        project=place.project, letter="C", made_by="ada", reason="Agreed", rows={}
    )
    assert titleblock.plan_of_record(place.project, factories.TODAY).value == "Rev C"


def said(place, **fields):
    KeyDate.objects.create(project=place.project, name="Permit", **fields)
    rows = read(place.project, factories.TODAY)
    days = plan_days(rows, solve(rows))
    return [(r.level, r.says) for r in key_dates(place.project, days, days)]


def test_a_permit_must_outlast_the_work(place):
    assert said(place, kind="expiry", on=date(2031, 4, 10)) == [
        (Level.BROKEN, "expires Thu 10 Apr; the work would be done Fri 11 Apr, 1 day after it.")
    ]


def test_a_permit_that_ends_within_three_days_is_near(place):
    [(level, words)] = said(place, kind="expiry", on=date(2031, 4, 14))
    assert level == Level.NEAR
    assert words.endswith("only 3 days before it.")


def test_a_permit_of_one_task_need_only_outlast_that_task(place):
    [(level, words)] = said(place, kind="expiry", on=date(2031, 4, 10), task=place.task("Weld"))
    assert level == Level.HOLDS
    assert "Weld lantern frame would finish Fri 14 Mar: 27 days to spare." in words


def test_a_paper_due_before_its_task_is_done_is_broken(place):
    [(level, words)] = said(place, kind="due", on=date(2031, 3, 13), task=place.task("Weld"))
    assert level == Level.BROKEN
    assert words.startswith("is due Thu 13 Mar")


def test_a_last_day_bounds_its_task(place):
    fields = {"kind": "other", "effect": "no_later", "on": date(2031, 3, 13)}
    assert said(place, task=place.task("Weld"), **fields)[0][0] == Level.BROKEN


def test_a_slot_after_its_task_began_is_broken(place):
    [(level, words)] = said(place, kind="delivery", on=date(2031, 3, 20), task=place.task("Cut"))
    assert level == Level.BROKEN
    assert words == (
        "is booked for Thu 20 Mar; Cut and sew skin would start Mon 17 Mar, before it comes."
    )


def test_a_date_whose_name_says_what_it_is_is_not_said_twice(place):
    KeyDate.objects.create(
        project=place.project, name="Licence expires", kind="expiry", on=date(2031, 7, 1)
    )
    days = plan_days(rows := read(place.project, factories.TODAY), solve(rows))
    [ripple] = key_dates(place.project, days, days)
    assert f"{ripple.subject} {ripple.says}".startswith("Licence expires on Tue 1 Jul;")


def test_a_hearing_breaks_nothing(place):
    assert said(place, kind="hearing", on=date(2031, 3, 4)) == []


def test_a_visit_of_a_task_needs_a_look_when_its_days_move_away(place):
    fields = {"kind": "hearing", "on": date(2031, 3, 17), "effect": "none"}
    [(level, words)] = said(place, task=place.task("Weld"), **fields)
    assert level == Level.NEAR
    assert words == "is on Mon 17 Mar; Weld lantern frame would be 3 to 14 Mar."


def test_a_visit_within_the_days_of_its_task_holds(place):
    fields = {"kind": "hearing", "on": date(2031, 3, 14), "effect": "none"}
    assert said(place, task=place.task("Weld"), **fields)[0][0] == Level.HOLDS


def days_of(place, **changes):
    rows = read(place.project, factories.TODAY)
    return replace(plan_days(rows, solve(rows)), **changes)


def test_a_report_due_before_the_walk_is_broken_once_the_walk_passes_it(place):
    KeyDate.objects.create(
        project=place.project, name="Report", kind="due", on=date(2031, 6, 20), effect="none"
    )
    before = days_of(place)
    [found] = key_dates(place.project, before, days_of(place, public_on=date(2031, 6, 21)))
    assert found.level == Level.BROKEN
    assert found.says == "is due Fri 20 Jun, before Mill Lane Lantern Walk, Sat 21 Jun."
    assert key_dates(place.project, before, before) == []


def lift(place, last):
    maker = factories.SupplierFactory(project=place.project, name="Millrace Lift Hire")
    order = factories.OrderFactory(
        supplier=maker, window_start=date(2031, 3, 3), window_end=date(2031, 4, last)
    )
    lane = factories.LaneFactory(project=place.project, name=maker.name, supplier=maker)
    made = {"project": place.project, "name": "Platform lift", "lane": lane, "order": order}
    hire = Hammock.objects.create(**made)
    hire.from_tasks.add(place.task("Weld"))
    hire.to_tasks.add(place.task("Cut"))
    return hire


def hire_ripples(place, days):
    before = days_of(place)
    Task.objects.filter(name__startswith="Cut").update(days=20 + days)
    return hire_windows(place.project, before, days_of(place))


def test_a_hire_that_would_last_beyond_its_booking_is_broken(place):
    lift(place, 14)
    [found] = hire_ripples(place, 3)
    assert (found.level, found.subject) == (Level.BROKEN, "Platform lift")
    assert found.says == "is booked 3 Mar to 14 Apr; it would last 3 Mar to 16 Apr."


def test_a_hire_that_stays_within_its_booking_is_not_worth_a_word(place):
    lift(place, 30)
    assert hire_ripples(place, 3) == []


def test_a_hire_whose_days_stay_is_not_worth_a_word(place):
    lift(place, 5)
    assert hire_ripples(place, 0) == []
