"""Whose hours are worked: weekdays that differ, lanes, suppliers, regions, closures, clocks."""

from __future__ import annotations

from datetime import date, datetime

import pytest

from schedules.engine import moment
from schedules.models import Calendar, Lane, Task
from schedules.plan import calendar_keys, read, recompute, shown_days
from tests import factories

HTMX = {"HX-Request": "true"}


def calendar(**changes):
    base = {"name": "Saltglaze hours", "opens": "07:00", "closes": "17:00"}
    return base | {"weekdays": [0, 1, 2, 3, 4]} | changes


@pytest.fixture
def maker(place):
    return factories.SupplierFactory(project=place.project)


def weld(place):
    recompute(place.project, factories.TODAY)
    return place.task("Weld")


def test_a_shop_that_closes_at_noon_on_friday_needs_a_part_of_monday(place, ada):
    hours = {"opens_4": "07:00", "closes_4": "12:00"}
    ada.post(place.url("calendar-add"), calendar(**hours))
    made = Calendar.objects.get(name="Saltglaze hours")
    assert made.day_hours == {"4": ["07:00", "12:00"]}
    assert place.last_log.sentence == (
        "Added the calendar Saltglaze hours: Mon to Thu 07:00 to 17:00 and Fri 07:00 to 12:00."
    )
    Task.objects.filter(pk=place.task("Weld").pk).update(calendar=made, days=5)
    assert moment(weld(place).early_finish) == datetime(2031, 3, 10, 12)


def test_hours_of_one_weekday_are_shown_again_in_the_form(place, ada):
    own = place.project.calendars.get()
    data = calendar(name="Weekdays", opens_4="07:00", closes_4="12:00")
    page = ada.post(place.url("calendar-edit", own.pk), data, headers=HTMX).content.decode()
    assert 'value="12:00"' in page
    assert "Fri 07:00 to 12:00" in page


BAD_HOURS = [
    ({"opens_5": "09:00", "closes_5": "12:00"}, "Saturday is no working day above."),
    ({"opens_4": "09:00"}, "Fill in both times, or leave both empty."),
    ({"opens_4": "12:00", "closes_4": "09:00"}, "Choose a time after 12:00."),
    ({"opens_4": "noon", "closes_4": "13:00"}, "Write a time of day"),
]


@pytest.mark.parametrize(("hours", "said"), BAD_HOURS)
def test_hours_of_a_weekday_that_cannot_be_are_refused_beside_it(place, ada, hours, said):
    answer = ada.post(place.url("calendar-add"), calendar(**hours), headers=HTMX)
    assert answer.status_code == 422
    assert said in answer.content.decode()


def test_a_task_keeps_its_own_hours_then_its_lanes_then_its_suppliers(place, maker):
    task, project = place.task("Weld"), place.project
    of_maker = Calendar.objects.create(project=project, name="Saltglaze", supplier=maker)
    of_lane = Calendar.objects.create(project=project, name="Night shift")
    own = Calendar.objects.create(project=project, name="This once")

    def key():
        return calendar_keys(read(project, factories.TODAY))[task.pk]

    default = str(project.calendars.get(is_default=True).pk)
    assert key() == default
    Lane.objects.update(supplier=maker)
    assert key() == str(of_maker.pk)
    Lane.objects.update(calendar=of_lane)
    assert key() == str(of_lane.pk)
    Task.objects.filter(pk=task.pk).update(calendar=own)
    assert key() == str(own.pk)


def test_a_week_that_the_shop_is_closed_moves_its_tasks_and_is_named(place, ada, maker):
    made = Calendar.objects.create(project=place.project, name="Saltglaze", supplier=maker)
    Lane.objects.update(supplier=maker)
    data = {"first": "2031-03-03", "last": "2031-03-07", "works": "0", "note": "Shop closes"}
    page = ada.post(place.url("days-add", made.pk), data, headers=HTMX).content.decode()
    assert shown_days(weld(place).early_start, place.task("Weld").early_finish) == (
        date(2031, 3, 10),
        date(2031, 3, 21),
    )
    assert "The next days off: Saltglaze Metalworks, 3 to 7 Mar (Shop closes)." in page
    why = ada.get(place.url("why", place.task("Weld").pk)).content.decode()
    assert "It is planned on the hours of Saltglaze Metalworks." in why


def test_a_supplier_keeps_one_calendar(place, ada, maker):
    Calendar.objects.create(project=place.project, name="Saltglaze", supplier=maker)
    answer = ada.post(place.url("calendar-add"), calendar(supplier=maker.pk), headers=HTMX)
    assert answer.status_code == 422
    assert "This supplier keeps another calendar." in answer.content.decode()


def test_a_supplier_of_another_project_keeps_no_calendar_here(place, ada):
    other = factories.SupplierFactory(project=factories.ProjectFactory(name="Two Herons"))
    answer = ada.post(place.url("calendar-add"), calendar(supplier=other.pk), headers=HTMX)
    assert answer.status_code == 422


