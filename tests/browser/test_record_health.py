"""Hold the plan against the one kept; mend what ails it."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, TWO_HERONS, press, settled

pytestmark = pytest.mark.browser

SCHEDULE = f"{HEARTHLIGHT}schedule/"


def test_a_plan_kept_today_has_nothing_moved_and_stands_on_the_chart(artist: Page) -> None:
    artist.goto(f"{SCHEDULE}record/")
    expect(artist.locator(".lede")).to_contain_text("Against Rev B")
    drawing = artist.locator(".slipchart:visible")
    expect(drawing).to_have_count(1)
    expect(drawing.locator(".revision")).to_have_text(["Rev A", "Rev B"])
    artist.get_by_role("link", name="Keep the plan as it is now").click()
    settled(artist)
    artist.get_by_label("Reason").fill("As the board saw it today")
    press(artist, "Keep the plan")
    expect(artist.get_by_text("No task has moved")).to_be_visible()
    expect(drawing.locator(".revision")).to_have_text(["Rev A", "Rev B", "Rev C"])
    artist.get_by_label("Hold", exact=True).select_option("A")
    artist.get_by_label("Against", exact=True).select_option("B")
    press(artist, "Compare")
    expect(artist).to_have_url(re.compile("first=A&second=B"))
    expect(artist.locator(".moved .word", has_text="added")).to_have_count(1)


def test_a_fault_is_mended_on_the_page_or_in_its_form_and_one_comes_back(artist: Page) -> None:
    artist.goto(f"{TWO_HERONS}schedule/health/")
    long = artist.locator(".sick li", has_text="Cut, form and weld the main parts").filter(
        has=artist.get_by_role("button", name="It only waits")
    )
    press(long, "It only waits")
    expect(long).to_have_count(0)
    nobody = artist.locator(".sick li", has_text="Metal fabricator")
    nobody.get_by_role("link", name="Choose who").click()
    expect(artist.get_by_role("link", name="Back to the health of the plan")).to_be_visible()
    artist.locator("#lanes").get_by_label("Name").fill("Saltglaze Metalworks")
    artist.locator("#lanes .open form").get_by_role("button").first.click()
    expect(artist).to_have_url(re.compile("/schedule/health/$"))
    expect(nobody).to_have_count(0)
