"""A named, licensed person checks one version; until then nothing can be printed as ready."""

from __future__ import annotations

import re
from datetime import date

import pytest
from django.template.loader import render_to_string
from django.test import Client

from projects.models import LogEntry, Part, Site
from tests import factories
from worksheets.models import Review, Run, Worksheet
from worksheets.run import record, work_saved
from worksheets.selectors.on_paper import paper_context
from worksheets.selectors.reviews import checked, ready, unreviewed
from worksheets.services.saving import refreshed

WIND = {
    "code": "asce-7-16", "speed": "115 mph", "speed_from": "the map, category II",
    "width": "4 ft", "height": "5 ft", "bottom": "9 ft", "stands": "wall",
}  # fmt: skip
ANCHORS = {
    "report": "ESR test 12", "report_day": "2030-05-01", "report_for": "brick", "wall": "brick",
    "mass": "64 lb",
}  # fmt: skip
REVIEW = {
    "number": "1",
    "reviewer": "M. Harrowgate",
    "licence": "structural engineer, licence 4821",
    "day": "2031-03-03",
    "paper": "Letter HL-2",
    "note": "",
}


def kept(project, sheet="wind", typed=None, part=None) -> Worksheet:
    made = Worksheet.objects.create(
        project=project, sheet=sheet, title=f"{sheet.title()} of the lantern", part=part,
        typed=WIND if typed is None else typed,
    )  # fmt: skip
    record(made, work_saved(made), who="Ada")
    return made


def address(worksheet: Worksheet, tail: str = "") -> str:
    return f"/projects/{worksheet.project_id}/worksheets/{worksheet.pk}/{tail}"


def reviewed(worksheet: Worksheet) -> Review:
    return Review.objects.create(
        run=worksheet.runs.first(), reviewer="M. Harrowgate", licence="engineer 4821",
        day=factories.TODAY, entered_by="Ada",
    )  # fmt: skip


def state(worksheet: Worksheet):
    return checked(worksheet, work_saved(worksheet))


def test_a_review_names_the_person_the_licence_the_day_and_the_version(owner, project):
    found = kept(project)
    answer = owner.post(address(found, "review/"), REVIEW)
    assert answer.status_code == 302
    review = Review.objects.get()
    assert (review.run.number, review.reviewer, review.entered_by) == (1, "M. Harrowgate", "ada")
    assert review.day == date(2031, 3, 3)
    says = "M. Harrowgate, structural engineer, licence 4821, checked version 1"
    assert says in LogEntry.objects.first().sentence
    page = owner.get(address(found)).content.decode()
    assert "Checked by M. Harrowgate, structural engineer, licence 4821" in page


@pytest.mark.parametrize("missing", ["reviewer", "licence", "day"])
def test_a_review_without_name_licence_or_day_is_refused(owner, project, missing):
    found = kept(project)
    answer = owner.post(address(found, "review/"), {**REVIEW, missing: ""})
    assert answer.status_code == 422
    assert not Review.objects.exists()


def test_nobody_has_checked_it_tomorrow(owner, project):
    found = kept(project)
    answer = owner.post(address(found, "review/"), {**REVIEW, "day": "2031-03-04"})
    assert answer.status_code == 422
    assert "has not come yet" in answer.content.decode()


def test_nobody_has_checked_a_version_before_it_was_reckoned(owner, project):
    found = kept(project)
    answer = owner.post(address(found, "review/"), {**REVIEW, "day": "2020-01-01"})
    assert answer.status_code == 422
    assert "nobody can have checked it earlier" in answer.content.decode()


def test_a_new_version_makes_the_review_void_and_says_which_was_checked(owner, project):
    found = kept(project)
    reviewed(found)
    assert state(found).holds
    found.typed = {**WIND, "speed": "130 mph"}
    found.save()
    refreshed(found, who="Ada", why="changed")
    now = state(found)
    assert not now.holds
    assert now.says == "Not checked: M. Harrowgate checked version 1; this is version 2."
    assert now.says in owner.get(address(found)).content.decode()


def test_a_part_that_grew_makes_the_review_void_before_anybody_saves(project):
    part = factories.PartFactory(project=project, width_mm=1200, height_mm=1500)
    typed = {**WIND, "width": "", "height": ""}
    found = kept(project, typed=typed, part=part)
    reviewed(found)
    assert state(found).holds
    Part.objects.filter(pk=part.pk).update(height_mm=1900)
    found.refresh_from_db()
    now = state(Worksheet.objects.get(pk=found.pk))
    assert not now.holds
    assert "has changed since version 1" in now.says
    assert [each.worksheet for each in unreviewed(project)] == [found]


