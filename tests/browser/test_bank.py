"""A bank's file on its way in, and everything out."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, press

pytestmark = pytest.mark.browser

BANK = f"{HEARTHLIGHT}money/bank/"


def statement() -> dict[str, object]:
    day = date.today() - timedelta(days=60)
    lines = [
        "Account: ...4471",
        "Date,Description,Reference,Amount,Balance",
        f"{day},LEDGER STREET PAINTS WEXCOMBE,0091,-61.15,4310.22",
        f"{day},COUNTY CLERK,0092,-7.35,4302.87",
        f"{day},RIVERSIDE WARD,,500.00,4802.87",
    ]
    data = "\n".join(lines).encode()
    return {"name": "statement.csv", "mimeType": "text/csv", "buffer": data}


def test_a_file_is_opened_checked_once_and_brought_in(artist: Page) -> None:
    artist.goto(BANK)
    artist.get_by_label("The bank's file").set_input_files(statement())
    press(artist, "Open the file")
    expect(artist.get_by_label("Day", exact=True)).to_have_value("0")
    press(artist, "Save and look at the lines")
    expect(artist.locator(".lede")).to_contain_text("2 payments of $68.50")
    paints = artist.get_by_label("What LEDGER STREET PAINTS WEXCOMBE is for")
    expect(paints.locator("option:checked")).to_have_text("Mineral paint, primer, clear coat")
    artist.get_by_label("What COUNTY CLERK is for").select_option(label="Leave it out")
    press(artist, "Bring in what is chosen")
    expect(artist.locator("#status")).to_contain_text("Brought in 1 expense of $61.15")
    expect(artist.locator(".lede")).to_contain_text("brought in or left out")
    artist.goto(f"{HEARTHLIGHT}money/")
    expect(artist.get_by_text("$61.15").first).to_be_visible()


def test_a_spreadsheet_file_is_refused_in_words(artist: Page) -> None:
    artist.goto(BANK)
    upload = {"name": "book.xlsx", "mimeType": "application/zip", "buffer": b"PK\x03\x04\x00"}
    artist.get_by_label("The bank's file").set_input_files(upload)
    press(artist, "Open the file")
    expect(artist.locator(".field.wrong .error")).to_contain_text("comma separated values")


def test_everything_is_taken_out_in_one_archive(artist: Page) -> None:
    artist.goto(BANK)
    with artist.expect_download() as found:
        artist.get_by_role("link", name="Take everything out").click()
    assert found.value.suggested_filename.startswith("hearthlight-money-")
