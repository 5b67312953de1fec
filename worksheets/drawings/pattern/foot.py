"""The foot of every sheet: what it is, what its lines mean, and two bars to measure."""

from __future__ import annotations

from typing import Literal

from worksheets.drawings.pattern.pdf import GREY, Page
from worksheets.drawings.pattern.tiles import FOOT, MARGIN

FOOT_TALL = FOOT
BARS = ((100.0, "100 mm"), (101.6, "4 in"))


def foot(page: Page, words: str, *, grain: Literal["up", "across", ""] = "") -> None:
    """``grain`` tells which way the straight grain of the cloth runs on this sheet."""
    page.text((MARGIN, MARGIN + 20), words, size=3.6, bold=True)
    page.text(
        (MARGIN, MARGIN + 15.6),
        "Drawn through: line to cut. Dashed: line to sew. Double arrow: straight grain.",
        size=2.9,
        colour=GREY,
    )
    for number, (length, told) in enumerate(BARS):
        y = MARGIN + 10.5 - number * 6.5
        page.line((MARGIN, y), (MARGIN + length, y), thick=0.4)
        for x in (MARGIN, MARGIN + length):
            page.line((x, y - 1.8), (x, y + 1.8), thick=0.25)
        tail = "" if number else "  Print at 100 %, measure this bar."
        page.text((MARGIN + 104, y - 1), f"{told}.{tail}", size=3.2, bold=not number)
    if grain:
        _grain(page, across=grain == "across")


def _grain(page: Page, *, across: bool) -> None:
    """An arrow with two heads, as it lies on the panel."""
    centre, half = (page.width - MARGIN - 8, MARGIN + 15.0), 7.0
    along, aside = ((1.0, 0.0), (0.0, 1.0)) if across else ((0.0, 1.0), (1.0, 0.0))

    def at(far: float, off: float) -> tuple[float, float]:
        x, y = (centre[n] + along[n] * far + aside[n] * off for n in (0, 1))
        return x, y

    page.line(at(-half, 0), at(half, 0), thick=0.3)
    for end, way in ((half, -1), (-half, 1)):
        for side in (-1.4, 1.4):
            page.line(at(end, 0), at(end + way * 2.8, side), thick=0.3)
    page.text((centre[0] - 18, centre[1] - 1), "grain", size=2.8, colour=GREY)
