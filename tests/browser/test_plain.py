"""Without JavaScript, and with the back button of the browser."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenAs
from tests.browser.phrases import HEARTHLIGHT, figure, follow, photo, row

pytestmark = pytest.mark.browser


@pytest.fixture
def plain(open_as: OpenAs) -> Page:
    return open_as("artist", java_script_enabled=False)


def test_a_task_is_added_without_javascript(plain: Page) -> None:
    plain.goto(f"{HEARTHLIGHT}schedule/")
    plain.get_by_role("link", name="Add a task").click()
    plain.get_by_label("Name", exact=True).fill("Stencil the border")
    plain.get_by_label("Lane", exact=True).select_option(label="Artist")
    plain.get_by_label("Working days", exact=True).fill("2")
    plain.get_by_role("button", name="Add the task").click()
    expect(row(plain, "Stencil the border")).to_be_visible()


def test_an_expense_is_logged_without_javascript(plain: Page) -> None:
    plain.goto(f"{HEARTHLIGHT}money/")
    plain.get_by_role("link", name="Log an expense").click()
    plain.get_by_label("Amount").fill("48.20")
    plain.get_by_label("Paid to").fill("Ledger Street Paints")
    plain.get_by_label("What for").select_option(label="Mineral paint, primer, clear coat")
    plain.get_by_label("Receipt").set_input_files(photo())
    plain.get_by_role("button", name="Save").click()
    expect(plain.get_by_role("heading", level=1)).to_contain_text("$48.20")


def test_a_slip_is_tried_without_javascript(plain: Page) -> None:
    plain.goto(f"{HEARTHLIGHT}schedule/slip/")
    option = plain.get_by_label("What slips").locator("option", has_text="Weld lantern frame")
    plain.get_by_label("What slips").select_option(value=option.get_attribute("value"))
    plain.get_by_label("working days").fill("8")
    plain.get_by_role("button", name="See what it does").click()
    expect(plain.get_by_role("button", name="Apply with a reason")).to_be_visible()


def test_going_back_after_a_piece_was_swapped_gives_a_whole_page(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}schedule/")
    follow(row(artist, "Paint mural field"), "Why")
    expect(artist).to_have_url(re.compile("/why/$"))
    follow(row(artist, "Paint mural field"), "Paint mural field", exact=True)
    follow(artist, "Money", exact=True)
    expect(artist.get_by_role("heading", level=1)).to_have_text("Money")
    artist.go_back()
    expect(artist.get_by_role("heading", level=1)).to_have_text("Schedule")
    expect(figure(artist, "Public date")).to_be_visible()
    expect(artist.get_by_role("navigation", name="Sheets of the project")).to_be_visible()
    artist.go_back()
    expect(artist.locator("#titleblock")).to_have_count(1)
    expect(artist.get_by_role("heading", level=1)).to_have_text("Schedule")
