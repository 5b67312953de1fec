"""A walk through every address of the site: who gets in, who may change, what is found."""

import pytest
from django.test import Client

from tests import factories
from tests.site.addresses import HARMLESS, OPEN, every_address
from tests.site.cast import Cast

ALL = every_address()
CLOSED = [address for address in ALL if address.name not in OPEN]
OF_PROJECT = [address for address in ALL if address.of_project]
OF_OBJECT = [address for address in ALL if address.of_object]
NOT_OFFERED = 405
HX = {"HX-Request": "true"}


def each(addresses):
    return pytest.mark.parametrize("address", addresses, ids=str)


@pytest.fixture
def cast(project):
    factories.KeyDateFactory(project=project, task=factories.TaskFactory(project=project))
    return Cast(project)


def test_the_walk_knows_every_app():
    assert {address.name.split(":")[0] for address in OF_PROJECT} == {
        "projects", "suppliers", "schedules", "budgets", "packets",
    }  # fmt: skip


@each(CLOSED)
@pytest.mark.parametrize("method", ["get", "post"])
def test_who_is_not_logged_in_is_led_to_login(cast, address, method):
    path = cast.path(address)
    answer = getattr(Client(), method)(path)
    assert answer.status_code == 302
    assert answer.headers["Location"] == f"/login/?next={path}"


@each(OF_PROJECT)
@pytest.mark.parametrize("method", ["get", "post"])
def test_a_stranger_finds_nothing(cast, stranger, address, method):
    assert getattr(stranger, method)(cast.path(address)).status_code in (404, NOT_OFFERED)


@each(OF_PROJECT)
def test_a_reader_changes_nothing(cast, reader, address):
    if address.name in HARMLESS:
        pytest.skip("changes nothing of a project")
    assert reader.post(cast.path(address)).status_code in (403, NOT_OFFERED)


@each(OF_PROJECT)
def test_an_owner_finds_every_page(cast, owner, address):
    assert owner.get(cast.path(address)).status_code in (200, 302, NOT_OFFERED)


@each(OF_PROJECT)
def test_every_address_takes_one_method_at_least(cast, owner, address):
    path = cast.path(address)
    answers = {owner.get(path).status_code, owner.post(path).status_code}
    assert answers != {NOT_OFFERED}


@each(OF_OBJECT)
@pytest.mark.parametrize("method", ["get", "post"])
def test_an_object_of_another_project_is_not_reached_through_ones_own(cast, owner, address, method):
    other = Cast(factories.ProjectFactory(name="Two Herons"))
    factories.CalendarFactory(project=other.project)
    theirs = other.path(address).replace(f"/{other.project.pk}/", f"/{cast.project.pk}/", 1)
    if theirs == cast.path(address):
        pytest.skip("names nothing that belongs to one project")
    assert getattr(owner, method)(theirs).status_code in (404, NOT_OFFERED)


@each(OF_PROJECT)
def test_a_page_has_one_heading_and_no_word_that_the_browser_would_refuse(cast, owner, address):
    answer = owner.get(cast.path(address))
    if answer.status_code != 200 or "text/html" not in answer.headers["Content-Type"]:
        pytest.skip("no page")
    page = answer.content.decode()
    assert page.count("<h1") == 1
    assert " style=" not in page and "<script>" not in page and " onclick=" not in page


@each(OF_PROJECT)
def test_no_two_things_on_a_page_have_the_same_id(cast, owner, address):
    answer = owner.get(cast.path(address))
    if answer.status_code != 200 or "text/html" not in answer.headers["Content-Type"]:
        pytest.skip("no page")
    page = answer.content.decode()
    ids = [piece.split('"')[0] for piece in page.split(' id="')[1:]]
    assert sorted(ids) == sorted(set(ids))
