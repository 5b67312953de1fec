"""The update, on a phone: one press keeps one answer, and each can be taken back."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenAs
from tests.browser.phrases import HEARTHLIGHT, lede, press, settled
from tests.browser.watch import Watch

pytestmark = pytest.mark.browser

UPDATE = f"{HEARTHLIGHT}schedule/update/"
THUMB = 44


@pytest.fixture
def screen() -> str:
    return "phone"


@pytest.fixture
def phone(open_as: OpenAs) -> Page:
    page = open_as("artist")
    page.goto(UPDATE)
    return page


def test_three_tasks_are_answered_on_one_page(phone: Page) -> None:
    expect(lede(phone)).to_contain_text("0 of 5 answered.")
    press(phone.locator("li", has_text="Write to the neighbours"), "Finished as planned")
    frame = phone.locator("ol.asks > li", has_text="Weld lantern frame")
    frame.get_by_text("Another day, or days left").click()
    frame.get_by_label("Working days left").fill("6")
    press(frame, "So many days left")
    expect(frame).to_contain_text("6 working days are left.")
    press(phone.locator("li", has_text="Anchor letter"), "Goes on")
    expect(lede(phone)).to_contain_text("3 of 5 answered.")
    expect(phone.get_by_text("in hand before these answers")).to_be_visible()
    press(frame, "Undo")
    expect(lede(phone)).to_contain_text("2 of 5 answered.")
    assert phone.url.endswith(UPDATE)


def test_every_button_is_as_large_as_a_thumb(phone: Page) -> None:
    for button in phone.locator("ol.asks .answers button").all():
        box = button.bounding_box()
        assert box and box["height"] >= THUMB


def test_a_day_to_come_is_refused_and_what_was_typed_stays(phone: Page, watch: Watch) -> None:
    watch.allowed.add(422)
    permit = phone.locator("ol.asks > li", has_text="Encroachment permit review")
    permit.get_by_text("Another day, or days left").click()
    day = permit.get_by_label("On another day")
    day.fill("2032-01-05")
    permit.get_by_role("button", name="Finished that day").click()
    settled(phone)
    expect(permit.get_by_text("That day is still to come.")).to_be_visible()
    expect(day).to_have_value("2032-01-05")
