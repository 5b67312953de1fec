"""Who may only look sees no way to change, and is refused when trying."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenAs
from tests.browser.phrases import HEARTHLIGHT
from tests.browser.watch import Watch

pytestmark = pytest.mark.browser

SHEETS = ("", "parts/", "schedule/", "money/", "suppliers/", "packets/", "log/")
CHANGING = re.compile(r"^(Add|Change|Delete|Remove|Edit|Log an|Make|Keep as|Start|Done|Up|Down)\b")


@pytest.fixture
def reader(open_as: OpenAs) -> Page:
    return open_as("ward")


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_reader_sees_no_button_that_changes_something(reader: Page, sheet: str) -> None:
    reader.goto(HEARTHLIGHT + sheet)
    main = reader.get_by_role("main")
    for role in ("button", "link"):
        names = main.get_by_role(role).all_text_contents()
        assert not [name for name in names if CHANGING.match(name.strip())]


def test_a_reader_who_posts_is_refused(reader: Page, watch: Watch) -> None:
    watch.allowed.add(403)
    reader.goto(f"{HEARTHLIGHT}schedule/")
    token = next(c["value"] for c in reader.context.cookies() if c["name"] == "csrftoken")
    for place in ("schedule/tasks/new/", "money/expenses/add", "packets/new/"):
        answer = reader.request.post(HEARTHLIGHT + place, headers={"X-CSRFToken": token})
        assert answer.status == 403


def test_a_reader_may_try_a_slip_but_not_apply_it(reader: Page) -> None:
    reader.goto(f"{HEARTHLIGHT}schedule/slip/")
    task = reader.get_by_label("What slips").locator("optgroup[label=Tasks] option").first
    reader.goto(f"{HEARTHLIGHT}schedule/slip/?what={task.get_attribute('value')}&days=8")
    expect(reader.get_by_role("heading", name="What would carry the date")).to_be_visible()
    expect(reader.get_by_role("button", name="Apply with a reason")).to_have_count(0)
