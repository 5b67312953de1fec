"""Hours of a shop, the region of the site, and calendars that go out and come in."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenAs
from tests.browser.phrases import HEARTHLIGHT, lede, press

pytestmark = pytest.mark.browser

FILE = "\r\n".join(
    [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Wexcombe Mills//Arts board//EN",
        "BEGIN:VEVENT",
        "UID:meets@board.example",
        "DTSTAMP:20260101T000000Z",
        "DTSTART;TZID=America/New_York:20260113T190000",
        "RRULE:FREQ=MONTHLY;BYDAY=2TU",
        "SUMMARY:Arts board meets",
        "END:VEVENT",
        "END:VCALENDAR",
        "",
    ]
).encode()


def test_a_shop_that_opens_late_on_mondays_is_saved_in_its_place(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}schedule/calendars/")
    shop = artist.locator("section.block", has_text="hours of Saltglaze Metalworks")
    shop.get_by_text("Change hours and working days").click()
    shop.get_by_label("Monday: work starts at").fill("10:00")
    shop.get_by_label("Monday: work ends at").fill("17:00")
    press(shop, "Save the calendar")
    expect(shop).to_contain_text("Mon 10:00 to 17:00")


def test_a_feed_is_switched_on_and_read_by_whoever_has_its_address(
    artist: Page, open_as: OpenAs
) -> None:
    artist.goto(f"{HEARTHLIGHT}schedule/feeds/")
    feed = artist.locator("article.feed", has_text="Third Bell Canvas Loft")
    press(feed, "Switch on")
    address = feed.get_by_label("Address to copy").input_value()
    answer = open_as().request.get(address)
    assert answer.status == 200
    assert "SUMMARY:Cut and sew skin" in answer.text()
    expect(lede(artist)).to_contain_text("3 feeds on, for 2 suppliers.")


def test_meetings_come_in_from_a_file_without_javascript(open_as: OpenAs) -> None:
    page = open_as("artist", java_script_enabled=False)
    page.goto(f"{HEARTHLIGHT}schedule/feeds/")
    payload = {"name": "board.ics", "mimeType": "text/calendar", "buffer": FILE}
    page.get_by_label("Calendar file").set_input_files(payload)
    press(page, "Read the file")
    page.get_by_role("checkbox").first.uncheck()
    press(page, "Keep the ticked days")
    expect(page.locator("#dates")).to_contain_text("Arts board meets")
