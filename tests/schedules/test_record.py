"""The plan of record: kept, held against another, and how the date slipped."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from schedules.engine.variance import Fate
from schedules.models import Forecast, PlanOfRecord
from schedules.plan import read, recompute
from schedules.plan.kept import freeze, held_against, thaw, work_done
from schedules.selectors.record import record_sheet
from schedules.services.records import keep_plan
from schedules.timeline.slipchart import Said, draw_slips, turns
from tests import factories

TODAY = factories.TODAY


@pytest.fixture
def kept(place):
    """The plan as it stands, kept as Rev A."""
    user = factories.user("ada")
    return keep_plan(project=place.project, user=user, today=TODAY, reason="As promised")


def lengthen(place, name, days):
    task = place.task(name)
    task.days = days
    task.save()
    recompute(place.project, TODAY)


def moved(place, kept):
    rows = read(place.project, TODAY)
    return held_against(thaw(kept.rows), thaw(freeze(rows, TODAY)), rows)


def test_a_frame_of_two_more_days_is_two_days_late_and_so_is_its_skin(place, kept):
    lengthen(place, "Weld", 12)
    found = moved(place, kept)
    weld, skin = (found[str(place.task(n).pk)] for n in ("Weld", "Cut"))
    assert (weld.start, weld.finish, weld.days) == (0, 2, 2)
    assert (skin.start, skin.finish, skin.days) == (2, 2, 0)
    assert not found[str(place.task("Encroachment").pk)].moved


def test_a_copy_from_before_instants_were_kept_says_the_same(place, kept):
    for task in kept.rows["tasks"]:
        for name in ("early_start", "early_finish", "calendar", "weight"):
            del task[name]
    for name in ("public_on", "ready_on"):
        del kept.rows[name]
    lengthen(place, "Weld", 12)
    assert moved(place, kept)[str(place.task("Weld").pk)].finish == 2
    done = work_done(thaw(kept.rows), read(place.project, TODAY))
    assert (done.whole, done.due, done.done) == (4500, 0, 0)
    assert thaw(kept.rows, place.public.pk).public_on == factories.PUBLIC


def test_a_kept_plan_stays_as_it_was_whatever_happens_to_its_tasks(place, kept):
    before = PlanOfRecord.objects.get(pk=kept.pk).rows
    lengthen(place, "Weld", 12)
    place.project.calendars.update(weekdays="1111110")
    place.task("Encroachment").delete()
    recompute(place.project, TODAY)
    assert PlanOfRecord.objects.get(pk=kept.pk).rows == before


def test_added_and_dropped_tasks_are_named_as_such(place, kept):
    gone = place.task("Encroachment")
    key = str(gone.pk)
    gone.delete()
    new = factories.TaskFactory(project=place.project, name="Fence off the footpath")
    recompute(place.project, TODAY)
    found = moved(place, kept)
    assert (found[key].fate, found[str(new.pk)].fate) == (Fate.DROPPED, Fate.ADDED)


def test_the_page_says_how_far_the_work_slipped_and_by_which_task(place, kept, ada):
    lengthen(place, "Weld", 12)
    page = ada.get(place.url("record")).content.decode()
    assert "the work is ready 2 working days later" in page
    assert "“Weld lantern frame” slipped most: 2 working days later." in page
    assert "+2 working days" in page and "−2 days" in page
    assert "2 tasks as kept." in page


def test_two_kept_plans_are_held_against_each_other(place, kept, ada):
    lengthen(place, "Weld", 12)
    ada.post(place.url("record-keep"), {"reason": "After the hearing"})
    lengthen(place, "Weld", 20)
    page = ada.get(place.url("record"), {"first": "A", "second": "B"}).content.decode()
    assert "Against Rev A" in page and "2 working days later" in page
    assert "Work done against" not in page


def test_a_plan_is_not_held_against_itself_nor_against_one_that_is_not_there(place, kept, ada):
    same = ada.get(place.url("record"), {"first": "A", "second": "A"})
    assert same.status_code == 422 and "That is the same plan." in same.content.decode()
    assert ada.get(place.url("record"), {"first": "Q", "second": "now"}).status_code == 422


def test_an_address_with_one_plan_holds_it_against_now(place, kept, ada):
    answer = ada.get(place.url("record"), {"first": "A"})
    assert answer.status_code == 200 and "Against Rev A" in answer.content.decode()


def test_before_any_plan_is_kept_the_page_says_what_to_do(place, ada, cyd):
    assert "No plan is kept yet." in ada.get(place.url("record")).content.decode()
    assert "Keep the plan as it is now" not in cyd.get(place.url("record")).content.decode()


def test_links_and_hours_that_changed_are_summed_up(place, kept):
    factories.LinkFactory(before=place.task("Encroachment"), after=place.task("Lantern"))
    place.task("Cut").links_in.update(lag=2)
    place.project.calendars.update(weekdays="1111110")
    recompute(place.project, TODAY)
    found = record_sheet(place.project, TODAY, "A", None)
    assert found["links"] == "1 link added and 1 wait changed"
    assert found["calendars"] == ["“Weekdays”"]


def test_a_holiday_of_another_year_is_no_change_of_the_calendar(place, kept):
    calendar = place.project.calendars.get()
    calendar.exceptions.create(day=date(2034, 1, 2), works=False)
    assert record_sheet(place.project, TODAY, "A", None)["calendars"] == []


def test_half_the_frame_after_ten_days_is_five_days_behind(place, kept):
    """Ten days on, frame and skin were due for 10 days and the permit for 10."""
    later = date(2031, 3, 17)
    place.project.tasks.filter(name__startswith="Weld").update(
        started_on=TODAY, remaining_days=5, remaining_on=later
    )
    done = work_done(thaw(kept.rows), read(place.project, later))
    assert (done.whole, done.due, done.done) == (4500, 2000, 500)
    assert done.behind == (10 - 2.5) * 480


def test_what_only_waits_is_no_work(place):
    place.project.tasks.filter(name__startswith="Encroachment").update(waits=True)
    rows = read(place.project, TODAY)
    assert work_done(thaw(freeze(rows, TODAY)), rows).whole == 3000


def test_the_plan_says_something_once_a_day_and_history_stays(place):
    yesterday = Forecast.objects.create(
        project=place.project, on=TODAY - timedelta(days=1), ready_on=date(2031, 4, 1)
    )
    lengthen(place, "Weld", 12)
    lengthen(place, "Weld", 14)
    said = list(Forecast.objects.filter(project=place.project))
    assert [f.on for f in said] == [yesterday.on, TODAY]
    assert said[0].ready_on == date(2031, 4, 1)
    assert (said[1].ready_on, said[1].public_on) == (date(2031, 4, 17), factories.PUBLIC)


def story():
    first, ready = date(2031, 3, 3), date(2031, 5, 2)
    public = [date(2031, 5, 3)] * 3 + [date(2031, 5, 17)] * 2
    late = [0, 0, 7, 7, 7]
    return [
        Said(first + timedelta(days=7 * n), ready + timedelta(days=late[n]), public[n])
        for n in range(5)
    ]


def test_the_chart_steps_when_the_date_moves_and_marks_the_late_days():
    chart = draw_slips(story(), [("A", date(2031, 3, 5)), ("B", date(2031, 3, 24))],
                       width=760, height=320)  # fmt: skip
    assert chart.public.count("V") == 1 and chart.ready.count("V") == 1
    assert [dot.late for dot in chart.dots] == [False, True, False, False]
    assert [mark.text for mark in chart.marks] == ["Rev A", "Rev B"]
    assert chart.marks[0].x < chart.marks[1].x


@pytest.mark.parametrize("width", [358, 760])
def test_everything_of_the_chart_lies_inside_it(width):
    chart = draw_slips(story(), [("A", date(2031, 3, 3)), ("B", date(2031, 3, 4))],
                       width=width, height=300)  # fmt: skip
    points = [*chart.across, *chart.up, *chart.names, *chart.marks, *chart.dots]
    assert all(0 <= p.x <= width and 0 < p.y <= 300 for p in points)
    assert len({(mark.x // 40, mark.y) for mark in chart.marks}) == 2


def test_the_lines_are_named_clear_of_each_other_where_there_is_room():
    first, day = date(2031, 3, 3), timedelta(days=1)
    for apart in (-1, 0, 1):
        said = [Said(first + n * day, first + 60 * day, first + (60 + apart) * day)
                for n in range(9)]  # fmt: skip
        one, other = draw_slips(said, [], width=760, height=320).names
        assert abs(one.y - other.y) >= 15


def test_days_on_which_nothing_changed_are_left_out_of_the_table():
    assert [said.on.day for said in turns(story())] == [3, 17, 24, 31]


def test_queries_of_the_record_do_not_grow(place, kept, ada, django_assert_max_num_queries):
    with django_assert_max_num_queries(60) as counted:
        ada.get(place.url("record"))
    asked = len(counted.captured_queries)
    for n in range(20):
        factories.TaskFactory(project=place.project, name=f"Step {n}")
        day = TODAY - timedelta(days=n + 1)
        Forecast.objects.create(project=place.project, on=day, ready_on=day)
    ada.get(place.url("record"))
    with django_assert_max_num_queries(asked):
        ada.get(place.url("record"))
