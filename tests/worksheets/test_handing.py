"""What was handed on is remembered: a later run says when it is another, and where it went."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from budgets.models import BudgetLine
from projects.models import Part
from schedules.models import Task
from tests import factories
from tests.worksheets.handing import HTMX, Place, seen_in
from worksheets.engine.result import ToLine, ToPart, ToTask
from worksheets.models import Handed, Run, Worksheet
from worksheets.selectors.listing import listing
from worksheets.services import handing, saving
from worksheets.sheets import sheets

pytestmark = pytest.mark.django_db
SOIL = ToLine(key="soil", label="Soil", quantity=12, unit="ft³")
MORE = ToLine(key="soil", label="Soil", quantity=14, unit="ft³")
MASS = ToPart(key="mass", label="Wet mass", mass=413.67624)
DAYS = ToTask(key="days", label="Days of planting", days=3)


@pytest.fixture(autouse=True)
def hands(place: Place) -> None:
    place.rerun(SOIL, MASS, DAYS)


def behind(place: Place) -> list[bool]:
    return [
        kept.behind
        for _, entries in listing(place.project).groups
        for entry in entries
        for kept in entry.kept
    ]


def test_a_kept_worksheet_offers_what_it_has_to_hand_on(place: Place) -> None:
    page = place.page()
    assert "<b>Soil</b>, to a budget line: 12 ft³" in page
    assert "<b>Wet mass</b>, to a part: mass 912 lb (414 kg)" in page
    assert "<b>Days of planting</b>, to a task: 3 working days" in page


def test_it_is_remembered_what_was_handed_on_and_where(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    row = place.handed
    assert (row.key, row.what, row.line) == ("soil", "12 ft³", BudgetLine.objects.get())
    assert row.run_number == place.worksheet.runs.first().number  # type: ignore[union-attr]
    assert "12 ft³ at $3.50, $42 in all, to the line “Soil”" in place.page()
    assert behind(place) == [False]


def test_a_later_run_says_what_it_was_and_is_now_and_hands_it_on_again(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    place.rerun(MORE, MASS)
    page = place.page()
    assert "<b>Changed since.</b>" in page
    assert "It was 12 ft³ then; it is 14 ft³ now." in page
    assert "Hand it on again" in page
    assert behind(place) == [True]
    assert place.opened("soil")["line"] == str(BudgetLine.objects.get().pk)
    place.send("soil", unit_cents="3.50")
    assert BudgetLine.objects.get().quantity_hundredths == 1400
    assert behind(place) == [False]
    assert Handed.objects.count() == 1


def test_the_list_leads_to_what_has_changed_since(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    place.rerun(MORE)
    page = place.client.get(f"/projects/{place.project.pk}/worksheets/").content.decode()
    assert "“Soil of the troughs” has changed since it was handed on." in page


def test_another_hand_that_changes_leaves_this_one_as_it_was(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    place.rerun(SOIL, ToPart(key="mass", label="Wet mass", mass=500))
    assert behind(place) == [False]
    assert "<b>Changed since.</b>" not in place.page()


def test_what_the_result_no_longer_has_is_said(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    place.rerun(MASS)
    assert "The result has no such amount now." in place.page()
    assert behind(place) == [True]


def test_a_result_that_is_gone_is_behind_what_was_handed_on(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    place.worksheet.typed = {**place.worksheet.typed, "length": "3 kg"}
    place.worksheet.save()
    place.rerun(SOIL)
    assert behind(place) == [True]
    assert "The result has no such amount now." in place.page()
    assert place.client.get(place.url("soil")).status_code == 404


def test_a_target_that_was_deleted_is_said_and_another_can_be_chosen(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    BudgetLine.objects.all().delete()
    assert "The budget line it went to was deleted since." in place.page()
    assert place.opened("soil")["line"] == ""
    place.send("soil", unit_cents="3.50")
    assert "was deleted since" not in place.page()


@pytest.mark.parametrize(("key", "rows", "says"), [
    ("mass", Part, "The part it went to was deleted since."),
    ("days", Task, "The task it went to was deleted since."),
])  # fmt: skip
def test_every_kind_of_target_may_be_deleted(place: Place, key: str, rows: Any, says: str) -> None:
    task = factories.TaskFactory(project=place.project, name="Plant the ferns")
    place.send(key, **({"task": task.pk} if key == "days" else {}))
    rows.objects.all().delete()
    assert says in place.page()


def test_a_target_deleted_while_the_form_is_open_is_refused_in_words(place: Place) -> None:
    line = factories.LineFactory(project=place.project, name="Planting")
    data = {**place.opened("soil"), "line": line.pk, "unit_cents": "3.50", "seen": "x"}
    line.delete()
    answer = place.client.post(place.url("soil"), data)
    assert answer.status_code == 422
    assert "That is not in the list. Choose again." in answer.content.decode()


def in_the_same_moment(place: Place, line: BudgetLine) -> None:
    """What was agreed to is another by the time that it is done."""
    values = {"line": line, "quantity_hundredths": 1200, "unit": "ft³", "unit_cents": 350,
              "planned_cents": None, "name": "", "category": "materials"}  # fmt: skip
    with pytest.raises(handing.Overtaken):
        handing.hand_on(
            worksheet=place.worksheet, key="soil", values=values, seen=f"line-{line.pk}:before",
            user=factories.user("ada"), today=factories.TODAY,
        )  # fmt: skip
    assert not Handed.objects.exists()


def test_a_target_deleted_in_the_same_moment_leaves_nothing_half_done(place: Place) -> None:
    line = factories.LineFactory(project=place.project, name="Planting")
    BudgetLine.objects.all().delete()
    in_the_same_moment(place, line)


def test_a_target_changed_in_the_same_moment_is_left_as_it_is(place: Place) -> None:
    line = factories.LineFactory(project=place.project, name="Planting")
    in_the_same_moment(place, line)
    line.refresh_from_db()
    assert line.quantity_hundredths is None


def test_a_worksheet_changed_while_the_form_is_open_is_looked_at_again(place: Place) -> None:
    seen = place.look("soil", unit_cents="3.50").split('name="seen" value="')[1].split('"')[0]
    place.rerun(MORE)
    answer = place.send("soil", seen=seen, unit_cents="3.50")
    assert answer.status_code == 409
    assert "Something was changed while you had this open." in answer.content.decode()
    assert not BudgetLine.objects.exists()


def test_handing_on_keeps_the_very_version_that_was_handed_on(place: Place) -> None:
    Run.objects.update(says="Older.", hands={})
    place.send("soil", unit_cents="3.50")
    last = place.worksheet.runs.first()
    assert last
    assert (last.number, last.hands["soil"]) == (place.handed.run_number, "12 ft³")
    assert last.why == "Run anew to be handed on."
    assert behind(place) == [False]


def test_looking_keeps_nothing(place: Place) -> None:
    page = place.look("soil", unit_cents="3.50")
    assert "a new line “Soil” under materials" in page
    place.look("soil", unit_cents="4", seen=seen_in(page))
    assert not BudgetLine.objects.exists()
    assert not Handed.objects.exists()


def test_the_form_opens_under_its_own_heading_and_can_be_left(place: Place) -> None:
    page = place.page("soil")
    assert "Hand on “Soil” to a budget line" in page
    assert f'href="{place.url()}"' in page
    assert page.count("<b>Soil</b>") == 1


def test_with_htmx_the_answer_is_the_sheet_and_its_sentence(place: Place) -> None:
    data = place.opened("mass")
    seen = place.page("mass").split('name="seen" value="')[1].split('"')[0]
    answer = place.client.post(place.url("mass"), {**data, "seen": seen}, headers=HTMX)
    assert answer.status_code == 200
    page = answer.content.decode()
    assert 'id="kept"' in page
    assert "Handed on “Wet mass” of “Soil of the troughs”" in page


def test_a_reader_sees_what_was_handed_on_and_changes_nothing(place: Place, reader: Client) -> None:
    place.send("soil", unit_cents="3.50")
    page = reader.get(place.url()).content.decode()
    assert "to the line “Soil”" in page
    assert "/hand/soil/" not in page
    assert reader.get(place.url("soil")).status_code == 403
    assert reader.post(place.url("mass"), place.opened("mass")).status_code == 403


def test_a_stranger_finds_nothing(place: Place, stranger: Client) -> None:
    assert stranger.get(place.url("soil")).status_code == 404
    assert stranger.post(place.url("soil")).status_code == 404


def test_what_a_result_does_not_hand_on_is_no_page(place: Place) -> None:
    assert place.client.get(place.url("spells")).status_code == 404


def test_a_worksheet_that_is_taken_away_leaves_what_it_handed_on(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    place.client.post(place.url(rest="delete/"))
    assert not Worksheet.objects.exists()
    assert BudgetLine.objects.get().quantity_hundredths == 1200


def queries(call: Any) -> int:
    with CaptureQueriesContext(
        connection,
    ) as counted:
        call()
    return len(counted)


def test_its_page_takes_a_constant_number_of_queries(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    few = queries(place.page)
    task = factories.TaskFactory(project=place.project, name="Plant the ferns")
    place.send("mass")
    place.send("days", task=task.pk)
    for _ in range(4):
        saving.rerun_all(project=place.project, why="", user=None)
    assert queries(place.page) == few


def test_the_list_takes_a_constant_number_of_queries(place: Place) -> None:
    place.send("soil", unit_cents="3.50")
    few = queries(lambda: listing(place.project))
    for number in range(4):
        saving.begin(
            project=place.project, sheet=sheets()["planters"],
            title=f"Soil {number}", part=None, typed=place.worksheet.typed,
            user=factories.user("ada"),
        )  # fmt: skip
    assert queries(lambda: listing(place.project)) == few
