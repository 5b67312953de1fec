"""Claims on the demo, at both widths: prepared, filed, paid, corrected; a fee in parts."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenAs
from tests.browser.phrases import HEARTHLIGHT, follow, lede, press, row
from tests.browser.watch import Watch

pytestmark = pytest.mark.browser
ROOM = f"{HEARTHLIGHT}money/claims/"
BOARD = "Wexcombe Arts Board small works grant"
TRADERS = "Mill Lane Traders sponsorship"


def of(page: Page, fund: str):
    return page.locator("section.block", has=page.get_by_role("heading", name=fund))


def prepared(page: Page) -> None:
    page.goto(ROOM)
    follow(of(page, BOARD), "Prepare a claim")
    press(page, "Prepare it")
    expect(page.get_by_role("heading", level=1)).to_have_text(f"Claim 2 on {BOARD}")


def due_in(page: Page) -> int:
    """What should come of a claim, in whole dollars; the demo has no cents there."""
    found = re.search(r"of which \$([\d,]+) should come", lede(page).inner_text())
    assert found
    return int(found[1].replace(",", ""))


def test_the_room_says_what_can_be_claimed_what_waits_and_what_came(artist: Page) -> None:
    artist.goto(ROOM)
    expect(lede(artist)).to_contain_text(f"can be claimed now from {BOARD}")
    expect(of(artist, BOARD)).to_contain_text("Mill Lane School $280 waits")
    expect(of(artist, BOARD)).to_contain_text("Structural engineer: −$25 in the next claim")
    expect(row(artist, "No. 1").first).to_contain_text("Paid")


def test_a_claim_is_prepared_filed_and_paid_in_parts(artist: Page) -> None:
    prepared(artist)
    due = due_in(artist)
    expect(artist.locator("#left")).to_contain_text("proof of payment")
    expect(row(artist, "Structural engineer").first).to_contain_text("−$25")
    follow(artist, "File it")
    artist.get_by_label("Reference or note").fill("Sent by post")
    press(artist, "File it")
    expect(lede(artist)).to_contain_text(f"${due:,} is still to come")
    follow(artist, "The money came")
    artist.get_by_label("Amount").fill(f"{due}.01")
    press(artist, "Save")
    expect(artist.locator(".error").first).to_contain_text(f"${due:,} is still due on this claim")
    expect(artist.get_by_label("Amount")).to_have_value(f"{due}.01")
    artist.get_by_label("Amount").fill(str(due - 5))
    press(artist, "Save")
    expect(lede(artist)).to_contain_text("$5 is still to come")


def test_what_a_claim_holds_is_told_where_one_would_change_it(artist: Page, watch: Watch) -> None:
    watch.allowed.add(409)
    artist.goto(f"{ROOM}1/")
    follow(artist, "Structural engineer")
    follow(artist, "Delete")
    press(artist, "Delete")
    expect(artist.get_by_role("alert")).to_contain_text(f"claim 1 on {BOARD}")


def test_a_correction_stands_in_the_next_claim_with_its_reason(artist: Page) -> None:
    artist.goto(f"{ROOM}1/")
    follow(row(artist, "Artist").first, "Correct")
    artist.get_by_label("Take back").fill("100")
    artist.get_by_label("Why").fill("One day was for Two Herons")
    press(artist, "Save")
    expect(artist.get_by_role("heading", level=1)).to_have_text(f"Claim 2 on {BOARD}")
    taken = row(artist, "One day was for Two Herons").first
    expect(taken).to_contain_text("−$100")
    expect(taken).to_contain_text("corrects claim 1")


def test_a_claim_is_printed_with_its_receipts_bound_in(artist: Page) -> None:
    artist.goto(f"{ROOM}1/")
    with artist.expect_download(timeout=60_000) as arriving:
        artist.get_by_role("link", name="Save as PDF").click()
    assert Path(arriving.value.path()).read_bytes()[:5] == b"%PDF-"


def test_a_part_is_due_with_the_walk_and_invoiced(artist: Page) -> None:
    artist.goto(ROOM)
    follow(of(artist, TRADERS), "Invoice")
    artist.get_by_label("Invoice number").fill("HL-1")
    press(artist, "Save")
    expect(artist.locator(".error").first).to_contain_text("“At the signing of the letter”")
    artist.get_by_label("Invoice number").fill("HL-2")
    press(artist, "Save")
    expect(artist.get_by_role("heading", level=1)).to_have_text(TRADERS)
    expect(row(artist, "When the lantern is public").first).to_contain_text("HL-2")


def test_a_fee_is_split_by_percent(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}money/funds/2/milestones")
    parts = artist.get_by_label(re.compile("^Parts, one on a line"))
    parts.fill("80 % Before the start\n19 % After the report")
    press(artist, "Split it")
    expect(artist.locator(".error").first).to_contain_text("The parts come to 99 %.")
    parts.fill("80 % Before the start\n20 % After the report")
    press(artist, "Split it")
    expect(row(artist, "Before the start").first).to_contain_text("$7,200")
    expect(row(artist, "After the report").first).to_contain_text("no day yet")


def test_a_reader_sees_claims_and_changes_none(open_as: OpenAs) -> None:
    page = open_as("ward")
    page.goto(ROOM)
    expect(page.get_by_role("link", name="Prepare a claim")).to_have_count(0)
    follow(page, "No. 1")
    expect(page.get_by_role("link", name="Correct")).to_have_count(0)
