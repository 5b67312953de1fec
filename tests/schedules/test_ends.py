"""Days in hand to an end that somebody chose, and milestones that open or close."""

from __future__ import annotations

from datetime import date

from schedules.models import KeyDate, Task
from schedules.plan import read, recompute, shown_days
from schedules.plan.ends import ends, solve_to
from tests import factories
from tests.factories import TODAY


def plan_to(place, name):
    rows = read(place.project, TODAY)
    task = place.task(name)
    return task, solve_to(rows, task.pk)


def days_to(place, name, of):
    task = place.task(of)
    dates = plan_to(place, name)[1].dates[str(task.pk)]
    return dates.total_float // 480 if dates.to_end else None


def test_each_open_end_is_offered_beside_the_public_date(place):
    names = {place.project.tasks.get(pk=pk).name for pk in ends(read(place.project, TODAY))}
    assert names == {"Encroachment permit review", "Lantern walk"}


def test_no_path_to_the_end_is_no_number(place, ada):
    permit = place.task("Encroachment")
    assert days_to(place, "Encroachment", "Cut") is None
    page = ada.get(place.url() + f"?end={permit.pk}").content.decode()
    assert "Counted to “Encroachment permit review”, which has no date of its own" in page
    assert page.count("no path to this end") == 3


def test_an_end_has_no_days_in_hand_to_itself(place):
    """Common practice, no source: float to an open end is room within its own path."""
    factories.LinkFactory(before=place.task("Weld"), after=place.task("Encroachment"))
    recompute(place.project, TODAY)
    assert days_to(place, "Encroachment", "Encroachment") == 0
    assert days_to(place, "Encroachment", "Weld") == 0
    assert days_to(place, "Lantern walk", "Weld") == 45


def test_an_end_with_a_last_day_is_late_only_after_it(place, ada):
    permit = place.task("Encroachment")
    fields = {"kind": "due", "effect": "no_later", "on": date(2031, 3, 28)}
    KeyDate.objects.create(project=place.project, name="Permit due", task=permit, **fields)
    recompute(place.project, TODAY)
    assert days_to(place, "Encroachment", "Encroachment") == 5
    page = ada.get(place.url() + f"?end={permit.pk}").content.decode()
    assert "Counted to “Encroachment permit review”, by Fri 28 Mar: 5 days in hand." in page


def test_the_public_date_bounds_nothing_when_another_end_was_chosen(place):
    """Both are before the walk, but only the report is counted to."""
    after = factories.TaskFactory(project=place.project, name="Final report", days=4)
    factories.LinkFactory(before=place.task("Lantern walk"), after=after)
    recompute(place.project, TODAY)
    plan = plan_to(place, "Final report")[1]
    assert plan.dates[str(after.pk)].total_float == 0
    assert plan.chain[-1] == str(after.pk)
    assert days_to(place, "Final report", "Cut") == 45  # the walk holds the report at its day


def test_the_choice_is_remembered_and_a_stale_one_passed_over(place, ada):
    permit = place.task("Encroachment")
    ada.get(place.url() + f"?end={permit.pk}")
    assert "Counted to “Encroachment" in ada.get(place.url()).content.decode()
    permit.delete()
    assert "Counted to" not in ada.get(place.url()).content.decode()
    assert ada.get(place.url() + "?end=99999999999999999999").status_code == 200


def test_the_two_kinds_of_milestone_show_friday_and_monday(place):
    """Contractor's pocket scheduling guide (2012), section 2.2: work that ends on Fri 24 Aug
    2012 is done on that day, and the handover may begin on Mon 27 Aug."""
    done = factories.TaskFactory(project=place.project, name="Skin is done", days=0, closes=True)
    begin = factories.TaskFactory(project=place.project, name="Handover may begin", days=0)
    Task.objects.filter(name__startswith="Cut").update(not_before=date(2012, 8, 13), days=10)
    place.task("Cut").links_in.all().delete()
    place.task("Cut").links_out.all().delete()
    for task in (done, begin):
        factories.LinkFactory(before=place.task("Cut"), after=task)
    recompute(place.project, date(2012, 8, 1))
    days = [shown_days(t.early_start, t.early_finish, closes=t.closes)[0]
            for t in map(place.task, ("Skin is done", "Handover"))]  # fmt: skip
    assert days == [date(2012, 8, 24), date(2012, 8, 27)]


def test_a_milestone_that_closes_at_midnight_stands_on_the_day_that_ended(place):
    midnight = 1440 * 10
    assert shown_days(midnight, midnight, closes=True)[0] == date(2000, 1, 10)
    assert shown_days(midnight, midnight)[0] == date(2000, 1, 11)


def test_both_kinds_read_so_in_the_table_and_in_why(place, ada):
    done = factories.TaskFactory(project=place.project, name="Frame is done", days=0, closes=True)
    factories.LinkFactory(before=place.task("Weld"), after=done)
    recompute(place.project, TODAY)
    page = ada.get(place.url("why", done.pk)).content.decode()
    assert "It is on Fri 14 Mar because “Weld lantern frame” ends Fri 14 Mar." in page


RENOVATION = {"A": 3, "B": 7, "C": 5, "D": 3, "E": 2, "F": 3, "G": 7}  # weeks there, days here
JOINS = ("AC", "AD", "DE", "BF", "CF", "EF", "DG")


def test_a_renovation_with_two_ends_has_other_room_to_each(place):
    """University operations-management course, homework 5 solution (2024), question 2: two open
    ends, F at 11 and G at 13. Its starts and finishes give the room to each end alone."""
    place.project.tasks.all().delete()
    made = {
        name: factories.TaskFactory(project=place.project, name=name, days=days)
        for name, days in RENOVATION.items()
    }
    for before, after in JOINS:
        factories.LinkFactory(before=made[before], after=made[after])
    recompute(place.project, TODAY)
    to_f = [days_to(place, "F", name) for name in RENOVATION]
    to_g = [days_to(place, "G", name) for name in RENOVATION]
    assert to_f == [0, 1, 0, 0, 0, 0, None]
    assert to_g == [0, None, None, 0, None, None, 0]
