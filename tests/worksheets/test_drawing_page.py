"""The page with elevation and section, its paper, and where other pages show it."""

from __future__ import annotations

import io
from datetime import date
from typing import Any

import pdfplumber
import pytest
from django.test import Client
from django.urls import reverse

from packets.sections.elevation import section as packet_section
from projects.models import Membership, Part, Project, Role, Site
from tests import factories
from worksheets.models import Worksheet
from worksheets.selectors.drawn import drawn

pytestmark = pytest.mark.django_db


@pytest.fixture
def project() -> Project:
    project = factories.ProjectFactory()
    Site.objects.filter(project=project).delete()
    Site.objects.create(
        project=project, name="Pier", width_mm=7620, height_mm=6400, path_from_mm=1219,
        path_width_mm=2743,
    )  # fmt: skip
    Membership.objects.create(project=project, user=factories.user("ada"), role=Role.OWNER)
    Part.objects.create(
        project=project, name="Crank", kind="light", mounting="wall", width_mm=300, height_mm=400,
        depth_mm=200, left_mm=4572, bottom_mm=737, used_mm=864,
    )  # fmt: skip
    return project


@pytest.fixture
def ada(client: Client, project: Project) -> Client:
    client.force_login(factories.user("ada"))
    return client


def page(ada: Client, project: Project, query: str = "") -> str:
    return text(ada.get(reverse("worksheets:drawing", args=[project.pk]) + query))


def text(answer: Any) -> str:
    assert answer.status_code == 200
    return answer.content.decode().replace("\u00a0", " ")


def test_the_page_shows_both_drawings_and_says_the_finding_in_words(
    ada: Client, project: Project
) -> None:
    said = page(ada, project)
    assert said.count("<svg") == 4  # each for desks and for phones
    assert "Lower the edge to 27 in (686 mm) or less" in said
    assert "2010 ADA Standards 307.2" in said
    assert "One thing is over a limit" in said


def test_moving_the_part_mends_the_finding(ada: Client, project: Project) -> None:
    Part.objects.update(bottom_mm=640, used_mm=813)
    assert "Nothing is over a limit of the chosen rules." in page(ada, project)


def test_another_rule_set_and_other_people_give_other_findings(
    ada: Client, project: Project
) -> None:
    Part.objects.update(bottom_mm=640, used_mm=1000)
    assert "Nothing is over" in page(ada, project, "?rules=us-2010&adults=yes&young=yes")
    small = page(ada, project, "?rules=us-2010&adults=yes&small=yes")
    assert "36 in (914 mm) for ages 3 to 4" in small
    europe = page(ada, project, "?rules=iso-21542&adults=yes")
    assert "ISO 21542:2021, obstacles along paths (from memory)" in europe
    assert "ADA Standards 307" not in europe


@pytest.mark.parametrize("query", ["?rules=nothing", "?rules=", "?rules=us-2010", "?adults=x"])
def test_a_strange_choice_falls_back_on_what_is_known(
    ada: Client, project: Project, query: str
) -> None:
    assert "2010 ADA Standards" in page(ada, project, query)


def test_the_kept_worksheet_on_reach_chooses_for_the_drawing(project: Project) -> None:
    typed = {"rules": "iso-21542", "adults": "yes", "small": "no", "young": "no", "older": "no"}
    Worksheet.objects.create(project=project, sheet="reach", title="Reach", typed=typed)
    found = drawn(project)
    assert found.rules_title.startswith("ISO 21542")
    assert found.users == "adults"


def test_a_worksheet_that_cannot_be_read_does_not_break_the_drawing(project: Project) -> None:
    typed = {"rules": "gone", "path_width": "wide", "adults": "no", "young": "no", "older": "no"}
    Worksheet.objects.create(project=project, sheet="reach", title="Reach", typed=typed)
    assert drawn(project).rules_title.startswith("2010 ADA")


def test_without_a_path_none_is_made_up(project: Project) -> None:
    Site.objects.update(path_from_mm=None, path_width_mm=None)
    found = drawn(project)
    assert found.scene.path_width is None
    assert any("path is not written" in each.says for each in found.said)


def test_a_project_that_measures_in_metres_is_held_against_the_european_set(
    project: Project,
) -> None:
    Project.objects.update(country="SE")
    found = drawn(Project.objects.get())
    assert found.rules_title.startswith("ISO 21542")
    assert found.scene.feet is False


def test_a_part_past_the_wall_is_a_finding(ada: Client, project: Project) -> None:
    Part.objects.update(left_mm=7500)
    assert "past the wall’s right end" in page(ada, project)


