"""Hires and supervision last from task to task, cost by the day, and drive nothing."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from schedules.models import Hammock, Task
from schedules.plan import hires, read, recompute, solve
from tests import factories
from tests.factories import TODAY


@pytest.fixture
def hire(place):
    lane = factories.LaneFactory(project=place.project, name="Millrace Lift Hire")
    made = Hammock.objects.create(
        project=place.project, name="Platform lift hire", lane=lane, day_cents=55_000
    )
    made.from_tasks.add(place.task("Weld"))
    made.to_tasks.add(place.task("Cut"))
    return made


def found(place):
    return hires(read(place.project, TODAY))[0]


def test_it_lasts_from_the_first_task_to_the_last_on_its_lanes_days(place, hire):
    row = found(place)
    assert (row.first, row.last) == (date(2031, 3, 3), date(2031, 4, 11))
    assert (row.days, row.cents) == (30, 30 * 55_000)


def test_a_later_finish_makes_it_longer_and_dearer(place, hire):
    """Common practice, no source: if the last task slips three days, so does the hire."""
    Task.objects.filter(name__startswith="Cut").update(days=23)
    recompute(place.project, TODAY)
    assert found(place).days == 33


def test_it_follows_a_plan_that_is_only_tried(place, hire):
    rows = read(place.project, TODAY)
    next(t for t in rows.tasks if t.name.startswith("Cut")).days = Decimal(22)
    assert hires(rows, solve(rows))[0].days == 32


def test_part_of_a_day_is_paid_whole(place, hire):
    Task.objects.filter(name__startswith="Cut").update(days=Decimal("20.25"))
    recompute(place.project, TODAY)
    assert found(place).days == 31


def test_it_drives_nothing(place, hire):
    before = list(Task.objects.values_list("early_start", "total_float"))
    hire.to_tasks.add(place.task("Encroachment"))
    recompute(place.project, TODAY)
    assert list(Task.objects.values_list("early_start", "total_float")) == before


def test_three_queries_however_many_there_are(place, hire, django_assert_num_queries):
    for n in range(5):
        more = Hammock.objects.create(project=place.project, name=f"Hire {n}", lane=hire.lane)
        more.from_tasks.add(place.task("Weld"))
        more.to_tasks.add(place.task("Cut"))
    rows = read(place.project, TODAY)
    with django_assert_num_queries(3):
        assert len(hires(rows)) == 6


def test_a_hire_whose_tasks_are_gone_asks_for_others(place, ada, hire):
    place.task("Weld").delete()
    recompute(place.project, TODAY)
    assert hires(read(place.project, TODAY)) == []
    assert (
        "Its first or its last task is gone: choose them anew."
        in ada.get(place.url()).content.decode()
    )


def test_a_hire_is_added_changed_and_removed_with_words_in_the_log(place, ada):
    lane, weld, cut = place.project.lanes.first(), place.task("Weld"), place.task("Cut")
    typed = {"name": "Watch over the site", "lane": lane.pk, "day_cents": "40"}
    typed |= {"from_tasks": [weld.pk], "to_tasks": [cut.pk]}
    ada.post(place.url("hire-add"), typed)
    assert place.last_log.sentence == (
        "Added the hire “Watch over the site”: from “Weld lantern frame” to “Cut and sew skin”."
    )
    page = ada.get(place.url()).content.decode()
    assert "30 days" in page and "$1,200" in page
    made = Hammock.objects.get()
    ada.post(place.url("hire-edit", made.pk), typed | {"day_cents": "50", "to_tasks": [weld.pk]})
    assert place.last_log.sentence == (
        "Changed the hire “Watch over the site”: cost of a day from $40 to $50, "
        "it lasts from “Weld lantern frame” to “Weld lantern frame”."
    )
    ada.post(place.url("hire-delete", made.pk))
    assert not Hammock.objects.exists()


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"from_tasks": []}, "Choose the task that it begins with."),
        ({"to_tasks": ["987654"]}, "Choose one from the list."),
        ({"name": ""}, "Fill in “Name”."),
        ({"day_cents": "many"}, "Write digits only, such as 1200"),
    ],
)
def test_a_hire_that_cannot_be_is_refused_and_nothing_typed_is_lost(place, ada, change, said):
    lane, weld = place.project.lanes.first(), place.task("Weld")
    typed = {"name": "Lift", "lane": lane.pk, "from_tasks": [weld.pk], "to_tasks": [weld.pk]}
    got = ada.post(place.url("hire-add"), typed | change)
    assert got.status_code == 422
    assert said in got.content.decode()
    assert not Hammock.objects.exists()


def test_why_names_the_hire_that_a_task_opens(place, ada, hire):
    page = ada.get(place.url("why", place.task("Weld").pk)).content.decode()
    assert "It opens “Platform lift hire”, Mon 3 Mar – Fri 11 Apr." in page


def test_a_reader_sees_hires_and_cannot_change_them(place, cyd, hire):
    assert "Platform lift hire" in cyd.get(place.url()).content.decode()
    assert cyd.post(place.url("hire-delete", hire.pk)).status_code == 403


@pytest.mark.parametrize("number", ["0", "x", "99999999999999999999"])
def test_a_task_that_cannot_be_is_a_wrong_choice(place, ada, number):
    answer = ada.post(place.url("hire-add"), {"name": "Scaffold", "from_tasks": [number]})
    assert answer.status_code == 422 and "Scaffold" in answer.content.decode()
