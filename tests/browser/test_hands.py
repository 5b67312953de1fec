"""One pair of hands in a browser: level the plan, look for better, apply, and take it back."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, press

pytestmark = pytest.mark.browser

HANDS = f"{HEARTHLIGHT}schedule/hands/"


def test_the_artist_is_booked_twice_until_the_plan_is_levelled(artist: Page) -> None:
    artist.goto(HANDS)
    expect(artist.get_by_role("heading", name="Booked twice")).to_be_visible()
    artist.get_by_role("link", name="Level the plan").click()
    expect(artist.get_by_role("heading", name="What would move")).to_be_visible()
    expect(artist.get_by_text("that is proven")).to_be_visible(timeout=30_000)
    artist.get_by_role("button", name="order link").click()
    expect(artist.get_by_role("heading", name="Who does what first")).to_be_visible()
    expect(artist.locator(".lede")).to_contain_text("Nobody is booked twice")
    press(artist, "Take out all order links")
    expect(artist.get_by_role("link", name="Level the plan")).to_be_visible()


def test_a_bought_day_is_tried_as_a_slip(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}schedule/shorten/")
    first = artist.locator("table.costs tbody tr").first
    expect(first).to_contain_text("shorter")
    price = first.locator("td.n").inner_text()
    first.get_by_role("link").click()
    expect(artist.get_by_role("heading", name="Try a slip")).to_be_visible()
    expect(artist.get_by_role("region", name="What it costs")).to_contain_text(f"+{price}")
