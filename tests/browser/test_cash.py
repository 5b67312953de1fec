"""The daily balance: what it starts from, what helps, and what a slip does to it."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, follow, lede, press, settled

pytestmark = pytest.mark.browser

CASH = f"{HEARTHLIGHT}money/cash/"


def test_what_is_in_the_account_moves_the_lowest_day(artist: Page) -> None:
    artist.goto(CASH)
    before = lede(artist).inner_text()
    assert "must be bridged" in before
    follow(artist, "Change the start")
    held = artist.get_by_label("In the account")
    was = held.input_value()
    held.fill("9.600,00")
    press(artist, "Save")
    expect(artist.get_by_text("written as in other countries")).to_be_visible()
    held.fill("40,000")
    press(artist, "Save")
    expect(lede(artist)).to_contain_text("no bridge is needed")
    follow(artist, "Change the start")
    artist.get_by_label("In the account").fill(was)
    press(artist, "Save")
    expect(lede(artist)).to_have_text(before)


def test_the_drawing_says_what_the_tables_say(artist: Page) -> None:
    artist.goto(CASH)
    drawing = artist.locator("svg.balance")
    expect(drawing).to_have_attribute("role", "img")
    low = artist.locator("svg.balance .mark-low").inner_html().split(":")[0]
    assert low in lede(artist).inner_text()
    assert low in (drawing.get_attribute("aria-label") or "")
    expect(artist.locator("#flows")).to_contain_text(low)
    expect(artist.locator("#levers tbody tr").first).to_contain_text("in advance")


def test_a_slip_tells_how_low_the_cash_would_get(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}schedule/slip/")
    option = artist.get_by_label("What slips").locator("option", has_text="Lift on site")
    artist.get_by_label("What slips").select_option(value=option.first.get_attribute("value"))
    artist.get_by_label("longer by working days").fill("60")
    artist.keyboard.press("Enter")
    settled(artist)
    told = artist.locator("#preview, #sheet").get_by_text("would be lowest on").first
    expect(told).to_be_visible(timeout=30_000)
    expect(told).to_contain_text("instead of")
