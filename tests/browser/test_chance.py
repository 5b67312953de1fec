"""The chance of the public date: read, changed by an estimate, and without JavaScript."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenAs
from tests.browser.phrases import HEARTHLIGHT, figure, follow, lede, press, row, settled

pytestmark = pytest.mark.browser

PERCENT = re.compile(r"\d\d %")
CHANCE = f"{HEARTHLIGHT}schedule/chance/"


def test_an_estimate_that_is_worse_lowers_the_chance_of_the_walk(artist: Page) -> None:
    artist.goto(HEARTHLIGHT)
    expect(figure(artist, "Chance")).to_have_text(PERCENT)
    follow(figure(artist, "Chance"), "%")
    now = figure(artist, "Chance").inner_text().strip()
    expect(lede(artist)).to_contain_text(f"In {now.removesuffix(' %')} of 100 draws")
    expect(row(artist, "Move Mill Lane Lantern Walk by a week")).to_be_visible()
    follow(artist, "Clear coat to 9 ft")
    artist.get_by_label("Days if it goes badly").fill("30")
    press(artist, "Save the estimate")
    expect(artist.get_by_text("1 to 30 days, most likely 1, outdoors")).to_be_visible()
    assert int(figure(artist, "Chance").inner_text().split()[0]) < int(now.split()[0])


@pytest.mark.parametrize("screen", ["desktop"], indirect=True)
def test_what_buys_the_most_is_worked_out_without_javascript(open_as: OpenAs) -> None:
    plain = open_as("artist", java_script_enabled=False)
    plain.goto(CHANCE)
    plain.get_by_role("link", name="Work it out").click()
    first = row(plain, "Move Mill Lane Lantern Walk by a week")
    expect(first).to_contain_text("not counted")
    first.get_by_role("link", name="Try it").click()
    settled(plain)
    expect(plain.get_by_role("heading", level=1)).to_have_text("Try a slip")
