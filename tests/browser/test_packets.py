"""A proposal: its asks, its revisions, and when one is out of date."""

from __future__ import annotations

import io
from pathlib import Path

import pikepdf
import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.phrases import HEARTHLIGHT, TWO_HERONS, follow, press, row, send

pytestmark = pytest.mark.browser


def open_packet(page: Page, project: str) -> None:
    page.goto(f"{project}packets/")
    page.locator("table tbody th a").first.click()
    expect(page.get_by_role("heading", name="Revisions")).to_be_visible()


def make_revision(page: Page, letter: str) -> None:
    page.set_default_timeout(60_000)
    press(page, f"Make revision {letter}")
    expect(revision(page, letter)).to_be_visible(timeout=60_000)


def revision(page: Page, letter: str) -> Locator:
    header = page.get_by_role("rowheader", name=letter, exact=True)
    return page.get_by_role("region", name="Revisions").get_by_role("row").filter(has=header)


def test_a_missing_ask_leads_to_what_answers_it(artist: Page) -> None:
    open_packet(artist, TWO_HERONS)
    missing = row(artist, "Maintenance plan").first
    expect(missing).to_contain_text("missing")
    missing.get_by_role("link").first.click()
    artist.get_by_role("textbox").fill("Rinse with water each spring; look at the bolts.")
    press(artist, "Save the text")
    expect(row(artist, "Maintenance plan").first).to_contain_text("met")


def test_a_revision_is_a_tagged_pdf_and_goes_out_of_date_with_the_reason(artist: Page) -> None:
    open_packet(artist, HEARTHLIGHT)
    make_revision(artist, "B")
    expect(artist.get_by_role("heading", name="is out of date")).to_have_count(0)
    with artist.expect_download() as arriving:
        follow(revision(artist, "B"), "Download")
    expect_tagged(Path(arriving.value.path()).read_bytes())
    packet = artist.url
    change_mass(artist, "70 lb")
    artist.goto(packet)
    stale = artist.get_by_role("region", name="Revision B is out of date")
    expect(stale).to_contain_text("Lantern frame")
    expect(stale).to_contain_text("70 lb")


def change_mass(page: Page, mass: str) -> None:
    page.goto(f"{HEARTHLIGHT}parts/")
    follow(row(page, "Lantern frame"), "Change")
    page.get_by_label("Mass").fill(mass)
    send(page)
    expect(row(page, "Lantern frame")).to_contain_text(mass)


def expect_tagged(content: bytes) -> None:
    assert content.startswith(b"%PDF")
    with pikepdf.open(io.BytesIO(content)) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert "/StructTreeRoot" in pdf.Root
        assert pdf.Root.Lang
