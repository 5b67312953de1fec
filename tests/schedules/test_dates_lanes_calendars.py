"""Key dates, lanes, calendars and plans of record."""

from __future__ import annotations

from datetime import date

import pytest

from schedules.models import Calendar, KeyDate, PlanOfRecord
from tests import factories

HTMX = {"HX-Request": "true"}


def key_date(**changes):
    base = {"name": "Permit", "kind": "expiry", "on": "2031-07-01", "at": "", "task": ""}
    return base | {"effect": "none", "movable": "on"} | changes


def public(place, **changes):
    row = place.public
    base = {"name": row.name, "kind": "public", "on": row.on.isoformat(), "at": ""}
    return base | {"task": row.task_id, "effect": "event", "movable": "on"} | changes


def test_a_key_date_is_added_and_written_down(place, ada):
    ada.post(place.url("key-date-add"), key_date())
    assert KeyDate.objects.get(name="Permit").on == date(2031, 7, 1)
    assert place.last_log.sentence == "Added the key date “Permit” on Tue 1 Jul 2031."


def test_a_later_walk_gives_days_in_hand_at_once(place, ada):
    url = place.url("key-date-edit", place.public.pk)
    page = ada.post(url, public(place, on="2031-06-21"), headers=HTMX).content.decode()
    assert "50 days in hand" in page
    assert "day from Sat 14 Jun 2031 to Sat 21 Jun 2031" in place.last_log.sentence


def test_a_walk_that_is_over_may_keep_its_date(place, ada):
    place.project.key_dates.update(on=date(2031, 2, 1))
    url = place.url("key-date-edit", place.public.pk)
    assert ada.post(url, public(place, name="Lantern Walk")).status_code == 302
    assert ada.post(url, public(place, on="2031-02-02")).status_code == 422


BAD = [
    (key_date(on="2031-02-30"), "There is no such day."),
    (key_date(on="1031-02-03"), "Choose a day between the years 2000 and 2100."),
    (key_date(effect="no_later"), "Choose the task that this date acts on."),
    (key_date(kind="public", on="2031-08-01"), "The public date is already “Mill Lane Lantern"),
    (key_date(kind="public", on="2031-02-01"), "A public date cannot be in the past."),
    (key_date(at="25:00"), "Write a time of day"),
    (key_date(name="x" * 100_000), "Use at most 120 characters"),
]


@pytest.mark.parametrize(("data", "said"), BAD)
def test_a_key_date_that_cannot_be_is_refused(place, ada, data, said):
    answer = ada.post(place.url("key-date-add"), data, headers=HTMX)
    assert answer.status_code == 422
    assert said in answer.content.decode()
    assert KeyDate.objects.count() == 1


def test_a_removed_public_date_leaves_a_plan_without_days_in_hand(place, ada):
    ada.post(place.url("key-date-delete", place.public.pk))
    assert place.in_hand is None


def test_lanes_are_added_ordered_and_tied_to_a_supplier(place, ada):
    maker = factories.SupplierFactory(project=place.project)
    ada.post(place.url("lane-add"), {"name": "Saltglaze Metalworks", "supplier": maker.pk})
    lane = place.project.lanes.get(name="Saltglaze Metalworks")
    assert lane.supplier == maker
    ada.post(place.url("lane-move", lane.pk), {"way": "up"})
    assert [row.name for row in place.project.lanes.all()] == ["Saltglaze Metalworks", "Artist"]
    answer = ada.post(place.url("lane-move", lane.pk), {"way": "up"}, headers=HTMX)
    assert "Saltglaze Metalworks is already first." in answer.content.decode()


def test_two_lanes_cannot_have_one_name(place, ada):
    answer = ada.post(place.url("lane-add"), {"name": "Artist", "supplier": ""})
    assert answer.status_code == 422
    assert "There is already a lane called “Artist”." in answer.content.decode()


def test_a_lane_that_holds_tasks_is_kept(place, ada):
    lane = place.project.lanes.get()
    page = ada.post(place.url("lane-delete", lane.pk), headers=HTMX).content.decode()
    assert "Artist still holds 4 tasks. Move them to another lane first." in page
    assert place.project.lanes.count() == 1


def calendar(**changes):
    base = {"name": "Weekend volunteers", "opens": "09:00", "closes": "15:00", "weekdays": [5, 6]}
    return base | changes


