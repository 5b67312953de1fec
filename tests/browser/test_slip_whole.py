"""A late frame: three ways out side by side, one applied, its notices told, and the way back."""

from __future__ import annotations

import re
from io import BytesIO

import pikepdf
import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import OpenAs
from tests.browser.phrases import HEARTHLIGHT, figure, lede, press, settled

pytestmark = pytest.mark.browser

SLIP = f"{HEARTHLIGHT}schedule/slip/"
NOTICES = f"{HEARTHLIGHT}schedule/notices/"


def option(page: Page, name: str) -> Locator:
    return page.get_by_role("group", name=f"Option {name}")


def change(page: Page, name: str, number: int, what: str, days: str) -> None:
    """Fill in a change of an option; the page works it out at once."""
    row = option(page, name).locator(".change").nth(number)
    chooser = row.get_by_label("What slips")
    found = chooser.locator("option", has_text=what).first
    chooser.select_option(value=found.get_attribute("value"))
    settled(page)
    row.locator("input[inputmode=decimal]").fill(days)
    press(page, "See what it does")


def cells(page: Page, row: str) -> list[str]:
    found = page.locator("table.sides tr", has=page.get_by_role("rowheader", name=row))
    return found.locator("td").all_inner_texts()


def compare_three(page: Page) -> None:
    page.goto(SLIP)
    change(page, "A", 0, "Weld lantern frame", "9")
    press(page, "Compare another option")
    change(page, "B", 1, "Galvanise and powder coat", "-3")
    press(page, "Compare another option")
    expect(option(page, "C")).to_be_visible()
    option(page, "C").get_by_role("button", name="Take away change 2").click()
    settled(page)
    option(page, "C").locator(".change").nth(1).get_by_label("What slips").wait_for()
    change(page, "C", 1, "Mill Lane Lantern Walk", "7")


def tell(page: Page, party: str, how: str) -> None:
    notice = page.locator("details.notice", has=page.get_by_text(party, exact=True))
    if notice.get_attribute("open") is None:
        notice.locator("summary").click()
    notice.get_by_label("How").select_option(label=how)
    press(notice, "They have been told")


def test_a_late_frame_is_answered_told_and_taken_back(artist: Page) -> None:
    artist.goto(NOTICES)
    waiting = artist.locator("details.notice")
    waited_before = waiting.count()
    before = figure(artist, "Public date").inner_text()
    compare_three(artist)
    expect(artist.locator("table.sides thead th")).to_have_count(4)
    expect(artist.locator("#slip-chance td")).to_have_count(4)
    artist.get_by_role("link", name="See C whole").click()
    settled(artist)
    expect(lede(artist)).to_contain_text("with option C")
    artist.get_by_label("Reason").fill("The steel came nine days late")
    press(artist, "Apply option C with a reason")
    expect(figure(artist, "Public date")).not_to_have_text(before)
    artist.get_by_role("link", name="See the notices").click()
    all_of_them = waiting.count()
    for party in ("Saltglaze Metalworks", "Third Bell Canvas Loft", "Wexcombe Arts Board"):
        expect(waiting.filter(has=artist.get_by_text(party, exact=True))).to_have_count(1)
    tell(artist, "Saltglaze Metalworks", "by telephone")
    tell(artist, "Millrace Lift Hire", "by e-mail")
    expect(waiting).to_have_count(all_of_them - 2)
    press(artist, "Take it back")
    expect(figure(artist, "Public date")).to_have_text(before)
    artist.goto(NOTICES)
    expect(waiting).to_have_count(waited_before + 2)


def test_options_are_compared_and_applied_without_javascript(open_as: OpenAs) -> None:
    page = open_as("artist", java_script_enabled=False, width="phone")
    page.goto(SLIP)
    chooser = page.get_by_label("What slips")
    weld = chooser.locator("option", has_text="Weld lantern frame").first.get_attribute("value")
    page.goto(f"{SLIP}?a-0-what={weld}&a-0-days=9")
    page.get_by_role("button", name="Compare another option").click()
    expect(page).to_have_url(re.compile("b-0-days=9"))
    page.get_by_role("link", name="Work it out").click()
    expect(page.locator("#slip-chance td")).to_have_count(3)
    option(page, "B").locator("input[inputmode=decimal]").nth(0).fill("soon")
    page.get_by_role("button", name="See what it does").click()
    expect(page.locator("[aria-invalid=true]")).to_have_value("soon")
    page.get_by_label("Reason").fill("Late")
    page.get_by_role("button", name="Apply option A").click()
    expect(page.get_by_role("heading", name="Applied", exact=True)).to_be_visible()


def test_letters_print_one_page_a_party(open_as: OpenAs) -> None:
    page = open_as("artist", width="desktop")
    page.goto(f"{SLIP}?a-0-what=key-1&a-0-days=7")
    page.get_by_label("Reason").fill("The town moved the walk")
    press(page, "Apply with a reason")
    page.goto(f"{NOTICES}print/")
    letters = page.locator(".sheetofpaper").count()
    with pikepdf.open(BytesIO(page.pdf(prefer_css_page_size=True))) as pdf:
        assert len(pdf.pages) == letters > 2
    page.emulate_media(media="print")
    expect(page.get_by_role("heading", name="Notices to print")).to_be_hidden()
    expect(page.locator(".titleblock")).to_be_hidden()
