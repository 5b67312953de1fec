"""The parts sheet: what is made, by whom, and the stages that tie to tasks."""

from __future__ import annotations

from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from projects.models import LogEntry, Part, Stage
from schedules.models import PlanState, Task
from schedules.selectors.parts import metre_words, size_words
from suppliers.models import Making
from tests import factories

TYPED = {
    "name": "Lantern frame",
    "kind": "frame",
    "width_mm": "4 ft",
    "height_mm": "1.2 m",
    "mass_g": "64 lb",
    "material": "Mild steel tube",
    "stages": ["design", "make", "install"],
}


def url(name: str, project, *more) -> str:
    return reverse(f"schedules:{name}", args=[project.pk, *more])


@pytest.fixture
def frame(project):
    """A frame with all its stages; Make is a task of ten days, Finish waits for it."""
    part = factories.PartFactory(project=project)
    for place, name in enumerate(("design", "mock_up", "make", "finish")):
        Stage.objects.create(part=part, name=name, position=place)
    lane = factories.LaneFactory(project=project, name="Saltglaze Metalworks")
    weld = factories.TaskFactory(
        project=project, lane=lane, name="Weld lantern frame", days=10, stage=stage(part, "make")
    )
    coat = factories.TaskFactory(project=project, lane=lane, name="Powder coat", days=5)
    factories.LinkFactory(before=weld, after=coat)
    return part


def stage(part: Part, name: str) -> Stage:
    return Stage.objects.get(part=part, name=name)


def tick(client, part: Part, name: str, on: str = "2031-03-03", **more):
    address = url("stage-tick", part.project, stage(part, name).pk)
    return client.post(address, {"done_on": on}, **more)


def finish_of(name: str) -> int:
    return Task.objects.get(name=name).early_finish


def test_an_empty_sheet_teaches_what_a_part_is(owner, project):
    page = owner.get(url("parts", project)).content.decode()
    assert "A part is a thing that is made" in page and url("part-add", project) in page


def test_a_part_is_added_with_its_maker_size_mass_and_stages(partner, project):
    maker = factories.SupplierFactory(project=project)
    assert partner.post(url("part-add", project), {**TYPED, "maker": maker.pk}).status_code == 302
    part = Part.objects.get()
    assert (part.width_mm, part.height_mm, part.mass_g) == (1219, 1200, 29_030)
    assert part.making.supplier == maker
    assert [s.name for s in part.stages.all()] == ["design", "make", "install"]
    assert LogEntry.objects.get().sentence == "Added the part “Lantern frame”."


def test_sizes_are_shown_in_feet_and_in_metres():
    # 1 ft = 304.8 mm exactly: international yard and pound agreement of 1959.
    part = Part(width_mm=7315, height_mm=3658)
    assert size_words(part) == "24 ft × 12 ft"
    assert metre_words(part) == "7.32 × 3.66 m"
    assert size_words(Part(width_mm=1372, height_mm=51)) == "4 ft 6 in × 2 in"


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("name", "", "Write a name, such as Lantern frame."),
        ("name", "x" * 121, "Use at most 120 characters; this has 121."),
        ("width_mm", "four", "Write a length with its unit, such as 12 ft"),
        ("width_mm", "-4 ft", "Write a length with its unit"),
        ("mass_g", "64", "Write a mass with its unit, such as 64 lb or 29 kg."),
        ("kind", "robot", "Choose one from the list."),
        ("stages", ["weld"], "Choose one from the list."),
        ("note", "x" * 100_000, "at most 20,000 can be kept. Shorten it."),
    ],
)
def test_bad_input_gets_a_sentence_and_loses_nothing_typed(owner, project, field, value, sentence):
    answer = owner.post(url("part-add", project), {**TYPED, field: value})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert sentence in page and "Mild steel tube" in page
    assert not Part.objects.exists()


def test_a_part_is_changed_and_a_stage_taken_away(owner, project, frame):
    typed = {**TYPED, "stages": ["design", "make", "finish"], "name": "Frame"}
    owner.post(url("part-edit", project, frame.pk), typed)
    frame.refresh_from_db()
    assert frame.name == "Frame"
    assert [s.name for s in frame.stages.all()] == ["design", "make", "finish"]
    assert stage(frame, "make").task.name == "Weld lantern frame"


