"""A packet as PDF: what was printed, and where its sections stand."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from datetime import date
from typing import Any

from packets import pages, plates
from packets.models import Packet
from projects.paper import Fetcher, fonts, lay_out, to_pdf

TOP = 80  # CSS pixels: a section that begins above this begins its page


@dataclass(frozen=True, slots=True)
class Printed:
    """A packet as bytes, with what was in it."""

    data: bytes
    pages: int
    section_pages: dict[str, int]
    sources: dict[str, str]
    shown: dict[str, dict[str, str]]

    @property
    def sha256(self) -> str:
        return hashlib.sha256(self.data).hexdigest()


def print_packet(packet: Packet, *, letter: str, day: date) -> Printed:
    """The packet as PDF/UA-1. The same packet, letter and day give the same bytes."""
    parts = pages.gather(packet, day)
    images = plates.readable(pages.pictures_of(parts))
    html = pages.document(packet, parts, letter=letter, day=day, images=images)
    laid_out = lay_out(html, Fetcher(images, fonts()))
    shown = [part for part in parts if part.printed]
    return Printed(
        data=to_pdf(laid_out, html),
        pages=len(laid_out.pages),
        section_pages=section_pages(laid_out, [part.key for part in shown]),
        sources={part.key: part.fingerprint for part in shown},
        shown={part.key: part.facts for part in shown},
    )


def section_pages(document: Any, keys: list[str]) -> dict[str, int]:
    """On how many pages each section stands."""
    starts: dict[str, tuple[int, float]] = {}
    for number, page in enumerate(document.pages):
        for name, place in page.anchors.items():
            starts.setdefault(name, (number, place[1]))  # it stands on each of its pages
    found = [starts[f"s-{key}"] for key in keys]
    ends = [*found[1:], (len(document.pages), 0)]
    counts = [
        next_page - start + (0 if top < TOP else 1)
        for (start, _), (next_page, top) in zip(found, ends, strict=True)
    ]
    return dict(zip(keys, counts, strict=True))
