"""What people do over and over on these pages, in one word each."""

from __future__ import annotations

import io
import re

from PIL import Image, ImageDraw
from playwright.sync_api import FilePayload, Locator, Page, expect

HEARTHLIGHT, POLLEN_STEPS, TWO_HERONS = "/projects/1/", "/projects/2/", "/projects/3/"


UNDER_WAY = ".htmx-request, .htmx-swapping, .htmx-settling"


def settled(where: Page | Locator) -> None:
    """Wait until the piece that was asked for stands in the page."""
    page = where.page if isinstance(where, Locator) else where
    expect(page.locator(UNDER_WAY)).to_have_count(0, timeout=30_000)


def press(where: Page | Locator, words: str) -> None:
    where.get_by_role("button", name=words).first.click()
    settled(where)


def follow(where: Page | Locator, words: str, exact: bool = False) -> None:
    where.get_by_role("link", name=words, exact=exact).first.click()
    settled(where)


def send(page: Page) -> None:
    """Send the form that stands open in its place."""
    page.locator("form.in-place button[type=submit]").click()
    settled(page)


def lede(page: Page) -> Locator:
    return page.locator(".sheethead .lede")


def figure(page: Page, label: str) -> Locator:
    """A figure of the title block, by the words above it."""
    cell = page.locator("#titleblock dl > div", has=page.locator("dt", has_text=label))
    return cell.locator("dd")


def row(page: Page, words: str) -> Locator:
    return page.get_by_role("row").filter(has=page.get_by_role("rowheader", name=words))


def log_lines(page: Page) -> list[str]:
    """What the log says of the schedule."""
    page.goto(f"{HEARTHLIGHT}log/?about=schedules")
    return page.locator("table.log tbody tr").all_inner_texts()


def log_total(page: Page) -> int:
    page.goto(f"{HEARTHLIGHT}log/")
    found = re.match(r"(\d+) change", lede(page).inner_text())
    assert found
    return int(found[1])


def photo(name: str = "receipt.jpg", words: str = "Ledger Street Paints 48.20") -> FilePayload:
    picture = Image.new("RGB", (900, 1200), "#fffdf8")
    ImageDraw.Draw(picture).text((80, 80), words, fill="#222222")
    kept = io.BytesIO()
    picture.save(kept, "JPEG")
    return {"name": name, "mimeType": "image/jpeg", "buffer": kept.getvalue()}


def expect_said_beside(field: Locator, words: str | re.Pattern[str]) -> None:
    """The field has the focus, is marked wrong, and its description says what is wrong."""
    expect(field).to_be_focused()
    expect(field).to_have_attribute("aria-invalid", "true")
    ids = (field.get_attribute("aria-describedby") or "").split()
    said = " ".join(field.page.locator(f'[id="{i}"]').inner_text() for i in ids)
    assert re.search(words, said), f"“{said}” does not say “{words}”."
