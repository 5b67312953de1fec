"""From saved rows to a computed plan: what the adapter makes of them."""

from __future__ import annotations

from datetime import date, datetime, time

from schedules.engine import moment
from schedules.models import KeyDate, Task
from schedules.plan import current, read, recompute, shown_days
from tests import factories


def days_of(task):
    return shown_days(task.early_start, task.early_finish)


def test_public_holidays_are_not_worked(place):
    place.project.calendars.update(keeps_holidays=True)
    Task.objects.filter(name__startswith="Weld").update(not_before=date(2031, 5, 26))
    recompute(place.project, factories.TODAY)
    assert days_of(place.task("Weld"))[0] == date(2031, 5, 27)  # Memorial Day is 26 May 2031


def test_a_country_whose_holidays_nobody_knows_has_none(place):
    place.project.calendars.update(keeps_holidays=True)
    place.project.country = "XX"
    place.project.save()
    assert recompute(place.project, factories.TODAY).in_hand_days == 45


def test_a_walk_in_the_evening_happens_at_its_hour(place):
    KeyDate.objects.filter(pk=place.public.pk).update(at=time(18, 30))
    recompute(place.project, factories.TODAY)
    assert moment(place.task("Lantern walk").early_start) == datetime(2031, 6, 14, 18, 30)


def test_a_last_day_makes_late_dates_earlier_and_moves_no_early_one(place):
    before = place.task("Weld")
    fields = {"kind": "other", "effect": "no_later", "on": date(2031, 3, 12)}
    KeyDate.objects.create(project=place.project, name="Shop closes", task=before, **fields)
    recompute(place.project, factories.TODAY)
    after = place.task("Weld")
    assert after.early_finish == before.early_finish
    assert after.total_float == -2 * 8 * 60


def test_a_task_under_way_has_a_day_left_at_least(place):
    Task.objects.filter(name__startswith="Weld").update(started_on=date(2031, 1, 6))
    recompute(place.project, factories.TODAY)
    assert days_of(place.task("Weld")) == (date(2031, 1, 6), factories.TODAY)


def test_history_does_not_move_when_a_later_task_does(place):
    done = {"started_on": date(2031, 2, 3), "finished_on": date(2031, 2, 14)}
    Task.objects.filter(name__startswith="Weld").update(days=3, **done)
    recompute(place.project, factories.TODAY)
    assert days_of(place.task("Weld")) == (date(2031, 2, 3), date(2031, 2, 14))


def test_a_new_day_computes_the_plan_anew(place):
    assert current(place.project, date(2031, 3, 10)).in_hand_days == 40
    assert place.task("Weld").early_start > place.task("Lantern walk").early_start - 100 * 1440


def test_reading_takes_five_queries(place, django_assert_num_queries):
    with django_assert_num_queries(5):
        read(place.project, factories.TODAY)


def test_a_second_computation_writes_its_state_and_what_it_says_today(
    place, django_assert_max_num_queries
):
    with django_assert_max_num_queries(13) as asked:
        recompute(place.project, factories.TODAY)
    assert not [q for q in asked.captured_queries if 'UPDATE "schedules_task"' in q["sql"]]
