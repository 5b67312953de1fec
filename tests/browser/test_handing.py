"""A result is handed on in its place: what it does is seen first, and nothing typed is lost."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import follow, press, settled
from tests.browser.test_worksheets import open_planters

pytestmark = pytest.mark.browser


def test_soil_goes_to_a_budget_line_while_another_number_is_being_typed(artist: Page) -> None:
    open_planters(artist)
    artist.get_by_label("Length, or diameter").fill("4 ft")
    artist.get_by_label("Name").fill("Soil to hand on")
    press(artist, "Keep it with the project")
    artist.get_by_label("How many").fill("3")
    follow(artist, "Hand it on Soil")
    becomes = artist.locator("#becomes")
    artist.get_by_label("Budget line", exact=False).first.select_option(label="Ferns and soil")
    expect(artist.get_by_label("Name of a new line")).to_be_hidden()
    artist.get_by_label("Price of one").fill("3.50")
    artist.get_by_label("Price of one").blur()
    expect(becomes).to_contain_text("It goes to the line “Ferns and soil”")
    expect(becomes).to_contain_text("$84: 24 ft³ at $3.50")
    artist.locator("#kept form button.primary").click()
    settled(artist)
    expect(artist.locator("#kept")).to_contain_text("to the line “Ferns and soil”")
    expect(artist.get_by_role("link", name="Hand it on again Soil")).to_be_visible()
    expect(artist.get_by_label("How many")).to_have_value("3")
    press(artist, "Save")
    expect(artist.locator("#kept")).to_contain_text("It was 24 ft³ then; it is 36 ft³ now.")
