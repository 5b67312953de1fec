"""Hold the plan against the one kept; mend what ails it."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, press, settled

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
    artist.goto(f"{SCHEDULE}health/")
    fault = artist.locator(".sick li", has_text="Final report to the arts board").first
    fault.get_by_label("Why").fill("The grant is paid out after the report")
    fault.get_by_role("button", name="Keep this reason").click()
    settled(artist)
    expect(artist.get_by_role("heading", name="A date without a reason")).to_have_count(0)
    artist.locator(".sick li", has_text="Anchor letter").get_by_role("link").first.click()
    expect(artist.get_by_role("link", name="Back to the health of the plan")).to_be_visible()
    artist.get_by_label("Working days", exact=True).fill("9")
    press(artist, "Save the task")
    expect(artist).to_have_url(re.compile("/schedule/health/$"))
    expect(artist.get_by_role("status")).to_contain_text("“Anchor letter” is saved")