def test_a_review_of_an_older_version_is_not_taken(owner, project):
    found = kept(project)
    found.typed = {**WIND, "speed": "130 mph"}
    found.save()
    refreshed(found, who="Ada", why="changed")
    answer = owner.post(address(found, "review/"), {**REVIEW, "number": "1"})
    assert answer.status_code == 409
    assert "This is version 2 by now" in answer.content.decode()
    assert not Review.objects.exists()


@pytest.mark.parametrize(
    ("sheet", "typed"),
    [("wind", {**WIND, "speed_from": "Example, no site"}), ("anchors", {})],
)
def test_an_example_cannot_be_reviewed(owner, project, sheet, typed):
    found = kept(project, sheet, typed)
    answer = owner.post(address(found, "review/"), REVIEW)
    assert answer.status_code == 409
    assert "values of the example" in answer.content.decode()
    assert not Review.objects.exists()


def test_a_worksheet_without_a_result_cannot_be_reviewed(owner, project):
    found = kept(project, typed={**WIND, "code": "asce-7-22"})
    answer = owner.post(address(found, "review/"), REVIEW)
    assert answer.status_code == 409
    assert "no result yet" in answer.content.decode()


def test_a_second_review_of_a_version_is_not_taken(owner, project):
    found = kept(project)
    reviewed(found)
    assert owner.post(address(found, "review/"), REVIEW).status_code == 409
    assert Review.objects.count() == 1


def test_taking_a_review_back_is_logged_and_leaves_it_unchecked(partner, project):
    found = kept(project)
    reviewed(found)
    asked = partner.get(address(found, "review/delete/"))
    assert "Take back the review by M. Harrowgate?" in asked.content.decode()
    partner.post(address(found, "review/delete/"))
    assert not Review.objects.exists()
    assert LogEntry.objects.first().sentence.startswith("Took back the review of version 1")
    assert state(found).says == "Not checked by anybody yet."


def test_a_reader_enters_no_review_and_a_stranger_learns_nothing(reader, stranger, project):
    found = kept(project)
    assert reader.post(address(found, "review/"), REVIEW).status_code == 403
    assert reader.get(f"/projects/{project.pk}/worksheets/ready/").status_code == 200
    for tail in ("review/", "review/delete/"):
        assert stranger.get(address(found, tail)).status_code == 404
    for tail in ("ready/", "ready/paper"):
        assert stranger.get(f"/projects/{project.pk}/worksheets/{tail}").status_code == 404


def paper(client: Client, project):
    return client.get(f"/projects/{project.pk}/worksheets/ready/paper")


def test_the_paper_is_refused_with_reasons_until_every_licensed_worksheet_is_reviewed(
    owner, project
):
    wind, anchors = kept(project), kept(project, "anchors", ANCHORS)
    reviewed(wind)
    refused = paper(owner, project)
    assert refused.status_code == 409
    page = refused.content.decode()
    assert "Anchors of the lantern: not checked by anybody yet." in page
    assert "Wind of the lantern: " not in page
    reviewed(anchors)
    made = paper(owner, project)
    assert made.status_code == 200
    assert made["Content-Type"] == "application/pdf"
    assert made.content.startswith(b"%PDF")


def test_a_review_of_an_earlier_version_does_not_open_the_paper(owner, project):
    found = kept(project)
    reviewed(found)
    found.typed = {**WIND, "speed": "130 mph"}
    found.save()
    refreshed(found, who="Ada", why="changed")
    refused = paper(owner, project)
    assert refused.status_code == 409
    assert "checked version 1; this is version 2" in refused.content.decode()


def test_a_part_that_hangs_without_worksheets_is_not_checked_yet(owner, project):
    factories.PartFactory(project=project, name="Lantern frame", mounting="wall")
    found = ready(project)
    says = "Lantern frame: not checked yet: there is no worksheet on wind and anchors."
    assert found.reasons == [says]
    assert paper(owner, project).status_code == 409


