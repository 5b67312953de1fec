"""Suppliers and their papers; parts and their stages."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, follow, press, row, send

pytestmark = pytest.mark.browser


def test_a_supplier_is_added_with_an_insurance_that_expires(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}suppliers/")
    follow(artist, "Add a supplier")
    artist.get_by_label("Name", exact=True).fill("Coldharbour Rigging")
    artist.get_by_label("Lead time, working days").fill("10")
    send(artist)
    follow(row(artist, "Coldharbour Rigging"), "Coldharbour Rigging")
    follow(artist, "Add a paper")
    artist.get_by_label("Title").fill("General liability")
    artist.get_by_label("Expires").fill("2031-03-20")
    send(artist)
    expect(row(artist, "General liability")).to_contain_text("20 Mar 2031")
    artist.goto(f"{HEARTHLIGHT}suppliers/")
    expect(row(artist, "Coldharbour Rigging")).to_contain_text("General liability")


def test_a_stage_is_ticked_by_thumb_and_its_task_is_done(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}parts/")
    frame = row(artist, "Lantern frame")
    press(frame, "Make is done")
    expect(frame.locator(".chain")).to_contain_text("✓ Make")
    artist.goto(f"{HEARTHLIGHT}schedule/")
    expect(row(artist, "Weld lantern frame")).to_contain_text("done")


def test_a_part_is_added_with_its_size_as_people_write_it(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}parts/")
    follow(artist, "Add a part")
    artist.get_by_label("Name", exact=True).fill("Bracket cover")
    artist.get_by_label("Width").fill("4 ft 6 in")
    send(artist)
    expect(row(artist, "Bracket cover")).to_contain_text("4 ft 6 in")
