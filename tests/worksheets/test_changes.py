"""A change to a part runs its worksheets anew and says what is different."""

from __future__ import annotations

import pytest
from django.test import Client

from projects.models import LogEntry, Membership, Part, Project, Role
from schedules.services import parts as parts_services
from tests import factories
from worksheets.models import Run, Worksheet
from worksheets.services import saving
from worksheets.sheets import sheets

pytestmark = pytest.mark.django_db
TYPED = {
    "count": "2",
    "length": "",
    "width": "",
    "depth": "",
    "dry": "14 lb/ft³",
    "wet": "38 lb/ft³",
}


@pytest.fixture
def trough() -> Part:
    project = factories.ProjectFactory()
    Membership.objects.create(project=project, user=factories.user("ada"), role=Role.OWNER)
    return factories.PartFactory(
        project=project, name="Fern trough", kind="planter", width_mm=1219, depth_mm=610,
        height_mm=457,
    )  # fmt: skip


@pytest.fixture
def kept(trough: Part) -> Worksheet:
    worksheet, _ = saving.begin(
        project=trough.project, sheet=sheets()["planters"], title="Soil", part=trough,
        typed=TYPED, user=factories.user("ada"),
    )  # fmt: skip
    return worksheet


def save(part: Part) -> str:
    return parts_services.part_save(part=part, maker=None, stages=[], user=factories.user("ada"))


def test_a_longer_trough_needs_more_soil_and_says_so_at_once(trough: Part, kept: Worksheet) -> None:
    trough.width_mm = 1829
    said = save(trough)
    assert "“Soil”: Soil to buy: 24.1 ft³ (680 L) → 36.1 ft³ (1,020 L)" in said
    last = kept.runs.first()
    assert last and last.number == 2
    assert last.why == "Changed the part “Fern trough”."
    assert LogEntry.objects.get(sentence__contains="→ 36.1 ft³").sentence == said


def test_a_change_that_the_worksheet_does_not_use_makes_no_version(
    trough: Part, kept: Worksheet
) -> None:
    trough.finish = "Oiled"
    assert save(trough) == "Changed the part “Fern trough”."
    assert kept.runs.count() == 1


def test_a_worksheet_without_its_part_says_what_it_misses(trough: Part, kept: Worksheet) -> None:
    said = parts_services.part_delete(part=trough, user=factories.user("ada"))
    assert "This is needed" in said
    last = kept.runs.first()
    assert last and last.problem.startswith("Length, or diameter: This is needed.")


def test_the_parts_sheet_shows_what_was_worked_out_and_what_changed(
    client: Client, trough: Part, kept: Worksheet
) -> None:
    trough.width_mm = 1829
    save(trough)
    client.force_login(factories.user("ada"))
    page = client.get(f"/projects/{trough.project.pk}/parts/").content.decode()
    assert "2 to fill with 36.1 ft³" in page
    assert "Changed: Soil to buy: 24.1 ft³ (680 L) → 36.1 ft³ (1,020 L)" in page


def test_the_notes_of_many_parts_take_a_fixed_number_of_queries(
    trough: Part, django_assert_num_queries: object
) -> None:
    from worksheets.changes import notes

    def kept_for(part: Part) -> None:
        saving.begin(
            project=part.project, sheet=sheets()["planters"], title=f"Soil of {part.pk}",
            part=part, typed=TYPED, user=factories.user("ada"),
        )  # fmt: skip

    project: Project = trough.project
    kept_for(trough)
    with django_assert_num_queries(4):  # type: ignore[operator]
        notes(project, factories.TODAY)
    for number in range(5):
        other = Part.objects.get(pk=trough.pk)
        other.pk, other.name = None, f"Trough {number}"
        other.save()
        kept_for(other)
    assert Run.objects.count() == 6
    with django_assert_num_queries(4):  # type: ignore[operator]
        notes(project, factories.TODAY)


def test_many_worksheets_that_stay_as_they_are_take_a_fixed_number_of_queries(
    trough: Part, kept: Worksheet, django_assert_max_num_queries: object
) -> None:
    project, ada = trough.project, factories.user("ada")
    for number in range(6):
        saving.begin(
            project=project, sheet=sheets()["planters"], title=f"Soil {number}", part=trough,
            typed=TYPED, user=ada,
        )  # fmt: skip
    with django_assert_max_num_queries(10):  # type: ignore[operator]
        assert saving.rerun_all(project=project, why="Nothing changed.", user=ada) == []
