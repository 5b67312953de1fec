"""With the keyboard alone."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT

pytestmark = [
    pytest.mark.browser,
    pytest.mark.parametrize("screen", ["desktop"], indirect=True),
]

RING = """() => {
  const focused = document.activeElement;
  const shapes = [focused, ...focused.querySelectorAll('rect, path, text')];
  const drawn = (style) => style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
  return shapes.some((shape) => drawn(getComputedStyle(shape)))
    || shapes.slice(1).some((shape) => parseFloat(getComputedStyle(shape).strokeWidth) >= 2);
}"""
ON_A_BAR = "document.activeElement.matches('svg a')"
IN_VIEW = """() => {
  const box = document.activeElement.getBoundingClientRect();
  return box.top >= 0 && box.bottom <= innerHeight;
}"""


def test_the_first_stop_skips_to_the_page(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}schedule/")
    artist.keyboard.press("Tab")
    skip = artist.get_by_role("link", name="Skip to the page")
    expect(skip).to_be_focused()
    expect(skip).to_be_in_viewport()
    artist.keyboard.press("Enter")
    expect(artist.locator("#main")).to_be_focused()


def tab_to_a_bar(page: Page) -> None:
    page.locator("#main").focus()
    for _ in range(30):
        page.keyboard.press("Tab")
        if page.evaluate(ON_A_BAR):
            return
    pytest.fail("No bar of the timeline within thirty stops.")


def test_a_bar_of_the_timeline_is_reached_and_shows_its_focus(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}schedule/")
    tab_to_a_bar(artist)
    assert artist.evaluate(RING)


def test_a_bar_opens_its_task_where_it_can_be_seen(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}schedule/")
    tab_to_a_bar(artist)
    artist.keyboard.press("Enter")
    expect(artist).to_have_url(re.compile(r"/schedule/.*#task-\d+$"))
    expect(artist.locator("tr:target")).to_be_in_viewport()


@pytest.mark.parametrize("sheet", ["", "parts/", "schedule/", "money/", "packets/", "log/"])
def test_every_stop_of_a_sheet_shows_where_the_focus_is(artist: Page, sheet: str) -> None:
    artist.goto(HEARTHLIGHT + sheet)
    artist.wait_for_load_state("networkidle")  # figures that come later take no focus away
    for _ in range(25):
        artist.keyboard.press("Tab")
        if artist.evaluate("document.activeElement === document.body"):
            break  # past the last stop
        assert artist.evaluate(RING), artist.evaluate("document.activeElement.outerHTML")


def test_a_form_that_opens_in_place_takes_the_focus(artist: Page) -> None:
    artist.goto(f"{HEARTHLIGHT}money/")
    artist.get_by_role("link", name="Add a line").press("Enter")
    expect(artist.get_by_role("heading", level=3).first).to_be_focused()
    assert artist.evaluate(IN_VIEW)
