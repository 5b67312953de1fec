"""Every kind of page of the site, found by following its links."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from urllib.parse import urljoin, urlsplit

from playwright.sync_api import BrowserContext

FIRST_PROJECT = re.compile(r"/(?!projects/\d+/)|/projects/1/")
NUMBER = re.compile(r"(?<!projects)/\d+(?=/|$)")


class Links(HTMLParser):
    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        place = dict(attrs).get("href")
        if tag == "a" and place:
            self.found.append(place)


def pages_of(context: BrowserContext, home: str) -> list[str]:
    """One address of each kind, of the first project and outside projects."""
    seen: dict[str, str | None] = {}
    waiting = ["/"]
    while waiting:
        place = waiting.pop(0)
        kind = NUMBER.sub("/n", place.split("?")[0])
        if kind in seen or not FIRST_PROJECT.match(place):
            continue
        answer = context.request.get(home + place)
        assert answer.ok, f"{answer.status} at {place}"
        is_page = "html" in answer.headers.get("content-type", "")
        seen[kind] = place if is_page else None
        if is_page:
            waiting += inside(Links(answer.text()).found, home, place)
    return [place for place in seen.values() if place]


def inside(links: list[str], home: str, place: str) -> list[str]:
    parts = [urlsplit(urljoin(home + place, link)) for link in links]
    own = [part for part in parts if f"{part.scheme}://{part.netloc}" == home]
    return [part.path + (f"?{part.query}" if part.query else "") for part in own]
