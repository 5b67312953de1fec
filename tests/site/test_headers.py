"""What every answer carries."""

import pytest
from django.test import Client
from django.urls import reverse

PAGES = ["/", "/password/", "/projects/new/", "/nothing/here/"]


def policy(answer):
    return answer.headers["Content-Security-Policy"]


@pytest.mark.parametrize("address", PAGES)
def test_pages_are_kept_by_no_cache_and_in_no_frame(owner, address):
    headers = owner.get(address).headers
    assert "no-store" in headers["Cache-Control"]
    assert headers["X-Frame-Options"] == "DENY"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"


@pytest.mark.parametrize("address", PAGES)
def test_pages_run_only_what_the_site_itself_serves(owner, address):
    found = policy(owner.get(address))
    assert "default-src 'none'" in found and "frame-ancestors 'none'" in found
    assert "script-src 'self';" in found + ";" and "style-src 'self';" in found + ";"
    assert "unsafe" not in found


def test_a_sheet_differs_for_htmx_and_says_so(project, owner):
    answer = owner.get(reverse("projects:overview", args=[project.pk]))
    assert "HX-Request" in answer.headers["Vary"]
    assert "no-store" in answer.headers["Cache-Control"]


def test_a_form_from_another_site_is_refused_with_a_page_that_helps(project):
    client = Client(enforce_csrf_checks=True)
    answer = client.post("/login/", {"username": "ada", "password": "lantern-walk-7"})
    assert answer.status_code == 403
    assert "This page was open too long" in answer.content.decode()


def test_cookies_are_kept_from_scripts_and_from_other_sites(project):
    answer = Client().post("/login/", {"username": "ada", "password": "lantern-walk-7"})
    cookie = answer.cookies["sessionid"]
    assert cookie["httponly"] and cookie["samesite"] == "Lax"
