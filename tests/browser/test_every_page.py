"""What holds on every page of the site, at both widths: found by following the links."""

from __future__ import annotations

from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from tests.browser.conftest import OpenAs
from tests.browser.installation import Installation
from tests.browser.site import pages_of

pytestmark = pytest.mark.browser

# Thumb-sized: the project's own measure; WCAG 2.2 (2.5.8, level AA) asks for 24 px.
THUMB = 44
# It would fetch the style sheets once more, from wrong addresses.
OPTIONS = {"resultTypes": ["violations"], "preload": False}
TOO_WIDE = "document.documentElement.scrollWidth - document.documentElement.clientWidth"


@pytest.fixture(scope="package")
def addresses(browser: Browser, installation: Installation, logins: dict[str, Any]) -> list[str]:
    installation.lay("demo")
    context = browser.new_context(storage_state=logins["artist"])
    found = pages_of(context, installation.url)
    context.close()
    assert len(found) > 40
    return found


def test_no_page_has_a_fault_for_axe_or_is_wider_than_the_screen(
    open_as: OpenAs, addresses: list[str]
) -> None:
    """Rules of axe-core, among them those of WCAG 2.2 A and AA."""
    page = open_as("artist", bypass_csp=True)
    faults: list[str] = []
    for address in addresses:
        page.goto(address)
        faults += [f"{address} {fault}" for fault in axe_faults(page)]
        if by := page.evaluate(TOO_WIDE):
            faults.append(f"{address} scrolls sideways by {by} px")
    assert not faults, "\n".join(faults)


@pytest.mark.parametrize("address", ["/login/", "/setup/"])
def test_no_page_before_the_login_has_a_fault(
    open_as: OpenAs, installation: Installation, address: str
) -> None:
    page = open_as(bypass_csp=True)
    if address == "/setup/":
        installation.lay("empty")
    page.goto(address)
    assert not list(axe_faults(page))


def axe_faults(page: Page) -> list[str]:
    found = Axe().run(page, options=OPTIONS).response["violations"]
    return [
        f"{fault['id']}: {node['html'][:120]}" for fault in found for node in fault["nodes"][:3]
    ]


OUTSIDE = """(parts) => parts.filter((part) => {
  const box = part.getBoundingClientRect();
  return box.left < 0 || box.right > innerWidth;
}).map((part) => part.innerText)"""


@pytest.mark.parametrize("screen", ["phone"], indirect=True)
@pytest.mark.parametrize("sheet", ["", "money/", "packets/", "log/"])
def test_the_title_block_and_the_sheet_one_is_on_fit_a_phone(open_as: OpenAs, sheet: str) -> None:
    page = open_as("artist")
    page.goto(f"/projects/1/{sheet}")
    shown = page.locator("#titleblock dd, .sheets [aria-current]")
    assert shown.count() > 5
    assert not shown.evaluate_all(OUTSIDE)


PHONE_FIRST = {
    "/projects/1/money/": ".acts .button",
    "/projects/1/money/expenses/add": "form.log-expense :is(input, select, button, summary)",
    "/projects/1/money/expenses/1/": "#shares :is(button, select, input:not([type=hidden]))",
    "/projects/1/parts/": ".tick-now :is(button, input:not([type=hidden])), .chain a",
    "/projects/1/schedule/": ".marks-cell button",
}


@pytest.mark.parametrize("screen", ["phone"], indirect=True)
@pytest.mark.parametrize("address", PHONE_FIRST)
def test_what_is_done_with_a_thumb_is_at_least_44_px_high(open_as: OpenAs, address: str) -> None:
    page = open_as("artist")
    page.goto(address)
    targets = page.locator(PHONE_FIRST[address]).locator("visible=true")
    assert targets.count()
    small = [
        f"{target.inner_text() or target.get_attribute('name')}: {box['height']:.0f} px"
        for target in targets.all()
        if (box := target.bounding_box()) and box["height"] < THUMB
    ]
    assert not small
