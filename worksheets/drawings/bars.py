"""Bars to scale, one under the other: pieces, saw cuts and off-cuts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from worksheets.drawings.svg import Canvas

LEFT, RIGHT, TOP = 44.0, 8.0, 8.0
WIDE, BAR, STEP = 640.0, 20.0, 46.0
LETTER = 5.9  # width of a letter of the usual size
MOST = 40  # bars that are drawn; more stand in the table


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPiece:
    length: float
    words: tuple[str, ...]  # from the longest to the shortest; the first that fits is written


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnBar:
    """Lengths in one unit. ``rest`` is behind the last cut, without the trimmed end."""

    times: int
    length: float
    says: str
    pieces: tuple[DrawnPiece, ...]
    kerf: float
    trim: float
    rest: float
    kept: bool
    rest_says: str


def drawn_bars(bars: Sequence[DrawnBar], title: str) -> str:
    """The drawing as SVG; at most 40 bars."""
    shown = bars[:MOST]
    scale = (WIDE - LEFT - RIGHT) / max(bar.length for bar in shown)
    canvas = Canvas(WIDE, TOP + STEP * len(shown), title, kind="bars")
    for number, bar in enumerate(shown):
        draw(canvas, bar, TOP + STEP * number, scale)
    return canvas.svg()


def draw(canvas: Canvas, bar: DrawnBar, top: float, scale: float) -> None:
    """Says stand above the bar, its pieces inside it, so many bars alike to its left."""
    under = top + 16
    canvas.text((LEFT, top + 10), bar.says, "small")
    canvas.text((LEFT - 8, under + BAR - 5), f"{bar.times} ×", "strong", anchor="end")
    end = LEFT + bar.length * scale
    canvas.rect((LEFT, under), bar.length * scale, BAR, "waste")
    at = LEFT + bar.trim * scale
    for place, piece in enumerate(bar.pieces):
        at += bar.kerf * scale if place else 0.0
        wide = piece.length * scale
        canvas.rect((at, under), wide, BAR, "part")
        label(canvas, piece.words, (at, under), wide)
        at += wide
    if bar.rest > 0:
        at += bar.kerf * scale
        canvas.line((at, under - 3), (at, under + BAR + 3), "cut")
    if bar.kept:
        wide = end - bar.trim * scale - at
        canvas.rect((at, under), wide, BAR, "band")
        label(canvas, (f"keep {bar.rest_says}", bar.rest_says, "keep"), (at, under), wide)


def label(canvas: Canvas, words: Sequence[str], corner: tuple[float, float], wide: float) -> None:
    """The longest of the words that fits, in the middle."""
    fits = [each for each in words if each and len(each) * LETTER + 4 <= wide]
    if fits:
        middle = (corner[0] + wide / 2, corner[1] + BAR - 6)
        canvas.text(middle, fits[0], anchor="middle")
