"""A walk through every address of the site: who gets in, who may change, what is found."""

import pytest
from django.test import Client

from tests import factories
from tests.site.addresses import OPEN, every_address
from tests.site.cast import Cast

ALL = every_address()
CLOSED = [address for address in ALL if address.name not in OPEN]
OF_PROJECT = [address for address in ALL if address.of_project]
OF_OBJECT = [address for address in ALL if address.of_object]
NOT_OFFERED = 405


def each(addresses):
    return pytest.mark.parametrize("address", addresses, ids=str)


def both(client, path):
    """What a look and an empty form are answered with."""
    return [client.get(path).status_code, client.post(path).status_code]


@pytest.fixture
def cast(project):
    factories.KeyDateFactory(project=project, task=factories.TaskFactory(project=project))
    return Cast(project)


def test_the_walk_knows_every_app():
    apps = {address.name.split(":")[0] for address in OF_PROJECT}
    assert apps == {"projects", "suppliers", "schedules", "budgets", "worksheets", "packets"}


@each(CLOSED)
def test_who_is_not_logged_in_is_led_to_login(cast, address):
    path = cast.path(address)
    for answer in (Client().get(path), Client().post(path)):
        assert answer.status_code == 302
        assert answer.headers["Location"] == f"/login/?next={path}"


@each(OF_PROJECT)
def test_a_stranger_finds_nothing(cast, stranger, address):
    answers = set(both(stranger, cast.path(address)))
    assert 404 in answers
    assert answers <= {404, NOT_OFFERED}


@each(OF_PROJECT)
def test_a_reader_changes_nothing(cast, reader, address):
    assert reader.post(cast.path(address)).status_code in (403, NOT_OFFERED)


@each(OF_PROJECT)
def test_an_owner_finds_every_page_and_an_empty_form_breaks_nothing(cast, owner, address):
    looked, sent = both(owner, cast.path(address))
    assert looked in (200, 302, NOT_OFFERED)
    assert sent in (200, 302, 400, 409, 422, NOT_OFFERED)
    assert (looked, sent) != (NOT_OFFERED, NOT_OFFERED)


@each(OF_OBJECT)
def test_an_object_of_another_project_is_not_reached_through_ones_own(cast, owner, address):
    other = Cast(factories.ProjectFactory(name="Two Herons"))
    factories.CalendarFactory(project=other.project)
    for path in cast.strays(address, other):
        assert set(both(owner, path)) <= {404, NOT_OFFERED}


@each(OF_PROJECT)
def test_a_page_has_one_heading_no_twin_ids_and_nothing_that_the_browser_would_refuse(
    cast, owner, address
):
    answer = owner.get(cast.path(address))
    if answer.status_code != 200 or "text/html" not in answer.headers["Content-Type"]:
        pytest.skip("no page")
    page = answer.content.decode()
    ids = [piece.split('"')[0] for piece in page.split(' id="')[1:]]
    assert page.count("<h1") == 1
    assert sorted(ids) == sorted(set(ids))
    assert not any(word in page for word in (" style=", "<style", "<script>", " onclick="))
