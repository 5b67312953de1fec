"""A worksheet from a first number to a kept result: live, in typed units, with its sentences."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, follow, press

pytestmark = pytest.mark.browser

WORKSHEETS = f"{HEARTHLIGHT}worksheets/"


def result(page: Page) -> object:
    return page.get_by_role("region", name="Result")


def open_planters(page: Page) -> None:
    page.goto(f"{WORKSHEETS}new/planters/")
    page.get_by_label("For the part").select_option("")
    page.get_by_label("Width").fill("2 ft")
    page.get_by_label("Depth of the soil").fill("18 in")


def test_the_result_follows_what_is_typed_in_any_unit(artist: Page) -> None:
    open_planters(artist)
    length = artist.get_by_label("Length, or diameter")
    length.fill("4 ft")
    expect(result(artist)).to_contain_text("24 ft³")
    length.fill("2438.4 mm")
    expect(result(artist)).to_contain_text("48 ft³")
    length.fill("8' 0\"")
    expect(result(artist)).to_contain_text("48 ft³")


def test_a_wrong_unit_is_said_beside_its_field_as_it_is_typed(artist: Page) -> None:
    open_planters(artist)
    length = artist.get_by_label("Length, or diameter")
    length.fill("3 kg")
    said = artist.locator("#w-length-error")
    expect(said).to_contain_text("“3 kg” is a mass. Write a length")
    expect(length).to_have_value("3 kg")
    length.fill("300 ft")
    expect(said).to_contain_text("out of range. Write a length from")
    length.fill("4 ft")
    expect(said).to_be_empty()
    expect(result(artist)).to_contain_text("24 ft³")


def test_it_is_kept_with_a_version_for_each_change(artist: Page) -> None:
    open_planters(artist)
    artist.get_by_label("Length, or diameter").fill("4 ft")
    artist.get_by_label("Name").fill("Soil for the troughs")
    press(artist, "Keep it with the project")
    expect(artist.get_by_role("heading", level=1)).to_have_text("Soil for the troughs")
    artist.get_by_label("How many").fill("3")
    press(artist, "Save")
    artist.get_by_text(re.compile("^Version 2,")).click()
    follow(artist, "2", exact=True)
    expect(artist.get_by_text("Soil to buy: 24 ft³ (680 L) → 36 ft³ (1,020 L)")).to_be_visible()


def test_a_longer_part_changes_its_worksheet_and_says_so_on_the_parts_sheet(artist: Page) -> None:
    artist.goto(f"{WORKSHEETS}new/planters/")
    artist.get_by_label("Name").fill("Soil for the two")
    press(artist, "Keep it with the project")
    expect(artist.get_by_role("heading", level=1)).to_have_text("Soil for the two")
    artist.goto(f"{HEARTHLIGHT}parts/")
    artist.get_by_role("link", name="Change Two fern troughs").click()
    artist.get_by_label("Width").fill("2 m")
    press(artist, "Save")
    note = artist.locator(".part-notes li", has_text="Soil for the two")
    expect(note).to_contain_text("Changed: Soil to buy:")
