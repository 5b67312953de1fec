"""Money from a phone: an expense with its receipt, and who pays it."""

from __future__ import annotations

import re
import time

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, figure, follow, photo, press

pytestmark = pytest.mark.browser

MONEY = f"{HEARTHLIGHT}money/"
ARTS_BOARD = "Wexcombe Arts Board small works grant"
WARD = "Riverside Ward improvement fund"
TRADERS = "Mill Lane Traders sponsorship"


def log_expense(page: Page, amount: str, payee: str, line: str) -> None:
    follow(page, "Log an expense")
    page.get_by_label("Amount").fill(amount)
    page.get_by_label("Paid to").fill(payee)
    page.get_by_label("What for").select_option(label=line)
    page.get_by_label("Receipt").set_input_files(photo(words=f"{payee} {amount}"))
    press(page, "Save")
    expect(page.get_by_role("heading", level=1)).to_contain_text(f"to {payee}")


def test_an_expense_with_a_photo_is_logged_in_under_fifteen_seconds(artist: Page) -> None:
    artist.goto(MONEY)
    began = time.monotonic()
    log_expense(artist, "48.20", "Ledger Street Paints", "Mineral paint, primer, clear coat")
    assert time.monotonic() - began < 15
    picture = artist.get_by_role("img", name="Ledger Street Paints")
    expect(picture).to_be_visible()
    picture.scroll_into_view_if_needed()
    expect(picture).to_have_js_property("complete", True)
    assert picture.evaluate("image => image.naturalWidth") > 0


def test_a_fund_takes_a_whole_expense_in_one_tap(artist: Page) -> None:
    artist.goto(MONEY)
    log_expense(artist, "48.20", "Ledger Street Paints", "Mineral paint, primer, clear coat")
    press(artist, f"All of it to {WARD}")
    expect(artist.locator(".lede")).to_contain_text("Every cent of it has a fund")
    expect(artist.get_by_label(WARD)).to_have_value(re.compile(r"48\.20"))


def test_an_expense_is_shared_between_two_funds_to_the_cent(artist: Page) -> None:
    artist.goto(MONEY)
    log_expense(artist, "100.01", "Ledger Street Paints", "Mineral paint, primer, clear coat")
    artist.get_by_label(TRADERS).fill("33.34")
    artist.get_by_label(WARD).fill("66.67")
    press(artist, "Save who pays")
    expect(artist.locator(".lede")).to_contain_text("Every cent of it has a fund")


def test_shares_a_cent_short_are_refused_in_a_sentence_beside_the_rest(artist: Page) -> None:
    artist.goto(MONEY)
    log_expense(artist, "20.00", "Ledger Street Paints", "Mineral paint, primer, clear coat")
    artist.get_by_label(WARD).fill("19.99")
    press(artist, "Save who pays")
    error = artist.locator(".field.wrong .error")
    expect(error).to_contain_text("$0.01 less than the expense of $20.")
    expect(artist.get_by_label(WARD)).to_have_value("19.99")


def test_what_an_expense_counts_for_is_typed_beside_who_pays_it(artist: Page) -> None:
    artist.goto(MONEY)
    log_expense(artist, "20.00", "Ledger Street Paints", "Mineral paint, primer, clear coat")
    expect(artist.locator(".counts")).to_contain_text("needs a paper that this expense lacks")


def test_a_share_that_a_rule_bars_is_refused_with_the_rule_and_the_number(artist: Page) -> None:
    artist.goto(MONEY)
    log_expense(artist, "86.40", "Weir Bakery", "Food for volunteers")
    artist.get_by_label(ARTS_BOARD).fill("86.40")
    press(artist, "Save who pays")
    field = artist.get_by_label(ARTS_BOARD)
    expect(field).to_be_focused()
    expect(field).to_have_value("86.40")
    error = artist.locator(".field.wrong .error")
    expect(error).to_contain_text("food and hospitality")
    expect(error).to_contain_text("Rule:")


def test_more_than_the_expense_cannot_be_shared(artist: Page) -> None:
    artist.goto(MONEY)
    log_expense(artist, "20.00", "Ledger Street Paints", "Mineral paint, primer, clear coat")
    artist.get_by_label(WARD).fill("20.01")
    press(artist, "Save who pays")
    expect(artist.locator(".field.wrong .error")).to_contain_text("$0.01")
    expect(artist.get_by_label(WARD)).to_have_value("20.01")


def test_what_is_left_follows_what_is_logged(artist: Page) -> None:
    artist.goto(MONEY)
    before = figure(artist, "Money left").inner_text()
    log_expense(artist, "48.20", "Ledger Street Paints", "Mineral paint, primer, clear coat")
    press(artist, f"All of it to {WARD}")
    expect(artist.locator(".lede")).to_contain_text("Every cent")
    expect(figure(artist, "Money left")).not_to_have_text(before)
