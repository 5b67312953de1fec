"""The schedule sheet: tasks and links in place, and why a date is what it is."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.phrases import HEARTHLIGHT, figure, follow, press, row

pytestmark = pytest.mark.browser

SCHEDULE = f"{HEARTHLIGHT}schedule/"


def add_task(page: Page, name: str, days: str = "2", after: str = "Paint mural field") -> None:
    follow(page, "Add a task")
    page.get_by_label("Name", exact=True).fill(name)
    page.get_by_label("Lane", exact=True).select_option(label="Artist")
    page.get_by_label("Working days", exact=True).fill(days)
    page.get_by_label("Starts after").select_option(label=after)
    press(page, "Add the task")


def test_a_task_is_added_in_place_and_gets_its_dates(artist: Page) -> None:
    artist.goto(SCHEDULE)
    add_task(artist, "Stencil the border")
    expect(row(artist, "Stencil the border")).to_contain_text(re.compile(r"\d+ Apr"))
    assert artist.url.endswith(SCHEDULE)


def test_a_longer_task_moves_what_waits_for_it(artist: Page) -> None:
    artist.goto(SCHEDULE)
    coat = row(artist, "Clear coat to 9 ft")
    before = coat.inner_text()
    follow(row(artist, "Paint mural field"), "Paint mural field")
    artist.get_by_label("Working days", exact=True).fill("10")
    press(artist, "Save the task")
    expect(row(artist, "Paint mural field").locator("td.n").first).to_have_text("10")
    assert coat.inner_text() != before


def test_a_task_is_removed_only_after_a_second_step(artist: Page) -> None:
    artist.goto(SCHEDULE)
    follow(row(artist, "Plant fern troughs"), "Plant fern troughs")
    artist.get_by_text("Remove this task").click()
    press(artist, "Remove the task")
    expect(row(artist, "Plant fern troughs")).to_have_count(0)
    expect(row(artist, "Set wall anchors")).to_have_count(1)


def test_a_link_is_added_and_removed_in_place(artist: Page) -> None:
    artist.goto(SCHEDULE)
    follow(row(artist, "Plant fern troughs"), "Plant fern troughs")
    artist.get_by_label("Waits for").select_option(label="Cut and sew skin")
    press(artist, "Add the link")
    kept = artist.locator("ul.links li", has_text="Cut and sew skin")
    expect(kept).to_be_visible()
    press(kept, "Remove")
    expect(kept).to_have_count(0)


def test_every_task_says_why_its_date_is_what_it_is(artist: Page) -> None:
    artist.goto(SCHEDULE)
    follow(row(artist, "Paint mural field"), "Why")
    why = artist.get_by_role("group", name="Why these dates: Paint mural field")
    expect(why).to_be_focused()
    expect(why).to_contain_text("Wash and prime the wall")
    follow(why, "Close")
    expect(why).to_have_count(0)


def test_a_loop_of_links_is_refused_with_its_tasks_named(artist: Page) -> None:
    artist.goto(SCHEDULE)
    follow(row(artist, "Wash and prime the wall"), "Wash and prime the wall")
    artist.get_by_label("Waits for").select_option(label="Clear coat to 9 ft")
    press(artist, "Add the link")
    said = artist.get_by_text("This link would make a loop")
    expect(said).to_contain_text("Paint mural field")
    expect(artist.get_by_label("Waits for")).to_have_value(re.compile(r"\d+"))


def test_a_finished_task_is_marked_with_one_tap(artist: Page) -> None:
    artist.goto(SCHEDULE)
    press(row(artist, "Anchor letter"), "Done")
    expect(row(artist, "Anchor letter")).to_contain_text("done")


def test_the_title_block_follows_a_change_without_a_new_page(artist: Page) -> None:
    artist.goto(SCHEDULE)
    before = figure(artist, "In hand").inner_text()
    follow(row(artist, "Paint mural field"), "Paint mural field")
    artist.get_by_label("Working days", exact=True).fill("10")
    press(artist, "Save the task")
    expect(figure(artist, "In hand")).not_to_have_text(before)
