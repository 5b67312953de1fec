"""Tasks are added, edited, marked and removed in place, and the plan follows."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from schedules.models import Task
from tests import factories

HTMX = {"HX-Request": "true"}


def test_a_new_task_is_planned_at_once_and_written_down(place, ada, typed):
    after = place.task("Weld")
    ada.post(place.url("task-add"), typed(waits_for=after.pk))
    task = place.task("Prime wall")
    assert task.early_start == after.early_finish + 64 * 60  # Fri 16:00 to Mon 08:00
    assert place.last_log.sentence == (
        "Added the task “Prime wall” of 4 working days to Artist, after “Weld lantern frame”."
    )


def test_a_longer_frame_takes_from_the_days_in_hand(place, ada, typed):
    frame = place.task("Weld")
    answer = ada.post(place.url("task-edit", frame.pk), typed(frame, days="16"), headers=HTMX)
    assert answer.status_code == 200
    assert "39 days in hand" in answer.content.decode()
    assert place.in_hand == 39
    assert place.last_log.sentence == "Changed “Weld lantern frame”: days from 10 to 16."


def test_saving_without_a_change_writes_nothing(place, ada, typed):
    frame = place.task("Weld")
    ada.post(place.url("task-edit", frame.pk), typed(frame))
    assert place.last_log is None


def test_the_row_becomes_a_form(place, ada):
    page = ada.get(place.url("task-edit", place.task("Weld").pk), headers=HTMX).content.decode()
    assert page.count('name="days"') == 1
    assert 'value="10"' in page
    assert "data-focus" in page


BAD = [
    ("days", "-3", "A task cannot take less than no time."),
    ("days", "1,2O0", "Write a number of days, such as 3 or 1.5."),
    ("days", "5000", "That is more than 999 working days."),
    ("days", "NaN", "Write a number of days"),
    ("name", "", "Fill in “Name”."),
    ("name", "x" * 100_000, "Use at most 120 characters; this has 100000."),
    ("not_before", "2031-02-30", "There is no such day."),
    ("low_days", "12", "This is more than the working days above."),
    ("high_days", "1", "This is less than the working days above."),
    ("lane", "987654", "Choose one from the list."),
    ("note", "x" * 100_000, "at most 20,000 can be kept"),
]


@pytest.mark.parametrize(("field", "value", "said"), BAD)
def test_what_is_wrong_is_said_beside_its_field_and_nothing_typed_is_lost(
    place, ada, typed, field, value, said
):
    task = place.task("Weld")
    data = typed(task, name="Weld <b>ring</b>") | {field: value}
    answer = ada.post(place.url("task-edit", task.pk), data, headers=HTMX)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert said in page
    assert field == "name" or "Weld &lt;b&gt;ring&lt;/b&gt;" in page
    assert place.task("Weld").days == 10


def test_a_removed_task_takes_its_links_along(place, ada):
    ada.post(place.url("task-delete", place.task("Cut").pk))
    assert place.project.links.count() == 0
    assert place.last_log.sentence == "Removed the task “Cut and sew skin” and its 2 links."


@pytest.mark.parametrize("page", ["task-edit", "task-delete", "task-progress", "link-add"])
def test_who_may_only_read_cannot_change_a_task(place, cyd, dee, page):
    url = place.url(page, place.task("Weld").pk)
    assert cyd.post(url, {}).status_code == 403
    assert dee.post(url, {}).status_code == 404


def test_a_task_of_another_project_is_not_there(place, ada):
    other = factories.TaskFactory()
    assert ada.get(place.url("task-edit", other.pk)).status_code == 404


def test_one_tick_starts_a_task_today_and_the_next_finishes_it(place, ada):
    url = place.url("task-progress", place.task("Weld").pk)
    ada.post(url, {"mark": "started"})
    assert place.task("Weld").started_on == factories.TODAY
    ada.post(url, {"mark": "finished"})
    assert place.task("Weld").finished_on == factories.TODAY
    assert place.last_log.sentence == "“Weld lantern frame” finished on Mon 3 Mar."


def test_work_that_goes_slower_moves_what_waits_for_it(place, ada):
    before = place.task("Cut").early_start
    data = {"started_on": "2031-02-24", "finished_on": "", "remaining_days": "12"}
    ada.post(place.url("task-progress", place.task("Weld").pk), data)
    assert place.task("Weld").remaining_days == Decimal(12)
    assert place.task("Weld").remaining_on == factories.TODAY
    assert place.task("Cut").early_start - before == 2 * 1440
    assert place.in_hand == 43


def test_a_finished_task_ticks_the_stage_it_is_tied_to(place, ada):
    stage = factories.PartFactory(project=place.project).stages.create(name="make", position=1)
    Task.objects.filter(pk=place.task("Weld").pk).update(stage=stage)
    ada.post(place.url("task-progress", place.task("Weld").pk), {"mark": "finished"})
    stage.refresh_from_db()
    assert stage.done_on == factories.TODAY


def test_a_started_task_leaves_its_stage_as_it_was(place, ada):
    part = factories.PartFactory(project=place.project)
    stage = part.stages.create(name="make", position=1, done_on=date(2031, 3, 1))
    Task.objects.filter(pk=place.task("Weld").pk).update(stage=stage)
    ada.post(place.url("task-progress", place.task("Weld").pk), {"mark": "started"})
    stage.refresh_from_db()
    assert stage.done_on == date(2031, 3, 1)


@pytest.mark.parametrize(
    ("data", "said"),
    [
        ({"started_on": "2031-03-04"}, "That day is still to come."),
        ({"started_on": "2031-03-03", "finished_on": "2031-03-01"}, "this day is before it"),
        ({"remaining_days": "3"}, "Only a task that has started"),
        ({"started_on": "yesterday"}, "There is no such day."),
    ],
)
def test_progress_that_cannot_be_is_refused(place, ada, data, said):
    answer = ada.post(place.url("task-progress", place.task("Weld").pk), data)
    assert answer.status_code == 422
    assert said in answer.content.decode()
    assert place.task("Weld").started_on is None


def test_what_was_left_last_week_is_less_today(place):
    from schedules.plan import recompute

    weld = place.task("Weld")
    Task.objects.filter(pk=weld.pk).update(
        started_on=date(2031, 2, 17), remaining_days=12, remaining_on=date(2031, 2, 24)
    )
    recompute(place.project, factories.TODAY)
    assert place.in_hand == 48  # 12 left on 24 February, five worked since: 7 of 10


def test_a_task_that_takes_over_a_done_stage_is_done(place, ada, typed):
    part = factories.PartFactory(project=place.project)
    stage = part.stages.create(name="make", position=3, done_on=date(2031, 3, 1))
    weld = place.task("Weld")
    ada.post(place.url("task-edit", weld.pk), typed(weld, stage=stage.pk))
    assert place.task("Weld").finished_on == date(2031, 3, 1)
