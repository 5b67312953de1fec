"""The details of a project and its overview."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from projects import hooks
from projects.models import LogEntry, Picture, Project
from projects.selectors.details import details_of, site_of
from tests import factories

TYPED = {
    "name": "Hearthlight",
    "summary": "A mural and a lantern that visitors charge by hand.",
    "phase": "under_way",
    "site_name": "North pier",
    "site_address": "Mill Lane",
    "site_owner": "Wexcombe Mills",
    "site_width": "24 ft",
    "site_height": "12 ft 6 in",
    "site_ground": "Old brick,\r\nsound.",
    "country": "US",
    "zone": "America/New_York",
    "currency": "USD",
}


@pytest.fixture
def url(project):
    return reverse("projects:details", args=[project.pk])


@pytest.fixture
def recomputed():
    told = []
    hooks.changes.register("tests.told")(lambda project, today: told.append(project.country))
    yield told
    del hooks.changes._functions["tests.told"]


def test_details_are_saved_and_the_log_names_what_changed(project, owner, url):
    owner.post(url, TYPED)
    site = site_of(project)
    assert (site.width_mm, site.height_mm) == (7315, 3810)
    words = LogEntry.objects.get().sentence
    assert words.startswith("Changed the sentence, site, address")
    assert "name" not in words


def test_saving_the_same_again_writes_nothing(project, owner, url):
    owner.post(url, TYPED)
    again = dict(details_of(Project.objects.get()))
    again |= {"site_width": "7315 mm", "site_height": "3810 mm"}
    assert "Nothing was different." in owner.post(url, again, follow=True).content.decode()
    assert LogEntry.objects.count() == 1


def test_another_country_computes_the_plan_anew_and_another_name_does_not(owner, url, recomputed):
    owner.post(url, TYPED)
    assert recomputed == []
    owner.post(url, TYPED | {"country": "CA"})
    assert recomputed == ["CA"]


def test_a_country_that_is_not_on_the_list_stays_when_it_is_in_use(project, owner, url):
    Project.objects.update(country="JP", zone="Asia/Tokyo")
    assert owner.post(url, TYPED | {"country": "JP", "zone": "Asia/Tokyo"}).status_code == 302


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"name": " "}, "This cannot stay empty."),
        ({"site_width": "wide"}, "Write a length with its unit"),
        ({"site_ground": "x" * 100_000}, "100,000 characters; at most 20,000"),
        ({"phase": "dream"}, "not one of the available choices"),
    ],
)
def test_bad_details_are_answered_and_lose_nothing(owner, url, typed, sentence):
    page = owner.post(url, TYPED | typed)
    assert page.status_code == 422
    assert sentence in page.content.decode()
    assert TYPED["summary"] in page.content.decode()


def test_the_overview_shows_how_far_each_part_is(project, reader):
    part = factories.PartFactory(project=project)
    for place, (name, done) in enumerate([("design", "2031-02-01"), ("make", None)]):
        part.stages.create(name=name, position=place, done_on=done)
    page = reader.get(reverse("projects:overview", args=[project.pk])).content.decode()
    assert "Lantern frame" in page
    assert "1 of 2 stages done; next: make" in page


def test_a_reader_sees_the_overview_without_ways_to_change_it(project, reader):
    page = reader.get(reverse("projects:overview", args=[project.pk])).content.decode()
    assert "People" in page
    assert reverse("projects:details", args=[project.pk]) not in page
    assert "Add a picture" not in page


def test_the_first_panel_with_a_sentence_leads_the_overview(project, owner):
    say = hooks.Panel(title="First", rows=(), empty="", sentence="Weld the frame by Friday.")
    hooks.overview.register("tests.leads", place=0)(lambda project, today: say)
    try:
        page = owner.get(reverse("projects:overview", args=[project.pk])).content.decode()
    finally:
        del hooks.overview._functions["tests.leads"]
    assert '<p class="lede">Weld the frame by Friday.</p>' in page


def test_more_parts_and_pictures_take_no_more_queries(project, owner):
    url = reverse("projects:overview", args=[project.pk])

    def queries():
        with CaptureQueriesContext(connection) as found:
            owner.get(url)
        return len(found)

    grow(project)
    queries()
    before = queries()
    for _ in range(5):
        grow(project)
    assert queries() == before


def grow(project):
    part = factories.PartFactory(project=project)
    part.stages.create(name="design", position=0)
    Picture.objects.create(
        project=project, part=part, file="x.jpg", caption="Pier", alt="A pier",
        width=60, height=40, size=4,
    )  # fmt: skip