def test_a_lane_with_other_hours_is_planned_anew_at_once(place, ada):
    weekend = Calendar.objects.create(
        project=place.project, name="Volunteer weekends", weekdays="0000011"
    )
    lane = place.project.lanes.get()
    data = {"name": "Artist", "calendar": weekend.pk, "capacity": "", "day_cents": "$240"}
    ada.post(place.url("lane-edit", lane.pk), data)
    lane.refresh_from_db()
    assert (lane.capacity, lane.day_cents) == (None, 240_00)
    assert moment(place.task("Weld").early_start).date() == date(2031, 3, 8)
    assert place.last_log.sentence == (
        "Changed the lane Artist: calendar from none to Volunteer weekends, "
        "tasks at once from 1 to no limit, cost of a day from none to $240."
    )


BAD_LANES = [
    ({"capacity": "0"}, "Write a whole number from 1 to 999"),
    ({"capacity": "two"}, "Write a whole number from 1 to 999"),
    ({"capacity": "9" * 30}, "Write a whole number from 1 to 999"),
    ({"day_cents": "-5"}, "is below zero"),
    ({"day_cents": "dear"}, "where a digit should be"),
    ({"calendar": "99999"}, "Choose one from the list."),
]


@pytest.mark.parametrize(("data", "said"), BAD_LANES)
def test_a_lane_that_cannot_be_is_refused_beside_its_field(place, ada, data, said):
    answer = ada.post(place.url("lane-add"), {"name": "Crew"} | data, headers=HTMX)
    assert answer.status_code == 422
    assert said in answer.content.decode()


def test_a_lane_on_which_nobody_ever_works_is_refused(place, ada):
    never = Calendar.objects.create(project=place.project, name="Never", weekdays="0000000")
    url = place.url("lane-edit", place.project.lanes.get().pk)
    answer = ada.post(url, {"name": "Artist", "calendar": never.pk}, headers=HTMX)
    assert answer.status_code == 422
    assert "The calendar “Never” has too few working days" in answer.content.decode()
    assert place.project.lanes.get().calendar is None


def test_a_holiday_of_the_region_is_not_worked(place):
    """Prince Kuhio Day, 26 March, is a holiday in Hawaii: Hawaii Revised Statutes 8-1."""
    place.project.calendars.update(keeps_holidays=True)
    before = weld(place).early_finish
    Task.objects.filter(name__startswith="Weld").update(not_before=date(2031, 3, 26))
    assert moment(weld(place).early_start).date() == date(2031, 3, 26)
    place.project.region = "HI"
    place.project.save()
    assert moment(weld(place).early_start).date() == date(2031, 3, 27)
    assert before < weld(place).early_finish


def test_a_region_that_is_gone_from_the_list_keeps_the_holidays_of_the_country(place):
    place.project.calendars.update(keeps_holidays=True)
    place.project.region = "ATLANTIS"
    place.project.save()
    Task.objects.filter(name__startswith="Weld").update(not_before=date(2031, 5, 26))
    assert moment(weld(place).early_start).date() == date(2031, 5, 27)  # Memorial Day is the 26th


def wait_of(place, hours, day):
    """When a task that has waited so many hours after a day's work may start, day and night."""
    night = Calendar.objects.create(
        project=place.project, name="Day and night", weekdays="1111111", opens="00:00",
        closes="00:00", keeps_holidays=False,
    )  # fmt: skip
    frame, skin = place.task("Weld"), place.task("Cut")
    Task.objects.filter(pk=frame.pk).update(started_on=day, finished_on=day)
    Task.objects.filter(pk=skin.pk).update(calendar=night, days=1)
    skin.links_in.update(lag=hours, lag_clock="elapsed")
    recompute(place.project, day)
    return moment(place.task("Cut").early_start)


def test_a_cure_over_the_night_that_clocks_go_on_ends_an_hour_later(place):
    """Work ends at 16:00; clocks go on on 9 March 2031 at 2:00: 15 U.S.C. 260a."""
    assert wait_of(place, 72, date(2031, 3, 7)) == datetime(2031, 3, 10, 17)


def test_a_cure_over_the_night_that_clocks_go_back_ends_an_hour_earlier(place):
    """Clocks go back on 2 November 2031 at 2:00: 15 U.S.C. 260a."""
    assert wait_of(place, 72, date(2031, 10, 31)) == datetime(2031, 11, 3, 15)


def test_a_lane_that_holds_a_hire_is_kept(place, ada):
    lane = Lane.objects.create(project=place.project, name="Millrace Lift Hire")
    place.project.hammocks.create(name="Lift", lane=lane)
    page = ada.post(place.url("lane-delete", lane.pk), headers=HTMX).content.decode()
    assert "Millrace Lift Hire still holds 1 hire." in page


def test_a_task_by_daylight_says_what_is_missing(place, ada):
    Task.objects.filter(name__startswith="Weld").update(daylight=True)
    page = ada.get(place.url("calendars")).content.decode()
    assert "1 task needs daylight, but the position of the site is not known" in page
    why = ada.get(place.url("why", place.task("Weld").pk)).content.decode()
    assert "Write it in the details of the project." in why
