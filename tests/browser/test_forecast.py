"""The forecast: what a line still needs, a draw on the contingency, and its way back."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, follow, lede, press, row, settled

pytestmark = pytest.mark.browser

FORECAST = f"{HEARTHLIGHT}money/forecast/"
PAINT = "Mineral paint, primer, clear coat"


def test_contingency_is_drawn_for_a_line_that_costs_more_and_put_back(artist: Page) -> None:
    artist.goto(FORECAST)
    expect(lede(artist)).to_contain_text(f"{PAINT} will cost $116.30 more than its budget")
    follow(row(artist, PAINT), "Draw")
    expect(artist.get_by_label("Amount")).to_have_value("116.30")
    press(artist, "Draw it")
    expect(artist.get_by_text("Write why, in a few words")).to_be_visible()
    artist.get_by_label("Why").fill("Two more colours for the embers")
    press(artist, "Draw it")
    expect(artist.locator("#status")).to_contain_text(f"Drew $116.30 to {PAINT}")
    expect(lede(artist)).not_to_contain_text("more than its budget")
    expect(row(artist, PAINT).first).to_contain_text("approved $2,800, drawn $116.30")
    drawn = artist.locator("table.draws tr", has_text="Two more colours")
    follow(drawn, "Put back")
    press(artist, "Put it back")
    expect(lede(artist)).to_contain_text("more than its budget")


def test_what_a_line_still_needs_changes_its_estimate_in_place(artist: Page) -> None:
    artist.goto(FORECAST)
    before = row(artist, "Photographs").inner_text()
    follow(row(artist, "Photographs"), "Change")
    artist.get_by_label("Or: how many are still needed").fill("3")
    press(artist, "Save")
    expect(artist.get_by_text("Write both, how many and the price of one")).to_be_visible()
    artist.get_by_label("Latest price of one").fill("45")
    press(artist, "Save")
    expect(row(artist, "Photographs").first).to_contain_text("3 at $45")
    follow(row(artist, "Photographs"), "Change")
    for label in ("Or: how many are still needed", "Latest price of one"):
        artist.get_by_label(label).fill("")
    press(artist, "Save")
    assert row(artist, "Photographs").inner_text() == before


def test_what_would_lapse_is_worked_out_beside_the_forecast(artist: Page) -> None:
    artist.goto(FORECAST)
    settled(artist)
    expect(artist.locator("#lapse")).to_contain_text("Would lapse")
    follow(artist.locator("#lapse"), "See the best fit")
    expect(artist.locator("h1")).to_have_text("Best fit")
