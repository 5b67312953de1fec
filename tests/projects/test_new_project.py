"""From a starting plan to a project with its own dates."""

from datetime import date

import holidays
import pytest
from django.urls import reverse

from projects import hooks
from projects.forms.places import COUNTRIES, CURRENCIES, ZONES, currency_of
from projects.models import LogEntry, Membership, PartKind, Project, StageName
from projects.selectors.details import site_of
from projects.services.begin import PART_KINDS, STAGES, stages_of
from projects.starts import starting_plans
from tests import factories
from tests.conftest import logged_in

NEW = "/projects/new/"
HEARTHLIGHT = {
    "kind": "mural_masonry",
    "name": "Hearthlight",
    "site_name": "North pier",
    "site_address": "Mill Lane, Wexcombe Mills",
    "public_name": "Mill Lane Lantern Walk",
    "public_on": "2031-10-18",
    "weekdays": ["0", "1", "2", "3", "5"],
    "country": "US",
    "zone": "America/New_York",
}


@pytest.fixture
def ada(db):
    factories.user("ada")
    return logged_in("ada")


@pytest.fixture
def heard():
    """What the apps are told when a project begins."""
    told = []
    hooks.beginnings.register("tests.heard", place=99)(told.append)
    yield told
    del hooks.beginnings._functions["tests.heard"]


def answered(client, **typed):
    page = client.post(NEW, HEARTHLIGHT | typed)
    assert page.status_code == 422
    assert not Project.objects.exists()
    return page.content.decode()


def test_all_five_kinds_are_offered_and_none_is_chosen(ada):
    page = ada.get(NEW).content.decode()
    assert page.count('type="radio"') == 5
    assert "checked" not in page.split('name="weekdays"')[0]


def test_a_project_begins_with_its_site_owner_and_log(ada):
    page = ada.post(NEW, HEARTHLIGHT)
    project = Project.objects.get()
    assert page.headers["Location"] == reverse("schedules:schedule", args=[project.pk])
    assert site_of(project).address == "Mill Lane, Wexcombe Mills"
    assert Membership.objects.get().role == "owner"
    entry = LogEntry.objects.filter(about="projects").last()
    assert "Mill Lane Lantern Walk on Sat 18 Oct 2031" in entry.sentence


def test_the_other_apps_are_told_what_the_project_begins_with(ada, heard):
    ada.post(NEW, HEARTHLIGHT)
    [told] = heard
    assert told.plan["kind"] == "mural_masonry"
    assert (told.public_on, told.weekdays) == (date(2031, 10, 18), "1111010")
    assert told.today == factories.TODAY


def test_one_app_that_fails_leaves_nothing_behind(ada):
    def fail(beginning):
        raise RuntimeError("no plan")

    hooks.beginnings.register("tests.fails", place=99)(fail)
    try:
        with pytest.raises(RuntimeError):
            ada.post(NEW, HEARTHLIGHT)
    finally:
        del hooks.beginnings._functions["tests.fails"]
    assert not Project.objects.exists()


def test_parts_come_with_stages_in_the_order_of_work(ada):
    ada.post(NEW, HEARTHLIGHT | {"kind": "wall_frame_canopy_planters"})
    frame = Project.objects.get().parts.get(name="Frame")
    names = [stage.name for stage in frame.stages.all()]
    assert names == ["design", "fit_check", "make", "finish", "install"]
    assert frame.kind == "frame"


@pytest.mark.parametrize("kind", starting_plans())
def test_every_word_for_a_stage_in_the_starting_plans_is_known(kind):
    plan = starting_plans()[kind]
    words = {task["stage"] for task in plan["tasks"] if task["stage"]}
    assert words <= set(STAGES)
    parts = {task["part"] for task in plan["tasks"] if task["part"]}
    assert parts <= {row["name"] for row in plan["parts"]}


def test_a_public_date_in_the_past_is_answered_beside_its_field(ada):
    page = answered(ada, public_on="2031-03-02")
    assert "Sun 2 Mar 2031 is in the past. Choose Mon 3 Mar 2031 or later." in page
    assert "Mill Lane Lantern Walk" in page


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"public_on": "2031-02-30"}, "There is no such day."),
        ({"public_on": "next spring"}, "There is no such day."),
        ({"public_on": "3031-06-14"}, "between the years 2000 and 2100"),
        ({"kind": ""}, "Choose the kind of piece"),
        ({"kind": "castle"}, "not one of the available choices"),
        ({"name": ""}, "This cannot stay empty."),
        ({"name": "x" * 100_000}, "This has 100000 characters; at most 120 can be kept."),
        ({"weekdays": []}, "Tick at least one day"),
        ({"weekdays": ["9"]}, "not one of the available choices"),
        ({"country": "XX"}, "not one of the available choices"),
        ({"zone": "Mars/Olympus"}, "not one of the available choices"),
    ],
)
def test_what_cannot_be_is_answered_and_what_was_typed_is_kept(ada, typed, sentence):
    page = answered(ada, **typed)
    assert sentence in page
    assert "Mill Lane, Wexcombe Mills" in page


def test_html_in_the_name_is_shown_and_not_obeyed(ada):
    ada.post(NEW, HEARTHLIGHT | {"name": "<b>Hearth</b>"})
    assert "&lt;b&gt;Hearth&lt;/b&gt;" in ada.get("/").content.decode()


def test_the_countries_and_currencies_are_ones_that_the_holidays_are_known_for():
    # Oracle: the list of countries of the “holidays” library.
    assert set(COUNTRIES) <= set(holidays.list_supported_countries())
    assert {currency_of(country) for country in COUNTRIES} == set(CURRENCIES)


def test_every_time_zone_on_offer_is_in_the_time_zone_database():
    from zoneinfo import available_timezones

    offered = {zone for zones in ZONES.values() for zone in zones}
    assert offered <= available_timezones()


def test_home_lists_only_your_projects(project, owner, stranger):
    factories.ProjectFactory(name="Two Herons")
    mine = owner.get("/").content.decode()
    assert "Hearthlight" in mine and "Two Herons" not in mine
    assert "One project for each work of art" in stranger.get("/").content.decode()


def test_stages_of_a_part_without_tasks_are_the_three_that_every_part_has(project):
    part = factories.PartFactory(project=project, kind=PART_KINDS["frame"])
    stages = stages_of(part, {"tasks": []})
    assert [s.name for s in stages] == [StageName.DESIGN, StageName.MAKE, StageName.INSTALL]
    assert part.kind == PartKind.FRAME
