"""The pages of a worksheet: tried, kept, changed, looked at again."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client

from projects.models import Membership, Part, Project, Role
from tests import factories
from worksheets.models import Run, Worksheet

pytestmark = pytest.mark.django_db
TYPED = {
    "title": "Fern troughs", "part": "", "count": "2", "shape": "box", "length": "4 ft",
    "width": "2 ft", "depth": "18 in", "taper": "75 %", "fill": "100 %", "stands": "ground",
    "dry": "14 lb/ft³", "wet": "38 lb/ft³", "gravity": "2.6", "container": "0 lb",
    "plants": "0 lb", "reservoir": "0 gal",
}  # fmt: skip


@pytest.fixture
def project() -> Project:
    project = factories.ProjectFactory()
    Membership.objects.create(project=project, user=factories.user("ada"), role=Role.OWNER)
    return project


@pytest.fixture
def ada(client: Client, project: Project) -> Client:
    client.force_login(factories.user("ada"))
    return client


def address(project: Project, rest: str = "") -> str:
    return f"/projects/{project.pk}/worksheets/{rest}"


def keep(ada: Client, project: Project, **more: str) -> Worksheet:
    answer = ada.post(address(project, "new/planters/"), {**TYPED, **more})
    assert answer.status_code == 302
    return Worksheet.objects.get()


def text(answer: Any) -> str:
    return answer.content.decode()


def test_a_worksheet_opens_with_an_example_worked_out(ada: Client, project: Project) -> None:
    page = text(ada.get(address(project, "new/planters/")))
    assert "Soil to buy" in page
    assert "Check it against the product data sheet." in page


def test_the_published_example_can_be_seen_worked_out(ada: Client, project: Project) -> None:
    page = text(ada.get(address(project, "new/planters/?recipe=1")))
    assert "456 lb (207 kg)" in page


def test_what_is_typed_is_worked_out_before_it_is_kept(ada: Client, project: Project) -> None:
    page = text(ada.post(address(project, "new/planters/try/"), {**TYPED, "length": "8 ft"}))
    assert "48 ft³" in page
    assert not Worksheet.objects.exists()


def test_a_wrong_unit_is_said_beside_its_field_and_nothing_is_lost(
    ada: Client, project: Project
) -> None:
    page = text(ada.post(address(project, "new/planters/try/"), {**TYPED, "length": "3 kg"}))
    assert "“3 kg” is a mass. Write a length" in page
    kept = keep(ada, project, length="3 kg")
    assert kept.typed["length"] == "3 kg"
    assert "“3 kg” is a mass" in text(ada.get(address(project, f"{kept.pk}/")))


def test_a_kept_worksheet_has_a_version_for_each_change(ada: Client, project: Project) -> None:
    kept = keep(ada, project)
    ada.post(address(project, f"{kept.pk}/"), {**TYPED, "version": "1", "count": "3"})
    first, second = Run.objects.order_by("number")
    assert (first.number, second.number) == (1, 2)
    page = text(ada.get(address(project, f"{kept.pk}/runs/2/")))
    assert "Soil to buy: 24 ft³ (680 L) → 36 ft³ (1,020 L)" in page


def test_saving_what_changes_nothing_makes_no_version(ada: Client, project: Project) -> None:
    kept = keep(ada, project)
    ada.post(address(project, f"{kept.pk}/"), {**TYPED, "version": "1", "title": "Troughs"})
    assert Run.objects.count() == 1
    assert Worksheet.objects.get().title == "Troughs"


def test_of_two_who_change_it_the_second_is_told_and_keeps_what_was_typed(
    ada: Client, project: Project
) -> None:
    kept = keep(ada, project)
    ada.post(address(project, f"{kept.pk}/"), {**TYPED, "version": "1", "count": "3"})
    late = ada.post(address(project, f"{kept.pk}/"), {**TYPED, "version": "1", "count": "9"})
    assert late.status_code == 409
    assert "Somebody else saved this worksheet" in text(late)
    assert 'value="9"' in text(late)
    assert Worksheet.objects.get().typed["count"] == "3"


def test_an_empty_field_takes_the_size_of_the_part(ada: Client, project: Project) -> None:
    part = Part.objects.create(
        project=project, name="Fern trough", kind="planter", width_mm=1219, depth_mm=610,
        height_mm=457,
    )  # fmt: skip
    kept = keep(ada, project, part=str(part.pk), length="", width="", depth="")
    run = kept.runs.get()
    assert run.taken["length"] == [1.219, "the width of “Fern trough”"]
    assert "12 ft³" not in run.says


def test_a_name_is_asked_for(ada: Client, project: Project) -> None:
    answer = ada.post(address(project, "new/planters/"), {**TYPED, "title": " "})
    assert answer.status_code == 422
    assert "Give it a name" in text(answer)


def test_it_prints_with_its_formula_and_sources(ada: Client, project: Project) -> None:
    kept = keep(ada, project)
    answer = ada.get(address(project, f"{kept.pk}/paper"))
    assert answer["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


def test_taking_it_away_asks_first(ada: Client, project: Project) -> None:
    kept = keep(ada, project)
    assert "Take away" in text(ada.get(address(project, f"{kept.pk}/delete/")))
    ada.post(address(project, f"{kept.pk}/delete/"))
    assert not Worksheet.objects.exists()


def test_an_unknown_kind_is_no_page(ada: Client, project: Project) -> None:
    assert ada.get(address(project, "new/spells/")).status_code == 404


def test_the_sources_page_says_which_were_not_read_again(ada: Client, project: Project) -> None:
    page = text(ada.get(address(project, "sources/")))
    assert "not read again" in page
    assert "ASTM E2397" in page


def test_the_list_says_what_each_worksheet_found(ada: Client, project: Project) -> None:
    assert "Nothing has been worked out yet" in text(ada.get(address(project)))
    keep(ada, project)
    page = text(ada.get(address(project)))
    assert "1 worksheet, and none is over a limit" in page
    assert "2 to fill with 24 ft³" in page


def test_rows_are_pasted_from_a_spreadsheet(ada: Client, project: Project) -> None:
    pasted = "Post\t2\t11.25 kg\nArm\t1\t5.5 kg"
    answer = ada.post(
        address(project, "new/lifting/"),
        {"title": "Frame", "more": "pieces", "pieces-pasted": pasted},
    )
    assert answer.status_code == 200
    assert 'value="11.25 kg"' in text(answer)
    assert not Worksheet.objects.exists()


def test_paper_says_each_input_as_typed_chosen_or_taken(ada: Client, project: Project) -> None:
    part = Part.objects.create(project=project, name="Trough", kind="planter", width_mm=1219)
    kept = keep(ada, project, part=str(part.pk), length="")
    page = text(ada.get(address(project, f"{kept.pk}/runs/1/")))
    assert "4 ft (1.22 m), from the width of “Trough”" in page
    assert "On the ground" in page