def test_a_part_without_heights_is_asked_for_them_and_one_without_a_size_is_named(
    ada: Client, project: Project
) -> None:
    Part.objects.update(bottom_mm=None)
    Part.objects.create(project=project, name="Plaque", kind="other")
    said = page(ada, project)
    assert "how high its lowest edge is, is not written" in said
    assert "for want of a size: Plaque" in said


def test_a_project_without_sizes_is_told_where_to_write_them(ada: Client, project: Project) -> None:
    Part.objects.all().delete()
    said = page(ada, project)
    assert "A part is drawn when its width or height is written" in said
    assert "<svg" not in said.split('id="sheet"')[1]


def test_the_paper_has_both_drawings_to_scale(ada: Client, project: Project) -> None:
    answer = ada.get(reverse("worksheets:drawing_paper", args=[project.pk]))
    assert answer["Content-Type"] == "application/pdf"
    with pdfplumber.open(io.BytesIO(answer.content)) as pdf:
        said = " ".join(leaf.extract_text() for leaf in pdf.pages)
        wall = max(pdf.pages[0].rects, key=lambda rect: rect["width"] * (rect["height"] > 100))
    assert "Elevation" in said and "Section" in said and "307.2" in said
    assert wall["width"] / 72 * 0.0254 * 64 == pytest.approx(7.62, abs=0.01)  # at 1 : 64


def test_the_parts_sheet_shows_the_elevation_with_its_findings_beside_it(
    ada: Client, project: Project
) -> None:
    said = text(ada.get(reverse("schedules:parts", args=[project.pk])))
    assert "Elevation" in said and "<svg" in said
    assert "Lower the edge to 27 in" in said
    assert reverse("worksheets:drawing", args=[project.pk]) in said
    assert reverse("worksheets:new", args=[project.pk, "reach"]) in said


def test_a_stranger_sees_no_drawing(client: Client, project: Project) -> None:
    client.force_login(factories.user("eve"))
    for name in ("drawing", "drawing_paper"):
        assert client.get(reverse(f"worksheets:{name}", args=[project.pk])).status_code == 404


def test_the_packet_prints_it_and_knows_when_a_part_was_moved(project: Project) -> None:
    today = date(2031, 3, 3)
    before = packet_section.facts(packet_section.context(project, today))
    Part.objects.update(bottom_mm=640)
    after = packet_section.facts(packet_section.context(project, today))
    changed = {name for name in before if before[name] != after[name]}
    assert changed == {"Crank on the elevation", "Findings on reach"}
    Part.objects.all().delete()
    context = packet_section.context(project, today)
    assert packet_section.missing(context) == "No part has its size yet"


def test_the_worksheet_takes_the_parts_and_mends_with_them(ada: Client, project: Project) -> None:
    said = text(ada.get(reverse("worksheets:new", args=[project.pk, "reach"])))
    assert "1 thing to change before the drawing goes out (Crank)" in said


def test_a_thing_that_is_used_by_hand_needs_its_height(ada: Client, project: Project) -> None:
    typed = {
        "title": "Reach", "rules": "us-2010", "adults": "on", "walked": "on", "try": "1",
        "things-0-name": "Crank", "things-0-what": "used", "things-0-mounting": "wall",
        "things-0-approach": "forward", "floor_approach": "forward",
    }  # fmt: skip
    answer = ada.post(reverse("worksheets:new", args=[project.pk, "reach"]), typed)
    assert "It is used by hand: write at what height" in answer.content.decode()


def test_somebody_must_use_it(ada: Client, project: Project) -> None:
    typed = {"title": "Reach", "rules": "us-2010", "floor_approach": "forward", "try": "1"}
    answer = ada.post(reverse("worksheets:new", args=[project.pk, "reach"]), typed)
    assert "Tick at least one of those who will" in answer.content.decode()


def test_anchors_of_a_worksheet_stand_behind_the_middle_of_their_part(project: Project) -> None:
    frame = Part.objects.create(
        project=project, name="Frame", kind="frame", mounting="wall", width_mm=1200,
        height_mm=1500, depth_mm=1200, left_mm=1000, bottom_mm=2800,
    )  # fmt: skip
    Worksheet.objects.create(
        project=project, sheet="anchors", title="Bracket", part=frame,
        typed={"bolts": [{"x": "0 mm", "y": "0 mm"}, {"x": "200 mm", "y": "300 mm"}]},
    )  # fmt: skip
    found = drawn(project)
    places = sorted((round(x, 3), round(y, 3)) for x, y in found.scene.anchors)
    assert places == [(1.5, 3.4), (1.7, 3.7)]
    assert found.elevation.count('class="anchor"') == 2
    assert "Anchors, laid on the middle of their part" in found.elevation
