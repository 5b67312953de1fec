"""Bad input: a sentence beside its field, and nothing that was typed is lost."""

from __future__ import annotations

import pytest
from playwright.sync_api import FilePayload, Page, expect

from tests.browser.phrases import HEARTHLIGHT, expect_said_beside, follow, photo, press, row

pytestmark = pytest.mark.browser

LONG = "paint " * 20_000


def send_as_typed(page: Page) -> None:
    """Switch off the browser's own checks, so that the server's sentence is seen."""
    page.evaluate("document.querySelectorAll('form').forEach((form) => form.noValidate = true)")


def fill_expense(page: Page, amount: str = "48.20", upload: FilePayload | None = None) -> None:
    page.goto(f"{HEARTHLIGHT}money/expenses/add")
    page.get_by_label("Amount").fill(amount)
    page.get_by_label("Paid to").fill("Ledger Street Paints")
    page.get_by_label("What for").select_option(label="Mineral paint, primer, clear coat")
    if upload:
        page.get_by_label("Receipt").set_input_files(upload)
    press(page, "Save")


AMOUNTS = {
    "1,2O0": "“O” where a digit should be",
    "-5": "at least|more than|below",
    "twelve": "such as",
}


@pytest.mark.parametrize("amount", AMOUNTS)
def test_an_amount_that_is_none_is_said_and_kept(artist: Page, amount: str) -> None:
    fill_expense(artist, amount)
    expect_said_beside(artist.get_by_label("Amount"), AMOUNTS[amount])
    expect(artist.get_by_label("Amount")).to_have_value(amount)
    expect(artist.get_by_label("Paid to")).to_have_value("Ledger Street Paints")


def test_a_pdf_with_the_name_of_a_photo_is_known_by_its_content(artist: Page) -> None:
    """From memory: a PDF file begins with %PDF."""
    bad = {"name": "receipt.jpg", "mimeType": "image/jpeg", "buffer": b"%PDF-1.7 and no more"}
    fill_expense(artist, upload=FilePayload(**bad))
    expect_said_beside(artist.get_by_label("Receipt"), "(?i)pdf|file|photo")
    expect(artist.get_by_label("Amount")).to_have_value("48.20")


def test_a_file_of_another_kind_is_refused_by_name_of_what_fits(artist: Page) -> None:
    bad = FilePayload(name="receipt.jpg", mimeType="image/jpeg", buffer=b"PK\x03\x04 sheet" * 40)
    fill_expense(artist, upload=bad)
    expect_said_beside(artist.get_by_label("Receipt"), "(?i)pdf|picture|photo")


def test_a_photo_of_60_mb_is_refused_with_the_limit(artist: Page, tmp_path) -> None:
    heavy = tmp_path / "receipt.jpg"
    heavy.write_bytes(photo()["buffer"] + bytes(60 * 1024 * 1024))
    artist.set_default_timeout(30_000)
    artist.goto(f"{HEARTHLIGHT}money/expenses/add")
    artist.get_by_label("Amount").fill("48.20")
    artist.get_by_label("Paid to").fill("Ledger Street Paints")
    artist.get_by_label("What for").select_option(label="Mineral paint, primer, clear coat")
    artist.get_by_label("Receipt").set_input_files(heavy)
    press(artist, "Save")
    expect_said_beside(artist.get_by_label("Receipt"), r"\d+ MB")
    expect(artist.get_by_label("Amount")).to_have_value("48.20")


@pytest.mark.parametrize("days", ["-3", "1000000", "ten"])
def test_a_duration_that_cannot_be_is_said_beside_it(artist: Page, days: str) -> None:
    artist.goto(f"{HEARTHLIGHT}schedule/")
    follow(row(artist, "Plant fern troughs"), "Plant fern troughs")
    artist.get_by_label("Working days", exact=True).fill(days)
    send_as_typed(artist)
    press(artist, "Save the task")
    expect_said_beside(artist.get_by_label("Working days", exact=True), "(?i)days|0 or more")
    expect(artist.get_by_label("Working days", exact=True)).to_have_value(days)


def test_a_loop_of_links_takes_the_focus_to_the_choice_that_made_it(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}schedule/")
    follow(row(artist, "Wash and prime the wall"), "Wash and prime the wall")
    artist.get_by_label("Waits for").select_option(label="Clear coat to 9 ft")
    press(artist, "Add the link")
    expect_said_beside(artist.get_by_label("Waits for"), "would make a loop.*Paint mural field")


def test_a_public_date_in_the_past_is_refused(artist: Page) -> None:
    artist.goto("/projects/new/")
    artist.get_by_role("radio").first.check()
    artist.get_by_label("Name of the piece").fill("Reed Bell")
    artist.get_by_label("Site", exact=True).fill("Mill pond")
    artist.get_by_label("Public date").fill("2030-06-01")
    press(artist, "Begin the project")
    expect_said_beside(artist.get_by_label("Public date"), "is in the past")
    expect(artist.get_by_label("Name of the piece")).to_have_value("Reed Bell")


def test_a_date_that_does_not_exist_is_said(artist: Page) -> None:
    artist.goto("/projects/new/")
    field = artist.get_by_label("Public date")
    field.evaluate("field => { field.type = 'text'; field.value = '2031-02-30'; }")
    artist.get_by_label("Name of the piece").fill("Reed Bell")
    artist.get_by_label("Site", exact=True).fill("Mill pond")
    artist.get_by_role("radio").first.check()
    send_as_typed(artist)
    press(artist, "Begin the project")
    expect_said_beside(artist.get_by_label("Public date"), "There is no such day")


def test_a_text_of_120_000_characters_comes_back_whole(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}texts/concept/")
    text = artist.get_by_role("textbox")
    text.evaluate("(field, words) => { field.value = words; }", LONG)
    press(artist, "Save the text")
    expect_said_beside(artist.get_by_role("textbox"), "at most 20,000")
    assert len(artist.get_by_role("textbox").input_value()) >= len(LONG) - 1


def test_html_in_a_name_is_shown_as_it_was_typed(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}schedule/")
    follow(row(artist, "Plant fern troughs"), "Plant fern troughs")
    artist.get_by_label("Name", exact=True).fill("<b>Plant</b> & <script>alert(1)</script>")
    press(artist, "Save the task")
    expect(row(artist, "<b>Plant</b> & <script>alert(1)</script>")).to_be_visible()
