"""The best fit on the demo: what it gains, what a paper is worth, accepted and put back."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, lede, log_total, press, row, settled

pytestmark = pytest.mark.browser

BEST = f"{HEARTHLIGHT}money/best/"
WARD = "Riverside Ward improvement fund"
PAINT = "Ledger Street Paints"


def cents(text: str) -> int:
    return round(float(re.sub(r"[^0-9.]", "", text)) * 100)


def test_it_opens_with_what_funds_pay_now_and_at_best(artist: Page) -> None:
    artist.goto(BEST)
    found = re.search(
        r"pay (\$[\d,.]+) now.*?can pay (\$[\d,.]+), (\$[\d,.]+) more", lede(artist).inner_text()
    )
    assert found
    now, best, more = (cents(text.rstrip(".,")) for text in found.groups())
    assert best - now == more > 0
    expect(artist.locator("#best-funds")).to_contain_text(
        "Proven: no way of sharing out uses more."
    )
    expect(artist.locator("#best-funds")).to_contain_text("Had each bill gone to the first fund")


def test_first_come_would_lose_money_on_the_demo(artist: Page) -> None:
    artist.goto(BEST)
    words = artist.locator("#best-funds .under-table").inner_text()
    assert re.search(r"would pay \$[\d,.]+ of \$[\d,.]+: \$[\d,.]+ less\.", words)


def test_the_missing_proof_of_payment_has_a_worth_in_dollars(artist: Page) -> None:
    artist.goto(BEST)
    settled(artist)
    school = artist.locator("#best-own").get_by_role("row").filter(has_text="Mill Lane School")
    expect(school).to_contain_text("Add the proof of payment")
    expect(school.locator("b")).to_have_text(re.compile(r"^\$\d"))
    school.get_by_role("link").first.click()
    artist.get_by_text("Why not this fund?").click()
    settled(artist)
    expect(artist.locator("#why")).to_contain_text(re.compile(r"Worth \$\d"))


def test_all_of_it_is_accepted_and_put_back_as_it_was(artist: Page) -> None:
    entries = log_total(artist)
    artist.goto(BEST)
    before = artist.locator("#best-funds table").inner_text()
    press(artist, "Accept all of it")
    expect(artist.locator("#best-changes")).to_contain_text("as good as it gets")
    expect(lede(artist)).to_contain_text("no way of sharing out has them pay more")
    assert log_total(artist) == entries + 1
    artist.goto(BEST)
    press(artist, "Put it back as it was")
    assert artist.locator("#best-funds table").inner_text() == before


def test_one_change_is_accepted_alone(artist: Page) -> None:
    artist.goto(BEST)
    ticks = artist.locator("#best-changes input[type=checkbox]")
    for place in range(ticks.count()):
        ticks.nth(place).uncheck()
    row(artist, PAINT).get_by_role("checkbox").check()
    press(artist, "Accept what is ticked")
    expect(artist.locator("#accepted tbody tr").first).to_contain_text("for 1 expense: ")
    expect(artist.locator("#accepted tbody tr").first).to_contain_text(WARD)
    press(artist, "Put it back as it was")
    expect(artist.locator("#accepted tbody tr").first).to_contain_text("put back by")


def test_a_switch_is_reckoned_at_once_and_kept_in_the_address(artist: Page) -> None:
    artist.goto(BEST)
    artist.get_by_text("How it is reckoned").click()
    artist.get_by_label("Plan for what is still to be spent").uncheck()
    settled(artist)
    expect(artist.locator("#best-plans")).to_have_count(0)
    expect(artist).to_have_url(re.compile(r"asked=yes"))
    artist.reload()
    expect(artist.locator("#best-plans")).to_have_count(0)
