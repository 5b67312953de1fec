"""The secret address of a calendar feed: who reads it, who renews it, and what kills it."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from schedules.models import Feed, Task
from schedules.plan import recompute
from schedules.services.feeds import token_of
from tests import factories


@pytest.fixture
def feed(place):
    return Feed.objects.create(project=place.project)


@pytest.fixture
def maker(place):
    return factories.SupplierFactory(project=place.project)


@pytest.fixture
def reading(place):
    """Somebody without a login who asks for a feed."""

    def asked(feed, **headers):
        return Client().get(reverse("calendar:feed", args=[token_of(feed)]), headers=headers)

    return asked


def test_whoever_has_the_address_reads_without_a_login(feed, reading):
    answer = reading(feed)
    assert answer.status_code == 200
    assert answer.headers["Content-Type"] == "text/calendar; charset=utf-8"
    assert (
        answer.headers["Cache-Control"].startswith("private")
        and "no-store" not in answer.headers["Cache-Control"]
    )
    assert answer.headers["Referrer-Policy"] == "no-referrer"
    assert "noindex" in answer.headers["X-Robots-Tag"]
    assert len(token_of(feed)) > 70


def test_a_reader_who_asks_again_gets_nothing_new(place, feed, reading):
    first = reading(feed)
    again = reading(feed, **{"If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.content) == (304, b"")
    assert reading(feed, **{"If-Modified-Since": first.headers["Last-Modified"]}).status_code == 304
    Task.objects.filter(name__startswith="Weld").update(days=13)
    recompute(place.project, factories.TODAY)
    assert reading(feed, **{"If-None-Match": first.headers["ETag"]}).status_code == 200


def test_a_renewed_address_kills_the_old_one(place, ada, feed, reading):
    old = reverse("calendar:feed", args=[token_of(feed)])
    page = ada.post(place.url("feed-renew", feed.pk), headers={"HX-Request": "true"})
    feed.refresh_from_db()
    assert Client().get(old).status_code == 404
    assert reading(feed).status_code == 200
    assert token_of(feed) in page.content.decode()
    assert place.last_log.sentence == (
        "Renewed the address of the calendar feed of the whole project."
    )


def test_a_feed_that_was_switched_off_is_gone_and_comes_back_elsewhere(place, ada, feed):
    old = reverse("calendar:feed", args=[token_of(feed)])
    ada.post(place.url("feed-off", feed.pk))
    assert Client().get(old).status_code == 404
    ada.post(place.url("feed-on"), {"supplier": ""})
    assert reverse("calendar:feed", args=[token_of(Feed.objects.get())]) != old


WRONG = ["x", "0" * 32, "0" * 75, "é" * 75, "..", "0" * 5000]


@pytest.mark.parametrize("token", WRONG)
def test_a_wrong_address_finds_nothing(feed, token):
    assert Client().get(reverse("calendar:feed", args=[token])).status_code == 404


def test_a_signature_of_another_feed_opens_nothing(place, feed):
    other = Feed.objects.create(project=factories.ProjectFactory(name="Two Herons"))
    mixed = feed.uid.hex + token_of(other)[32:]
    assert Client().get(reverse("calendar:feed", args=[mixed])).status_code == 404
    assert Client().post(reverse("calendar:feed", args=[token_of(feed)])).status_code == 405


def test_the_page_offers_a_feed_for_every_supplier(place, ada, maker):
    ada.post(place.url("feed-on"), {"supplier": maker.pk})
    page = ada.get(place.url("feeds")).content.decode()
    made = Feed.objects.get()
    assert made.supplier == maker
    assert f"http://testserver/calendar/{token_of(made)}.ics" in page
    assert "1 feed on, for 1 supplier." in page


def test_a_reader_sees_no_address(place, cyd, feed):
    page = cyd.get(place.url("feeds")).content.decode()
    assert token_of(feed) not in page
    assert "An owner or a partner of the project can give you the address." in page


def test_a_supplier_of_another_project_gets_no_feed_here(place, ada):
    other = factories.SupplierFactory(project=factories.ProjectFactory(name="Two Herons"))
    for wanted in (other.pk, "x", "9" * 40):
        assert ada.post(place.url("feed-on"), {"supplier": wanted}).status_code == 404
    assert not Feed.objects.exists()
