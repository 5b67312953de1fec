"""Reports: asked for by day, saved as paper and as a table; another budget asked for by thumb."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, follow, lede, press, row

pytestmark = pytest.mark.browser
ROOM = f"{HEARTHLIGHT}money/reports/"
BOARD = "Wexcombe Arts Board small works grant"


def test_a_list_of_expenses_is_saved_with_its_papers_bound_in(artist: Page) -> None:
    artist.goto(ROOM)
    follow(row(artist, BOARD), "Expenditure list")
    expect(row(artist, "Saltglaze Metalworks").first).to_contain_text("3,900.00")
    with artist.expect_download(timeout=60_000) as arriving:
        artist.get_by_role("link", name="Save as PDF").click()
    name = arriving.value.suggested_filename
    assert name.startswith("hearthlight-") and name.endswith(".pdf")
    assert Path(arriving.value.path()).read_bytes()[:5] == b"%PDF-"


def test_whole_dollars_and_an_earlier_day_are_kept_for_the_table(artist: Page) -> None:
    artist.goto(ROOM)
    follow(row(artist, BOARD), "Budget and actual")
    artist.get_by_label("Whole amounts, without cents").check()
    press(artist, "Show it so")
    expect(artist).to_have_url(re.compile("whole=on"))
    expect(row(artist, "Fabrication").first).to_contain_text("5,200")
    expect(row(artist, "Fabrication").first).not_to_contain_text("5,200.00")
    with artist.expect_download() as arriving:
        artist.get_by_role("link", name="Save as a table (CSV)").click()
    text = Path(arriving.value.path()).read_text("utf-8-sig")
    assert text.startswith("Category,Agreed,")


def test_another_budget_is_asked_for_and_agreed(artist: Page) -> None:
    artist.goto(ROOM)
    follow(row(artist, BOARD), "See it")
    follow(artist, "Ask for another budget")
    artist.get_by_label("Fabrication").fill("4,000")
    artist.get_by_label("Reason").fill("The frame is lighter.")
    press(artist, "Save")
    expect(artist.get_by_role("alert")).to_contain_text("Add $1,200.")
    expect(artist.get_by_label("Fabrication")).to_have_value("4,000")
    artist.get_by_label("Installation and equipment").fill("1,800")
    press(artist, "Save")
    expect(lede(artist)).to_contain_text("$1,200 of the budget")
    press(artist, "It is sent")
    artist.get_by_label("agreed to it").check()
    press(artist, "Note the answer")
    expect(artist.locator(".report-facts")).to_contain_text("Agreed")
    follow(artist, f"Agreed budget of {BOARD}")
    expect(row(artist, "The frame is lighter.")).to_contain_text("$1,200")