def test_a_stage_that_is_done_is_not_taken_away(owner, project, frame):
    tick(owner, frame, "design")
    answer = owner.post(url("part-edit", project, frame.pk), {**TYPED, "stages": ["make"]})
    assert answer.status_code == 422
    assert "Design cannot be taken away while marked done." in answer.content.decode()


def test_a_maker_may_be_taken_back(owner, project, frame):
    Making.objects.create(part=frame, supplier=factories.SupplierFactory(project=project))
    owner.post(url("part-edit", project, frame.pk), {**TYPED, "maker": ""})
    assert not Making.objects.exists()


def test_deleting_a_part_asks_first_and_leaves_its_tasks(owner, project, frame):
    page = owner.get(url("part-delete", project, frame.pk)).content.decode()
    assert "Their tasks stay in the schedule." in page
    owner.post(url("part-delete", project, frame.pk))
    assert not Part.objects.exists() and Task.objects.count() == 2


def test_the_sentence_says_who_finishes_what_by_when(owner, project, frame):
    Stage.objects.filter(name__in=["design", "mock_up"]).update(done_on=date(2031, 2, 3))
    page = owner.get(url("parts", project)).content.decode()
    said = "<b>Saltglaze Metalworks finishes the stage “Make” by Fri 14 Mar</b>"
    assert f"Lantern frame is next: {said}" in page


def test_a_next_stage_without_a_task_says_what_to_do(owner, project, frame):
    page = owner.get(url("parts", project)).content.decode()
    assert "Lantern frame is next: Design has no date. Tie it to a task of the schedule." in page


def test_a_stage_that_is_done_finishes_its_task_and_moves_the_plan(owner, project, frame):
    owner.get(url("parts", project))  # computes the plan
    before = finish_of("Powder coat")
    tick(owner, frame, "make")
    assert stage(frame, "make").done_on == date(2031, 3, 3)
    assert Task.objects.get(name="Weld lantern frame").finished_on == date(2031, 3, 3)
    assert finish_of("Powder coat") < before
    said = LogEntry.objects.get().sentence
    assert said.startswith("Make of “Lantern frame” was done on Mon 3 Mar, and with it the task")


def test_a_stage_that_is_not_done_after_all_opens_its_task_again(owner, project, frame):
    owner.get(url("parts", project))
    before = finish_of("Powder coat")
    tick(owner, frame, "make")
    owner.post(url("stage-untick", project, stage(frame, "make").pk))
    assert stage(frame, "make").done_on is None
    assert Task.objects.get(name="Weld lantern frame").finished_on is None
    assert finish_of("Powder coat") == before


def test_a_plan_that_cannot_be_computed_leaves_the_stage_as_it_was(owner, frame, monkeypatch):
    def fails(*_args):
        raise RuntimeError

    monkeypatch.setattr("schedules.services.planning.recompute", fails)
    with pytest.raises(RuntimeError):
        tick(owner, frame, "make")
    assert stage(frame, "make").done_on is None and not LogEntry.objects.exists()


def test_skipping_a_stage_is_allowed_and_said(owner, project, frame):
    answer = tick(owner, frame, "make", headers={"HX-Request": "true"})
    page = answer.content.decode()
    assert "Design and Mock-up come before it and are still open." in page
    assert "Design and Mock-up are still open although Make is done." in page


@pytest.mark.parametrize(
    ("on", "sentence"),
    [
        ("2031-03-04", "That day is still to come. Write today, Mon 3 Mar, or earlier."),
        ("2031-02-30", "There is no such day."),
        ("", "Choose a day."),
        ("2031-02-20", "“Weld lantern frame” was started on Mon 24 Feb."),
    ],
)
def test_a_stage_cannot_be_done_on_an_impossible_day(owner, frame, on, sentence):
    Task.objects.filter(name="Weld lantern frame").update(started_on=date(2031, 2, 24))
    answer = tick(owner, frame, "make", on)
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    assert stage(frame, "make").done_on is None


def test_a_stage_is_tied_to_a_task_and_let_go(owner, project, frame):
    coat, finish = Task.objects.get(name="Powder coat"), stage(frame, "finish")
    owner.post(url("stage-tie", project, finish.pk), {"task": coat.pk})
    assert stage(frame, "finish").task == coat
    assert "by 21 Mar" in owner.get(url("parts", project)).content.decode()
    owner.post(url("stage-tie", project, finish.pk), {"task": ""})
    coat.refresh_from_db()
    assert coat.stage is None


