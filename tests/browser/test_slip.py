"""Try a slip: see what moves and what breaks before anything is saved."""

from __future__ import annotations

import re
import time

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.phrases import (
    HEARTHLIGHT,
    figure,
    follow,
    log_lines,
    log_total,
    press,
    row,
    settled,
)

pytestmark = pytest.mark.browser

SCHEDULE = f"{HEARTHLIGHT}schedule/"


def choose(page: Page, words: str) -> None:
    option = page.get_by_label("What slips").locator("option", has_text=words)
    page.get_by_label("What slips").select_option(value=option.first.get_attribute("value"))
    settled(page)


def try_days(page: Page, what: str, days: str) -> None:
    page.goto(f"{SCHEDULE}slip/")
    choose(page, what)
    page.get_by_label(re.compile("by calendar days|longer by working days")).fill(days)
    press(page, "See what it does")
    expect(page.get_by_role("button", name="Apply with a reason")).to_be_visible()


def test_a_late_frame_shows_what_moves_and_the_days_in_hand_then(artist: Page) -> None:
    artist.goto(SCHEDULE)
    now = figure(artist, "In hand").inner_text().lower()
    try_days(artist, "Weld lantern frame", "8")
    expect(row(artist, "Galvanise and powder coat")).to_be_visible()
    expect(artist.locator(".lede")).to_contain_text(f"it has {now} in hand now")
    expect(artist.get_by_role("heading", name="What would carry the date")).to_be_visible()


def test_a_later_public_date_shows_what_breaks_outside_the_schedule(artist: Page) -> None:
    try_days(artist, "Mill Lane Lantern Walk", "21")
    expect(artist.get_by_role("heading", name="What breaks outside the schedule")).to_be_visible()
    marks = artist.locator("ul.marks").first
    expect(marks).to_contain_text("Riverside Ward improvement fund")
    expect(marks).to_contain_text("rev A shows dates that would be wrong")


def test_what_is_typed_while_the_answer_is_on_its_way_is_kept(artist: Page) -> None:
    artist.goto(f"{SCHEDULE}slip/")
    artist.route("**/slip/?*", answer_late)
    option = artist.get_by_label("What slips").locator("option", has_text="Weld lantern frame")
    artist.get_by_label("What slips").select_option(value=option.get_attribute("value"))
    artist.get_by_label("longer by working days").press_sequentially("8")
    settled(artist)
    expect(artist.get_by_label("longer by working days")).to_have_value("8")


def answer_late(route: Route) -> None:
    time.sleep(0.5)
    route.continue_()


def test_a_slip_that_is_discarded_changes_nothing(artist: Page) -> None:
    before = log_total(artist)
    public_date = figure(artist, "Public date").inner_text()
    try_days(artist, "Mill Lane Lantern Walk", "21")
    follow(artist, "Discard")
    expect(artist).to_have_url(re.compile(f"{SCHEDULE}$"))
    expect(figure(artist, "Public date")).to_have_text(public_date)
    assert log_total(artist) == before


def test_an_applied_slip_is_one_log_entry_and_new_dates(artist: Page) -> None:
    before = log_total(artist)
    public_date = figure(artist, "Public date").inner_text()
    try_days(artist, "Mill Lane Lantern Walk", "14")
    artist.get_by_label("Reason").fill("The town moved the walk for a storm")
    press(artist, "Apply with a reason")
    expect(figure(artist, "Public date")).not_to_have_text(public_date)
    assert log_total(artist) == before + 1
    told = [line for line in log_lines(artist) if "The town moved the walk for a storm" in line]
    assert len(told) == 1


def test_a_slip_without_a_reason_is_not_applied(artist: Page) -> None:
    before = log_total(artist)
    try_days(artist, "Weld lantern frame", "8")
    press(artist, "Apply with a reason")
    reason = artist.get_by_label("Reason")
    assert reason.evaluate("field => !field.validity.valid || field.ariaInvalid === 'true'")
    assert log_total(artist) == before