@pytest.mark.parametrize(
    ("kind", "mounting", "missing"),
    [
        ("frame", "hung", ["wind", "anchors"]),
        ("sculpture", "ground", ["wind"]),
        ("frame", "", ["wind"]),
        ("light", "wall", ["anchors"]),
        ("planter", "wall", ["anchors"]),
        ("other", "wall", ["wind", "anchors"]),
        ("planter", "ground", []),
        ("skin", "hung", []),
        ("mural", "painted", []),
        ("frame", "painted", []),
    ],
)
def test_what_is_asked_of_a_part_follows_how_it_is_held(project, kind, mounting, missing):
    factories.PartFactory(project=project, kind=kind, mounting=mounting)
    assert [name for part in ready(project).parts for name in part.missing] == missing


def test_a_part_that_reaches_over_the_path_asks_for_wind(project):
    Site.objects.create(project=project, name="Pier", path_from_mm=900)
    factories.PartFactory(project=project, kind="other", depth_mm=800, name="Short")
    factories.PartFactory(project=project, kind="other", depth_mm=1000, name="Long")
    assert [part.name for part in ready(project).parts] == ["Long"]


def test_over_the_entered_limit_stays_said_after_a_review(project):
    found = kept(project, "anchors", {**ANCHORS, "pull_allowed": "5 lbf"})
    reviewed(found)
    now = ready(project)
    assert now.reasons == []
    assert now.remarks == [
        "Anchors of the lantern: over the entered limit. Its reviewer’s paper decides."
    ]


def test_no_page_of_the_gate_says_safe_or_shows_a_green_mark(owner, project):
    part = factories.PartFactory(project=project, mounting="wall")
    wind, anchors = kept(project, part=part), kept(project, "anchors", ANCHORS, part)
    reviewed(wind)
    reviewed(anchors)
    pages = [address(wind), address(anchors), f"/projects/{project.pk}/worksheets/ready/"]
    for url in pages:
        html = owner.get(url).content.decode()
        body = html[html.index('id="sheet"') :]
        text = re.sub(r"<[^>]+>", " ", body)
        assert not re.search(r"\bsafe(ly)?\b|✓|✔", text, re.IGNORECASE), url
        assert not re.search(r'class="[^"]*\bholds\b', body), url


def test_the_assumptions_stand_beside_the_number(owner, project):
    found = kept(project)
    html = owner.get(f"/projects/{project.pk}/worksheets/ready/").content.decode()
    assert "Not covered: gusts between buildings" in html
    assert "from the map, category II" in html
    assert Run.objects.filter(worksheet=found).count() == 1


def test_the_gate_asks_the_database_as_often_for_many_worksheets_as_for_few(
    project, django_assert_max_num_queries
):
    part = factories.PartFactory(project=project, mounting="wall")
    for _ in range(6):
        kept(project, part=part)
        kept(project, "anchors", ANCHORS)
    with django_assert_max_num_queries(9):
        assert len(ready(project).reasons) == 13


def test_a_worksheet_on_paper_names_no_reviewer_of_other_figures(project):
    part = factories.PartFactory(project=project, width_mm=1200, height_mm=1500)
    found = kept(project, typed={**WIND, "width": "", "height": ""}, part=part)
    reviewed(found)
    context = paper_context(project, found, factories.TODAY)
    assert "Checked by M. Harrowgate" in render_to_string("worksheets/paper.html", context)
    Part.objects.filter(pk=part.pk).update(height_mm=1900)
    grown = Worksheet.objects.get(pk=found.pk)
    html = render_to_string("worksheets/paper.html", paper_context(project, grown, factories.TODAY))
    assert "Checked by" not in html
    assert "has changed since version 1" in html


@pytest.mark.parametrize(
    ("sheet", "typed"),
    [
        ("planters", {"stands": "raised"}),
        ("skin", {"overhead": "yes"}),
        ("lights", {"public": "yes"}),
    ],
)
def test_inputs_that_can_hurt_raise_the_caution_and_stop_the_paper(owner, project, sheet, typed):
    """A planter on a roof, cloth over people, a lamp on the mains: a licensed person must look."""
    calm = kept(project, sheet, {})
    assert not state(calm).needed
    assert paper(owner, project).status_code == 200
    raised = kept(project, sheet, typed)
    assert state(raised).needed
    page = owner.get(address(raised)).content.decode()
    assert "Screening estimate" in page
    assert 'class="holds"' not in page.split('id="result"')[1]
    refused = paper(owner, project)
    assert refused.status_code == 409
    assert raised.title in refused.content.decode()
