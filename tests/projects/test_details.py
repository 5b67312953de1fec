"""The details of a project and its overview."""

from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from projects import hooks
from projects.forms.position import PositionField
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
    "site_path_from": "0",
    "site_path_width": "9 ft",
    "site_kerb": "6 in",
    "site_ground": "Old brick,\r\nsound.",
    "site_position": "42.00, -72.50",
    "country": "US",
    "region": "",
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
    assert (site.latitude, site.longitude) == (Decimal("42.00"), Decimal("-72.50"))
    assert "name" not in words


def test_a_path_that_begins_at_the_wall_is_kept_as_nothing_and_not_as_unknown(project, owner, url):
    owner.post(url, TYPED)
    site = site_of(project)
    assert (site.path_from_mm, site.path_width_mm, site.kerb_mm) == (0, 2743, 152)
    assert 'value="0 in"' in owner.get(url).content.decode()


def test_saving_the_same_again_writes_nothing(project, owner, url):
    owner.post(url, TYPED)
    again = dict(details_of(Project.objects.get()))
    again |= {"site_width": "7315 mm", "site_height": "3810 mm", "site_position": "42 N, 72.5 W"}
    again |= {"site_path_from": "0 in", "site_path_width": "9 ft", "site_kerb": "6 in"}
    assert "Nothing was different." in owner.post(url, again, follow=True).content.decode()
    assert LogEntry.objects.count() == 1


def test_another_country_computes_the_plan_anew_and_another_name_does_not(owner, url, recomputed):
    owner.post(url, TYPED | {"site_position": ""})
    assert recomputed == []
    owner.post(url, TYPED | {"site_position": "", "country": "CA"})
    assert recomputed == ["CA"]


@pytest.mark.parametrize("change", [{"region": "HI"}, {"site_position": "42, -72.5"}])
def test_another_region_or_place_computes_the_plan_anew(owner, url, recomputed, change):
    owner.post(url, TYPED | {"site_position": ""})
    owner.post(url, TYPED | {"site_position": ""} | change)
    assert recomputed == ["US"]


def test_the_regions_follow_the_country_that_is_chosen(owner, url):
    page = owner.get(url, {"country": "CA"}).content.decode()
    assert "All of Canada" in page and "Quebec" in page and "Massachusetts" not in page


def test_the_region_of_another_country_is_refused_and_the_right_ones_are_offered(owner, url):
    answer = owner.post(url, TYPED | {"country": "CA", "region": "MA"})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "That is not in Canada. Choose one of its regions, or all of it." in page
    assert '<option value="QC">Quebec</option>' in page


def test_a_country_without_regions_offers_the_whole(owner, url):
    page = owner.get(url, {"country": "IE"}).content.decode()
    assert page.count("All of Ireland") == 1


PASTED = [
    ("51.50, -0.12", ("51.50", "-0.12")),
    ("51.50 −0.12", ("51.50", "-0.12")),
    ("51.50° N, 0.12° W", ("51.50", "-0.12")),
    ("33.9 S; 151.2 E", ("-33.9", "151.2")),
    ("+42, +072.500001", ("42", "72.5")),
    ("42°30′36″N 72°1′48″W", ("42.51", "-72.03")),
    ("42° 30′, 72° 1.5′", ("42.5", "72.025")),
    ("42° 30' S, 0° 30' W", ("-42.5", "-0.5")),
    ("N 42.5 W 72.25", ("42.5", "-72.25")),
    ("72.25 W, 42.5 N", ("42.5", "-72.25")),
    ("(42.5,\u00a0-72.25)", ("42.5", "-72.25")),
    ("geo:42.5,-72.25", ("42.5", "-72.25")),
    ("42,5; −72,25", ("42.5", "-72.25")),
]


@pytest.mark.parametrize(("text", "degrees"), PASTED)
def test_a_position_is_read_as_it_is_pasted(text, degrees):
    assert PositionField().clean(text) == tuple(Decimal(figure) for figure in degrees)


def test_a_country_that_is_not_on_the_list_stays_when_it_is_in_use(project, owner, url):
    Project.objects.update(country="JP", zone="Asia/Tokyo")
    assert owner.post(url, TYPED | {"country": "JP", "zone": "Asia/Tokyo"}).status_code == 302


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"name": " "}, "This cannot stay empty."),
        ({"site_width": "wide"}, "Write a length with its unit"),
        ({"site_path_width": "0"}, "Write a length with its unit"),
        ({"site_path_from": "-1 ft"}, "Write a length with its unit"),
        ({"site_ground": "x" * 100_000}, "100,000 characters; at most 20,000"),
        ({"site_position": "North pier"}, "Write latitude, then longitude, in degrees"),
        ({"site_position": "42° 61′, 72° 1′"}, "Write latitude, then longitude, in degrees"),
        ({"site_position": "42 N, 72 S"}, "Write latitude, then longitude, in degrees"),
        ({"site_position": "42.5, 72.25, 10"}, "Write latitude, then longitude, in degrees"),
        ({"site_position": "142, 10"}, "The first is the latitude, from −90 to 90."),
        ({"site_position": "42, 181"}, "The second is the longitude, from −180 to 180."),
        ({"site_position": "9" * 500}, "at most 60"),
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
