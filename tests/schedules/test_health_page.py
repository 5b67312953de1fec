"""The plan's health: faults by name, each with the way to mend it."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest

from schedules.models import ChanceResult, KeyDate, Link, Task
from schedules.plan import odds, read, recompute
from schedules.selectors.health import health_sheet
from schedules.services.records import keep_plan
from tests import factories

TODAY = factories.TODAY


@pytest.fixture
def sound(place):
    """A plan in order: the permit leads to the walk, and begins on a day with a reason."""
    permit = place.task("Encroachment")
    permit.not_before, permit.not_before_reason = date(2031, 3, 31), "The office opens in April"
    permit.save()
    factories.LinkFactory(before=permit, after=place.task("Lantern"))
    place.project.tasks.filter(name__startswith="Cut").update(days=15)
    recompute(place.project, TODAY)
    return place


def faults(place):
    found = health_sheet(place.project, TODAY)["groups"]
    return {group.name: [sick.subject for sick in group.sick] for group in found}


def link_of(place):
    return Link.objects.get(after=place.task("Cut"))


def page(ada, place):
    return ada.get(place.url("health")).content.decode()


def test_a_plan_in_order_says_so(sound, ada):
    found = page(ada, sound)
    assert "Everything is in order" in found
    assert "The office opens in April" in found  # the second beginning is explained
    assert "600 working days later. The end follows what carries it." in found
    assert "%" not in found.split('<div id="sheet"')[1].split("<footer")[0]


def test_a_task_beside_the_way_is_tied_to_the_public_date_with_one_press(place, ada):
    permit = place.task("Encroachment")
    assert faults(place)["Nothing waits for it"] == [permit.name]
    answer = ada.post(place.url("health-tie", permit.pk), follow=True)
    assert "“Lantern walk” waits for “Encroachment permit review”" in answer.content.decode()
    assert "Nothing waits for it" not in faults(place)
    assert place.task("Encroachment").to_end


def test_what_follows_the_event_cannot_be_tied_to_it(sound, ada):
    photos = factories.TaskFactory(project=sound.project, name="Photographs")
    factories.LinkFactory(before=sound.task("Lantern"), after=photos)
    answer = ada.post(sound.url("health-tie", photos.pk))
    assert answer.status_code == 409 and "would make a loop" in answer.content.decode()
    assert not Link.objects.filter(before=photos).exists()


def test_a_tie_that_somebody_made_meanwhile_is_not_made_twice(sound, ada):
    answer = ada.post(sound.url("health-tie", sound.task("Encroachment").pk))
    assert answer.status_code == 409 and "already" in answer.content.decode()


@pytest.mark.parametrize(
    ("kind", "lag", "clock", "days"),
    [
        ("FS", 8, "work", "8.00"), ("SS", 8, "work", "8.00"), ("FF", 30, "work", "30.00"),
        ("SF", 30, "work", "30.00"), ("FS", 240, "elapsed", "10.00"),
        ("FS", 8, "after", "8.00"), ("SS", 8, "project", "8.00"),
    ],
)  # fmt: skip
def test_a_long_wait_becomes_a_task_and_no_date_moves(sound, ada, kind, lag, clock, days):
    row = link_of(sound)
    row.kind, row.lag, row.lag_clock, row.reason = kind, Decimal(lag), clock, "zinc weathers"
    row.save()
    recompute(sound.project, TODAY)
    before = sound.task("Cut").early_start, sound.task("Cut").early_finish
    ada.post(sound.url("health-wait", row.pk))
    made = sound.task("Zinc weathers")
    assert (made.waits, str(made.days), made.lane.name) == (True, days, "Artist")
    assert (sound.task("Cut").early_start, sound.task("Cut").early_finish) == before
    assert not Link.objects.filter(pk=row.pk).exists()


def test_a_wait_wants_a_reason_and_has_it_at_once(sound, ada):
    row = link_of(sound)
    Link.objects.filter(pk=row.pk).update(lag=2)
    recompute(sound.project, TODAY)
    assert faults(sound) == {"A wait without a reason": ["Cut and sew skin"]}
    empty = ada.post(sound.url("health-link-reason", row.pk), {"reason": " "})
    assert empty.status_code == 422 and "Write why" in empty.content.decode()
    ada.post(sound.url("health-link-reason", row.pk), {"reason": "paint cures"})
    assert faults(sound) == {} and link_of(sound).reason == "paint cures"
    assert sound.last_log.reason == "paint cures"


def test_too_long_a_reason_stays_in_its_field(sound, ada):
    row = link_of(sound)
    Link.objects.filter(pk=row.pk).update(lag=2)
    answer = ada.post(sound.url("health-link-reason", row.pk), {"reason": "cure " * 30})
    found = answer.content.decode()
    assert answer.status_code == 422 and "at most 120 characters" in found
    assert ("cure " * 30).strip() in found


def test_a_given_day_wants_a_reason_but_the_event_and_a_permit_speak_for_themselves(sound, ada):
    slot = factories.KeyDateFactory(
        project=sound.project, name="Lift slot", kind="delivery", effect="no_earlier",
        on=date(2031, 4, 1), task=sound.task("Cut"),
    )  # fmt: skip
    factories.KeyDateFactory(
        project=sound.project, name="Permit ends", kind="expiry", effect="no_later",
        on=date(2031, 6, 1), task=sound.task("Cut"),
    )  # fmt: skip
    recompute(sound.project, TODAY)
    assert faults(sound) == {"A date without a reason": ["Cut and sew skin"]}
    ada.post(sound.url("health-date-reason", slot.pk), {"reason": "The lift is hired out before"})
    assert KeyDate.objects.get(pk=slot.pk).reason and faults(sound) == {}


def test_a_first_day_gets_its_reason_here(sound, ada):
    task = sound.task("Encroachment")
    Task.objects.filter(pk=task.pk).update(not_before_reason="")
    assert "A date without a reason" in faults(sound)
    ada.post(sound.url("health-start-reason", task.pk), {"reason": "The office opens in April"})
    assert faults(sound) == {}


def test_a_day_still_to_come_becomes_today(sound, ada):
    task = sound.task("Weld")
    Task.objects.filter(pk=task.pk).update(started_on=TODAY + timedelta(days=3))
    assert faults(sound)["Marked done on a day still to come"] == [task.name]
    ada.post(sound.url("health-today", task.pk))
    assert sound.task("Weld").started_on == TODAY
    assert "Marked done on a day still to come" not in faults(sound)


def test_what_was_started_today_has_happened(sound):
    Task.objects.filter(pk=sound.task("Weld").pk).update(started_on=TODAY)
    assert faults(sound) == {}


def test_a_task_finished_before_it_started_is_named(sound):
    Task.objects.filter(pk=sound.task("Weld").pk).update(
        started_on=TODAY - timedelta(days=3), finished_on=TODAY - timedelta(days=5)
    )
    assert faults(sound) == {"Finished before it started": ["Weld lantern frame"]}


def test_a_calendar_that_is_never_open_is_named_though_it_leaves_no_plan(sound, ada):
    shut = factories.CalendarFactory(
        project=sound.project, name="Shut", is_default=False, weekdays="0" * 7
    )
    Task.objects.filter(pk=sound.task("Cut").pk).update(calendar=shut)
    (group,) = health_sheet(sound.project, TODAY)["groups"]
    assert group.name == "Its calendar is never open"
    assert [sick.subject for sick in group.sick] == ["Cut and sew skin"]


def test_a_missed_date_tells_the_days_and_what_drives_it(sound, ada):
    KeyDate.objects.filter(pk=sound.public.pk).update(on=date(2031, 4, 2))
    sound.project.tasks.filter(name__startswith="Encroachment").update(not_before=None)
    recompute(sound.project, TODAY)
    found = page(ada, sound)
    assert "Missed by 3 working days. What drives it: “Weld lantern frame”" in found
    assert "working days of work on the longest way" in found
    assert found.index("A date is missed") < found.index("It waits for nothing")


@pytest.mark.parametrize("name", ["Nobody", "TBD", "?", "Metal fabricator"])
def test_a_lane_that_names_nobody_is_asked_for_once(sound, name):
    lane = sound.project.lanes.get()
    lane.name = name
    lane.save()
    assert faults(sound) == {"Nobody does it": [name]}
    lane.supplier = factories.SupplierFactory(project=sound.project)
    lane.save()
    assert faults(sound) == {}


def test_a_long_task_is_split_or_said_to_wait_or_has_a_note(sound, ada):
    Task.objects.filter(pk=sound.task("Cut").pk).update(days=16)
    assert faults(sound) == {"Too long to follow": ["Cut and sew skin"]}
    ada.post(sound.url("health-waits", sound.task("Cut").pk))
    assert sound.task("Cut").waits and faults(sound) == {}
    Task.objects.filter(pk=sound.task("Cut").pk).update(waits=False, note="One bolt of cloth")
    assert faults(sound) == {}
    assert "One bolt of cloth" in page(ada, sound)


def test_due_tasks_are_counted_and_named_not_shared(sound, ada):
    user = factories.user("ada")
    keep_plan(project=sound.project, user=user, today=TODAY, reason="As promised")
    later = date(2031, 3, 18)
    found = {figure.name: figure for figure in health_sheet(sound.project, later)["figures"]}
    due = found["Due and done"]
    assert due.value == "0 of 1 due task done"
    assert due.says == "by Rev A; 0 on or before their day. Later than kept: “Weld lantern frame”."


def test_the_day_of_eight_in_ten_is_told_while_the_draws_hold(sound):
    at = 480 + (date(2031, 6, 2) - date(2000, 1, 1)).days * 1440
    basis = odds.basis(read(sound.project, TODAY))
    data = {"basis": basis, "points": [[50, at - 1440], [80, at]]}
    ChanceResult.objects.create(project=sound.project, basis=basis, data=data)
    figures = {f.name: f.value for f in health_sheet(sound.project, TODAY)["figures"]}
    assert figures["Ready by"] == "Mon 2 Jun"
    Task.objects.filter(pk=sound.task("Weld").pk).update(days=11)
    figures = {f.name: f.value for f in health_sheet(sound.project, TODAY)["figures"]}
    assert "Ready by" not in figures


def test_from_a_fault_to_its_form_and_back(sound, ada):
    Task.objects.filter(pk=sound.task("Cut").pk).update(days=16)
    task = sound.task("Cut")
    opened = ada.get(sound.url("task-edit", task.pk), {"from": "health"}).content.decode()
    assert "Back to the health of the plan" in opened
    sent = {"name": task.name, "lane": task.lane_id, "days": "12", "phase": ""}
    answer = ada.post(sound.url("task-edit", task.pk), sent)
    assert answer.status_code == 302 and answer.url == sound.url("health")
    assert "Back to the health" not in ada.get(sound.url("schedule")).content.decode()


def test_a_reader_sees_the_faults_without_the_ways_to_mend_them(place, cyd):
    found = cyd.get(place.url("health")).content.decode()
    assert "Nothing waits for it" in found and "Tie it to the public date" not in found


def test_an_empty_project_is_told_what_belongs_here(project, owner):
    found = owner.get(f"/projects/{project.pk}/schedule/health/").content.decode()
    assert "Nothing is planned yet" in found and "Go to the tasks" in found


def test_queries_do_not_grow_with_the_faults(place, ada, django_assert_max_num_queries):
    with django_assert_max_num_queries(60) as counted:
        ada.get(place.url("health"))
    asked = len(counted.captured_queries)
    for n in range(10):
        factories.TaskFactory(project=place.project, name=f"Step {n}")
    recompute(place.project, TODAY)
    with django_assert_max_num_queries(asked):
        ada.get(place.url("health"))
