"""The lanes timeline by keys and by hand: moving along it, its links, a bar tried longer."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.phrases import HEARTHLIGHT, settled
from tests.browser.test_every_page import axe_faults

pytestmark = [
    pytest.mark.browser,
    pytest.mark.parametrize("screen", ["desktop"], indirect=True),
]

SCHEDULE = f"{HEARTHLIGHT}schedule/"
WEEK = 7 * 13.4  # pixels at this zoom
MIDDLE = "middleDay(document.getElementById('timeline-scroll'))"


def opened(page: Page, zoom: str) -> Locator:
    page.goto(f"{SCHEDULE}?zoom={zoom}&placed=earliest&against=nothing")
    return page.locator("#timeline-scroll")


def bar(page: Page, name: str) -> Locator:
    return page.locator(".lanes-body a", has_text=name).first


def test_keys_move_along_and_a_zoom_keeps_the_day_in_the_middle(artist: Page) -> None:
    view = opened(artist, "weeks")
    view.focus()
    artist.keyboard.press("Home")
    assert view.evaluate("view => view.scrollLeft") == 0
    artist.keyboard.press("ArrowRight")
    assert view.evaluate("view => view.scrollLeft") == pytest.approx(120, abs=1)
    before = artist.evaluate(MIDDLE)
    artist.keyboard.press("+")
    settled(artist)
    expect(artist.locator("#zoom-days")).to_have_attribute("aria-current", "true")
    expect(view).to_be_focused()
    assert artist.evaluate(MIDDLE) == pytest.approx(before, abs=0.1)
    assert "zoom=days" in artist.url


def test_a_bar_in_focus_shows_and_names_what_it_is_linked_to(artist: Page) -> None:
    opened(artist, "fit")
    bar(artist, "Cut and sew skin").focus()
    expect(artist.locator("path.link")).to_have_count(2)
    said = artist.locator("#timeline-says")
    expect(said).to_contain_text("Waits for: Paper pattern and fit check")
    expect(bar(artist, "Cut and sew skin")).to_have_attribute("aria-describedby", "timeline-says")
    artist.keyboard.press("b")
    expect(bar(artist, "Paper pattern and fit check")).to_be_focused()
    artist.keyboard.press("n")
    expect(bar(artist, "Paper pattern and fit check")).not_to_be_focused()
    expect(said).to_contain_text("Waits for: Paper pattern and fit check")
    assert not list(axe_faults(artist))


def test_a_bar_drawn_out_by_its_end_is_tried_as_a_slip(artist: Page) -> None:
    view = opened(artist, "weeks")
    view.evaluate("view => { view.scrollLeft += 300 }")
    box = bar(artist, "Weld lantern frame").locator(".bar").bounding_box()
    assert box
    x, y = box["x"] + box["width"], box["y"] + box["height"] / 2
    artist.mouse.move(x - 6, y)
    artist.mouse.move(x - 2, y)
    artist.mouse.down()
    artist.mouse.move(x + WEEK, y, steps=4)
    expect(artist.locator(".stretch-words")).to_have_text("+5 days")
    artist.mouse.up()
    expect(artist).to_have_url(re.compile(r"/slip/\?what=task-\d+&days=5"))


def test_shift_and_arrow_try_a_bar_longer_and_enter_goes_to_the_slip(artist: Page) -> None:
    opened(artist, "fit")
    bar(artist, "Weld lantern frame").focus()
    says = artist.locator("#timeline-says")
    for key in ("Shift+ArrowRight", "Shift+ArrowRight"):
        artist.keyboard.press(key)
    expect(says).to_contain_text("2 working days longer")
    artist.keyboard.press("Escape")
    expect(says).to_contain_text("Waits for: Cut steel for the frame")
    artist.keyboard.press("Shift+ArrowRight")
    expect(artist.get_by_role("status")).to_contain_text("1 working day longer")
    artist.keyboard.press("Enter")
    expect(artist).to_have_url(re.compile(r"/slip/\?what=task-\d+&days=1"))
    expect(artist.locator("#sheet")).to_contain_text("Weld lantern frame")