def test_volunteers_work_on_saturdays(place, ada, typed):
    ada.post(place.url("calendar-add"), calendar())
    made = Calendar.objects.get(name="Weekend volunteers")
    assert made.weekdays == "0000011"
    data = typed(place.task("Weld"), calendar=made.pk, days="1")
    ada.post(place.url("task-edit", place.task("Weld").pk), data)
    assert place.task("Weld").early_finish % 1440 == 15 * 60
    page = ada.get(place.url("why", place.task("Weld").pk)).content.decode()
    assert "Starts Sat 8 Mar" in page


def test_a_fortnight_off_is_one_line_and_goes_in_one_click(place, ada):
    own = place.project.calendars.get()
    data = {"first": "2031-03-10", "last": "2031-03-23", "works": "0", "note": "Away"}
    page = ada.post(place.url("days-add", own.pk), data, headers=HTMX).content.decode()
    assert "Mon 10 Mar 2031 to Sun 23 Mar 2031: off, Away" in page
    assert place.in_hand == 35
    ada.post(place.url("days-delete", own.exceptions.first().pk))
    assert place.in_hand == 45


def test_an_extra_saturday_is_worked(place, ada):
    own = place.project.calendars.get()
    data = {"first": "2031-03-08", "last": "", "works": "1", "note": ""}
    ada.post(place.url("days-add", own.pk), data)
    assert place.in_hand == 46


def test_the_public_holidays_of_the_country_are_shown_by_name(place, ada):
    page = ada.get(place.url("calendars")).content.decode()
    assert "Mon 26 May 2031" in page and "Memorial Day" in page


BAD_CALENDARS = [
    (calendar(closes="08:00"), "Work would end before it starts."),
    (calendar(weekdays=[]), "Tick at least one day of the week."),
    (calendar(name=""), "Fill in “Name”."),
    (calendar(opens="noon"), "Write a time of day"),
]


@pytest.mark.parametrize(("data", "said"), BAD_CALENDARS)
def test_a_calendar_that_cannot_be_is_refused(place, ada, data, said):
    answer = ada.post(place.url("calendar-add"), data, headers=HTMX)
    assert answer.status_code == 422
    assert said in answer.content.decode()


def test_days_off_that_run_backwards_are_refused(place, ada):
    own = place.project.calendars.get()
    data = {"first": "2031-03-10", "last": "2031-03-01", "works": "0"}
    answer = ada.post(place.url("days-add", own.pk), data)
    assert "The last day is before the first." in answer.content.decode()


def test_the_own_calendar_cannot_be_removed(place, ada):
    own = place.project.calendars.get()
    answer = ada.post(place.url("calendar-delete", own.pk))
    assert answer.status_code == 422
    assert Calendar.objects.filter(pk=own.pk).exists()


def test_a_plan_is_kept_with_its_reason_under_the_next_letter(place, ada):
    ada.post(place.url("record-keep"), {"reason": "As promised to the arts board"})
    ada.post(place.url("record-keep"), {"reason": "After the hearing"})
    kept = PlanOfRecord.objects.first()
    assert (kept.letter, kept.made_by) == ("B", "ada")
    assert kept.rows["in_hand_days"] == 45
    frame = next(row for row in kept.rows["tasks"] if row["name"] == "Weld lantern frame")
    assert (frame["start"], frame["finish"], frame["days"]) == ("2031-03-03", "2031-03-14", "10")
    page = ada.get(place.url()).content.decode()
    assert "Rev B" in page and "After the hearing" in page


def test_a_plan_is_not_kept_without_a_reason(place, ada):
    answer = ada.post(place.url("record-keep"), {"reason": " "})
    assert answer.status_code == 422
    assert not PlanOfRecord.objects.exists()


def test_letters_go_on_after_z():
    from schedules.services.records import letter_after

    assert [letter_after(x) for x in (None, "A", "Z", "AZ", "ZZ")] == ["A", "B", "AA", "BA", "AAA"]


CHANGES = ["lane-add", "key-date-add", "calendar-add", "record-keep", "task-add"]


@pytest.mark.parametrize("page", CHANGES)
def test_a_reader_changes_none_of_it(place, cyd, dee, page):
    assert cyd.post(place.url(page), {}).status_code == 403
    assert dee.post(place.url(page), {}).status_code == 404
