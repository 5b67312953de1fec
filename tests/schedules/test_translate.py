"""What saved tasks say to the engine."""

from __future__ import annotations

from datetime import date, datetime

from schedules.engine import moment
from schedules.models import Task
from schedules.plan import network, read, recompute, shown_days
from tests import factories

BEGUN = {"started_on": date(2031, 2, 24), "remaining_days": 4, "remaining_on": factories.TODAY}


def after_the_weld(place) -> Task:
    return place.task("Weld").links_out.order_by("pk").first().after


def told(place, task):
    rows = read(place.project, factories.TODAY)
    return next(a for a in network(rows).activities if a.key == str(task.pk))


def test_work_begun_ahead_with_a_reason_need_not_wait(place):
    after = after_the_weld(place)
    Task.objects.filter(pk=after.pk).update(**BEGUN)
    recompute(place.project, factories.TODAY)
    after.refresh_from_db()
    waiting = after.early_finish
    Task.objects.filter(pk=after.pk).update(ahead_reason="The first half stands apart.")
    recompute(place.project, factories.TODAY)
    after.refresh_from_db()
    assert after.early_finish < waiting
    assert shown_days(after.early_start, after.early_finish)[1] == date(2031, 3, 6)


def test_a_closing_milestone_and_the_estimates_reach_the_engine(place):
    weld = place.task("Weld")
    Task.objects.filter(pk=weld.pk).update(closes=True, low_days=2, high_days=9)
    found = told(place, weld)
    assert found.finish_milestone and (found.low, found.high) == (2 * 8 * 60, 9 * 8 * 60)
    Task.objects.filter(pk=weld.pk).update(closes=False, low_days=None, high_days=None)
    found = told(place, weld)
    assert not found.finish_milestone and (found.low, found.high) == (None, None)


def short_fridays(place, **fields):
    """Weld, finished on a day of a shop that works 7 to 17, on Fridays 9 to 12."""
    hours = factories.CalendarFactory(
        project=place.project,
        name="Short Fridays",
        is_default=False,
        opens="07:00",
        closes="17:00",
        day_hours={"4": ["09:00", "12:00"]},
    )
    weld = place.task("Weld")
    Task.objects.filter(pk=weld.pk).update(calendar=hours, **fields)
    return told(place, weld)


def test_work_done_on_a_short_friday_ended_at_noon(place):
    friday = date(2031, 2, 28)
    found = short_fridays(place, started_on=friday, finished_on=friday)
    assert moment(found.actual_start) == datetime(2031, 2, 28, 9)
    assert moment(found.actual_finish) == datetime(2031, 2, 28, 12)


def test_work_done_on_a_day_off_took_the_hours_of_a_usual_day(place):
    saturday = date(2031, 3, 1)
    found = short_fridays(place, finished_on=saturday)
    assert moment(found.actual_start) == datetime(2031, 3, 1, 7)
    assert moment(found.actual_finish) == datetime(2031, 3, 1, 17)
