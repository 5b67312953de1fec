"""Gifts, trips, nights away and refunds in a browser, at both widths."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenAs
from tests.browser.phrases import HEARTHLIGHT, follow, photo, press
from tests.browser.watch import Watch

pytestmark = pytest.mark.browser

MONEY = f"{HEARTHLIGHT}money/"
GIFTS = f"{MONEY}gifts/"


def heading(page: Page, words: str) -> None:
    expect(page.get_by_role("heading", level=1)).to_contain_text(words)


def test_a_time_sheet_is_written_down_and_signed(artist: Page) -> None:
    artist.goto(GIFTS)
    follow(artist, "Hours of another employer's staff")
    artist.get_by_label("Given by").fill("Parks department")
    artist.get_by_label("What for").select_option(label="Ferns and soil")
    artist.get_by_label("What was given").fill("Two gardeners for a morning")
    artist.get_by_label("For one hour").fill("31.20")
    artist.get_by_label("Name").first.fill("Hester")
    artist.get_by_label("Day").first.fill("2026-01-05")
    artist.get_by_label("Start").first.fill("08:00")
    artist.get_by_label("End").first.fill("12:00")
    artist.get_by_label("Work", exact=True).first.fill("Dig in the compost")
    press(artist, "Save the gift")
    heading(artist, "$124.80 given by Parks department")
    expect(artist.locator("#gift")).to_contain_text("1 of 1 lines are not signed")
    press(artist, "All lines are signed on paper")
    expect(artist.locator("#gift")).not_to_contain_text("are not signed")


def test_more_lines_come_without_losing_what_is_typed(artist: Page) -> None:
    artist.goto(f"{GIFTS}add?kind=flat")
    artist.get_by_label("Name").first.fill("Hester")
    press(artist, "More lines")
    expect(artist.get_by_text("Line 7", exact=True)).to_be_visible()
    expect(artist.get_by_label("Name").first).to_have_value("Hester")


def test_a_trip_is_reckoned_drive_by_drive(artist: Page) -> None:
    artist.goto(f"{MONEY}expenses/add")
    follow(artist, "A trip by car")
    for at, (day, miles) in enumerate((("2022-06-30", "100"), ("2022-07-01", "100"))):
        artist.get_by_label("Day").nth(at).fill(day)
        artist.get_by_label("From").nth(at).fill("Studio")
        artist.get_by_label("To", exact=True).nth(at).fill("Saltglaze Metalworks")
        artist.get_by_label("Miles").nth(at).fill(miles)
        artist.get_by_label("Why").nth(at).fill("Fit check")
    artist.get_by_label("What for").select_option(label="Accounts and printing")
    press(artist, "Save the trip")
    heading(artist, "$121 to Artist")
    expect(artist.locator("main")).to_contain_text("100 at $0.585 is $58.50.")


def test_nights_away_show_their_days_and_take_off_a_provided_meal(artist: Page) -> None:
    artist.goto(f"{MONEY}stays/add")
    artist.get_by_label("First day away").fill("2025-11-04")
    artist.get_by_label("Last day away").fill("2025-11-06")
    press(artist, "Show the days")
    artist.get_by_label("Lunch").nth(1).check()
    artist.get_by_label("What for").select_option(label="Accounts and printing")
    artist.get_by_label("Town").fill("Fallow Weir")
    artist.get_by_label("Why").fill("Sewing of the skin")
    press(artist, "Save the nights away")
    heading(artist, "$371 to Artist")
    expect(artist.locator("main")).to_contain_text("lunch, $19 off")


def test_another_currency_is_refused_and_then_reckoned(artist: Page) -> None:
    artist.goto(f"{MONEY}expenses/add")
    artist.get_by_label("Amount", exact=True).fill("€120")
    artist.get_by_label("Paid to").fill("Weaver’s Selvedge")
    artist.get_by_label("What for").select_option(label="Ripstop, thread, webbing")
    press(artist, "Save")
    expect(artist.locator(".field.wrong .error").first).to_contain_text("is in euros")
    artist.get_by_label("Amount", exact=True).fill("")
    artist.get_by_text("Another currency", exact=True).click()
    artist.get_by_label("How much of it").fill("120")
    artist.get_by_label("Currency").select_option("EUR")
    artist.locator("#id_foreign_rate").fill("1.0850")
    artist.get_by_label("Day of the rate").fill("2026-01-05")
    press(artist, "Save")
    heading(artist, "$130.20 to Weaver’s Selvedge")
    expect(artist.locator("main")).to_contain_text("EUR 120.00 at 1.0850, 5 January 2026")


def test_a_refund_lowers_what_is_left_to_pay(artist: Page) -> None:
    artist.goto(f"{MONEY}#expenses")
    artist.get_by_role("link", name="Weir Bakery").first.click()
    follow(artist, "Add a refund")
    artist.get_by_label("Amount that came back").fill("6.40")
    artist.get_by_label("Why").fill("Eight rolls not delivered")
    artist.get_by_label("Refund slip").set_input_files(photo(words="Refund"))
    press(artist, "Save")
    expect(artist.locator("#credits")).to_contain_text("$80")
    expect(artist.locator("#credits")).to_contain_text("Eight rolls not delivered")


def test_the_second_of_two_people_sees_what_the_first_changed(
    open_as: OpenAs, watch: Watch
) -> None:
    watch.allowed.add(409)
    first, second = open_as("artist"), open_as("maker")
    first.goto(f"{MONEY}#expenses")
    first.get_by_role("link", name="Weir Bakery").first.click()
    edit = first.url.rstrip("/") + "/edit"
    for page in (first, second):
        page.goto(edit)
        expect(page.get_by_label("What it was")).to_be_visible()
    first.get_by_label("What it was").fill("Bread and soup for 38")
    press(first, "Save")
    heading(first, "Weir Bakery")
    second.get_by_label("What it was").fill("Bread, soup and tea")
    press(second, "Save")
    expect(second.locator(".problem")).to_contain_text("Somebody else saved this")
    expect(second.get_by_label("What it was")).to_have_value("Bread, soup and tea")
    expect(second.locator(".field.wrong .error")).to_contain_text("Bread and soup for 38")
    press(second, "Save")
    expect(second.locator("main")).to_contain_text("Bread, soup and tea")
    heading(second, "Weir Bakery")