def test_a_stage_that_was_done_finishes_the_task_it_is_tied_to(owner, project, frame):
    tick(owner, frame, "finish", "2031-02-28")
    coat = Task.objects.get(name="Powder coat")
    owner.post(url("stage-tie", project, stage(frame, "finish").pk), {"task": coat.pk})
    coat.refresh_from_db()
    assert coat.finished_on == date(2031, 2, 28)


def test_a_stage_cannot_take_a_task_that_does_another(owner, project, frame):
    weld = Task.objects.get(name="Weld lantern frame")
    answer = owner.post(url("stage-tie", project, stage(frame, "finish").pk), {"task": weld.pk})
    assert answer.status_code == 422
    assert stage(frame, "make").task == weld


def test_a_mark_says_its_state_in_words(owner, project, frame):
    tick(owner, frame, "design")
    page = owner.get(url("parts", project)).content.decode()
    assert "done 3 Mar" in page and "next, no date" in page and "by 14 Mar" in page


@pytest.mark.parametrize("name", ["stage-tick", "stage-untick", "stage-tie"])
def test_a_reader_ticks_nothing_and_a_stranger_sees_nothing(reader, stranger, project, frame, name):
    address = url(name, project, stage(frame, "make").pk)
    assert reader.post(address, {"done_on": "2031-03-03"}).status_code == 403
    assert stranger.post(address, {"done_on": "2031-03-03"}).status_code == 404
    assert reader.get(address).status_code == 405


@pytest.mark.parametrize("name", ["part-edit", "part-delete"])
def test_a_reader_changes_no_part(reader, stranger, project, frame, name):
    assert reader.post(url(name, project, frame.pk), TYPED).status_code == 403
    assert stranger.post(url(name, project, frame.pk), TYPED).status_code == 404


def test_a_reader_sees_the_stages_without_buttons(reader, project, frame):
    page = reader.get(url("parts", project)).content.decode()
    assert "Mock-up" in page and "is done" not in page and "Add a part" not in page


def test_a_stage_of_another_project_is_not_found_through_ones_own(owner, project):
    other = factories.PartFactory(project=factories.ProjectFactory(name="Two Herons"))
    hidden = Stage.objects.create(part=other, name="make", position=0)
    assert owner.get(url("stage", project, hidden.pk)).status_code == 404
    address = url("stage-tick", project, hidden.pk)
    assert owner.post(address, {"done_on": "2031-03-03"}).status_code == 404


def count(client, address: str) -> int:
    with CaptureQueriesContext(connection) as seen:
        assert client.get(address).status_code == 200
    return len(seen)


def test_queries_do_not_grow_with_parts(owner, project, frame):
    owner.get(url("parts", project))
    assert PlanState.objects.exists()
    before = count(owner, url("parts", project))
    for n in range(10):
        part = factories.PartFactory(project=project, name=f"Part {n}")
        made = Stage.objects.create(part=part, name="make", position=3)
        factories.TaskFactory(project=project, stage=made)
        maker = factories.SupplierFactory(project=project, name=f"Maker {n}")
        Making.objects.create(part=part, supplier=maker)
    assert count(owner, url("parts", project)) == before


def test_where_a_part_hangs_is_kept_and_said_below_its_size(project, owner):
    more = {"mounting": "wall", "left_mm": "6 ft 3 in", "bottom_mm": "9 ft 2 in", "used_mm": ""}
    owner.post(url("part-add", project), TYPED | more)
    part = Part.objects.get()
    assert (part.mounting, part.left_mm, part.bottom_mm, part.used_mm) == ("wall", 1905, 2794, None)
    said = owner.get(url("parts", project)).content.decode()
    assert "Fixed to the wall, 6 ft 3 in from the wall’s left end, lowest edge at 9 ft 2 in" in said


def test_a_lowest_edge_on_the_ground_is_nothing_and_not_unknown(project, owner):
    owner.post(url("part-add", project), TYPED | {"bottom_mm": "0", "left_mm": "0 in"})
    part = Part.objects.get()
    assert (part.bottom_mm, part.left_mm) == (0, 0)


def test_a_height_without_a_unit_is_answered_where_it_was_typed(project, owner):
    answer = owner.post(url("part-add", project), TYPED | {"bottom_mm": "high"})
    said = answer.content.decode()
    assert answer.status_code == 422
    assert "Write a length with its unit" in said
    assert '<details class="hanging" open>' in said
