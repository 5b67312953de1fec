"""Quotes from a phone: asked in the same words, compared on the plan, ordered; and billed."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, figure, follow, lede, photo, press, row

pytestmark = pytest.mark.browser

QUOTES = f"{HEARTHLIGHT}money/quotes/"
BOX = "Battery box and crank housing"
SALTGLAZE = "Saltglaze Metalworks"


def the_box(page: Page) -> None:
    page.goto(QUOTES)
    follow(page, BOX, exact=True)


def test_the_comparison_names_the_best_and_not_the_cheapest(artist: Page) -> None:
    the_box(artist)
    expect(lede(artist)).to_contain_text(f"Take {SALTGLAZE}")
    expect(lede(artist)).to_contain_text("cheaper but misses Mill Lane Lantern Walk")
    expect(row(artist, "Spindle Electrical Supply")).to_contain_text("missed by")
    expect(row(artist, SALTGLAZE)).to_contain_text("in hand")


def test_a_later_order_is_tried_and_nothing_is_saved(artist: Page) -> None:
    the_box(artist)
    before = figure(artist, "In hand").inner_text()
    artist.get_by_label("If it is ordered on").fill("2031-04-14")
    press(artist, "Try that day")
    expect(row(artist, "Tannery Sheet Metal")).to_contain_text("ended")
    expect(figure(artist, "In hand")).to_have_text(before)


def test_suppliers_are_asked_in_the_same_words(artist: Page) -> None:
    artist.goto(QUOTES)
    follow(artist, "Ask for quotes")
    artist.get_by_label("What is to be priced").fill("Brushes and trays")
    artist.get_by_label("What exactly").fill("Six brushes, two trays, delivered to the pier.")
    for name in ("Ledger Street Paints", "Tannery Sheet Metal"):
        artist.get_by_label(name).check()
    press(artist, "Save")
    follow(artist, "Write to Ledger Street Paints")
    expect(artist.get_by_text("Six brushes, two trays")).to_be_visible()
    mail = artist.get_by_role("link", name="Write the e-mail")
    expect(mail).to_have_attribute("href", re.compile(r"^mailto:counter@ledgerstreet\.example\?"))
    press(artist, "Mark as asked")
    expect(artist.get_by_text("asked today")).to_be_visible()


def test_an_answer_is_logged_with_its_picture(artist: Page) -> None:
    artist.goto(QUOTES)
    follow(artist, "Ask for quotes")
    artist.get_by_label("What is to be priced").fill("Brushes")
    artist.get_by_label("What exactly").fill("Six brushes.")
    artist.get_by_label("Ledger Street Paints").check()
    press(artist, "Save")
    follow(artist, "Log the answer")
    artist.get_by_label("Price, without tax").fill("84.20")
    artist.get_by_label("Lead time, working days").fill("soon")
    press(artist, "Save")
    expect(artist.get_by_text("Write a whole number of days")).to_be_visible()
    expect(artist.get_by_label("Price, without tax")).to_have_value("84.20")
    artist.get_by_label("Lead time, working days").fill("3")
    artist.get_by_label("Their quote as a file").set_input_files(photo(words="Brushes 84.20"))
    press(artist, "Save")
    expect(row(artist, "Ledger Street Paints")).to_contain_text("$84.20")
    expect(artist.get_by_role("link", name="Their paper")).to_be_visible()


def test_a_quote_is_ordered_and_its_deposit_billed_in_two_taps(artist: Page) -> None:
    the_box(artist)
    follow(artist, f"Order from {SALTGLAZE}")
    press(artist, "Order it")
    expect(artist.get_by_text("Write why, such as")).to_be_visible()
    artist.get_by_label("Why this one").fill("The only one that keeps the walk with a lock")
    press(artist, "Order it")
    expect(lede(artist)).to_contain_text(f"{SALTGLAZE} was chosen")
    artist.goto(QUOTES)
    follow(row(artist, BOX).last, "Log a bill")
    expect(artist.get_by_label("It is the deposit")).to_be_checked()
    press(artist, "Save")
    expect(artist.get_by_role("link", name="Deposit")).to_be_visible()
    expect(lede(artist)).to_contain_text("logged and not paid yet")
    artist.goto(f"{HEARTHLIGHT}schedule/")
    expect(row(artist, "Build crank light and battery box")).to_contain_text("12")


def test_a_choice_is_reopened_with_a_reason(artist: Page) -> None:
    the_box(artist)
    follow(artist, f"Order from {SALTGLAZE}")
    artist.get_by_label("Why this one").fill("In time")
    press(artist, "Order it")
    follow(artist, "Reopen the choice")
    artist.get_by_label("Why", exact=True).fill("They cannot after all")
    press(artist, "Reopen it")
    expect(lede(artist)).to_contain_text(f"Take {SALTGLAZE}")


def test_a_cancelled_order_says_what_is_lost(artist: Page) -> None:
    artist.goto(QUOTES)
    follow(row(artist, "Lantern skin").last, "Lantern skin")
    follow(artist, "Cancel the order")
    artist.get_by_label("Of what was paid, they send back").fill("1,000")
    artist.get_by_label("Why", exact=True).fill("The loft closed")
    press(artist, "Cancel it")
    expect(lede(artist)).to_contain_text("$1,000 of what was paid is still to come back")
