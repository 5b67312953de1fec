"""From an empty installation to a dated plan."""

from __future__ import annotations

import re
import time

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import follow, lede, press

pytestmark = pytest.mark.browser

ACCOUNT = {
    "Your name": "Ada",
    "E-mail or login name": "ada@example.org",
    "Password": "hammered-verdigris-9",
    "The same password again": "hammered-verdigris-9",
}


def make_account(page: Page) -> None:
    page.goto("/")
    for label, words in ACCOUNT.items():
        page.get_by_label(label, exact=True).fill(words)
    press(page, "Make the account")


def begin(page: Page, kind: str = "Mural") -> None:
    follow(page, "New project")
    page.get_by_role("radio", name=re.compile(kind)).first.check()
    page.get_by_label("Name of the piece").fill("Hearthlight")
    page.get_by_label("Site", exact=True).fill("Viaduct pier 4")
    page.get_by_label("Public event").fill("Mill Lane Lantern Walk")
    page.get_by_label("Public date").fill("2031-11-15")
    page.get_by_role("checkbox", name="Saturday").check()
    press(page, "Begin the project")


def test_an_empty_installation_opens_on_the_owners_account(newcomer: Page) -> None:
    newcomer.goto("/projects/1/money/")
    expect(newcomer.get_by_role("heading", level=1)).to_have_text("Make your account")
    make_account(newcomer)
    expect(newcomer.get_by_role("heading", level=1)).to_have_text("Your projects")
    expect(newcomer.get_by_text("One project for each work of art")).to_be_visible()


def test_a_new_project_has_thirty_dated_tasks_in_under_two_minutes(newcomer: Page) -> None:
    make_account(newcomer)
    began = time.monotonic()
    begin(newcomer)
    expect(lede(newcomer)).to_contain_text(re.compile(r"\d+ days? in hand"))
    assert time.monotonic() - began < 120
    rows = newcomer.locator("table.tasks tbody tr:not(.group)")
    assert rows.count() >= 30
    undated = [text for text in rows.all_inner_texts() if not re.search(r"\d+ [A-Z][a-z]{2}", text)]
    assert not undated


def test_too_little_time_is_said_with_what_can_be_done(newcomer: Page) -> None:
    make_account(newcomer)
    follow(newcomer, "New project")
    newcomer.get_by_role("radio").first.check()
    newcomer.get_by_label("Name of the piece").fill("Hearthlight")
    newcomer.get_by_label("Site", exact=True).fill("Viaduct pier 4")
    newcomer.get_by_label("Public date").fill("2031-04-05")
    press(newcomer, "Begin the project")
    expect(lede(newcomer)).to_contain_text(re.compile(r"late by \d+ working days", re.IGNORECASE))
    expect(lede(newcomer)).to_contain_text("or move the date")
