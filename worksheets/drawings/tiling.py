"""Tiles and their joints, to scale: from the front, and cut through."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.drawings.svg import Canvas

WIDTH, HEIGHT = 520.0, 280.0
SIDE = 210.0  # longest extent of the patch from the front


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiling:
    """Lengths in m; the words are ready to be shown."""

    long: float
    short: float
    joint: float
    depth: float
    long_words: str
    short_words: str
    joint_words: str
    depth_words: str


def tiling(found: Tiling) -> str:
    canvas = Canvas(WIDTH, HEIGHT, "Tiles and joints from the front and cut through")
    front(canvas, found)
    section(canvas, found)
    return canvas.svg()


def front(canvas: Canvas, found: Tiling) -> None:
    """Two tiles by two, on the grout between them."""
    wide, high = found.long * 2 + found.joint * 3, found.short * 2 + found.joint * 3
    scale = SIDE / max(wide, high)
    left, top = 74.0, 40.0
    canvas.rect((left, top), wide * scale, high * scale, "ground")
    for across in range(2):
        for down in range(2):
            x = left + (found.joint + across * (found.long + found.joint)) * scale
            y = top + (found.joint + down * (found.short + found.joint)) * scale
            canvas.rect((x, y), found.long * scale, found.short * scale, "shape")
    first = left + found.joint * scale
    canvas.dimension((first, top - 12), (first + found.long * scale, top - 12), found.long_words)
    side, start = left - 14, top + found.joint * scale
    canvas.dimension((side, start + found.short * scale), (side, start), found.short_words)
    canvas.text((left, top + high * scale + 18), "from the front", "small")


def section(canvas: Canvas, found: Tiling) -> None:
    """Through one joint, larger: parts of two tiles with the grout between."""
    left, base = 334.0, 200.0
    reach = max(found.depth * 2, found.joint * 2)
    scale = 150.0 / (2 * reach + found.joint)
    deep, gap = found.depth * scale, found.joint * scale
    canvas.rect((left - 10, base), 170, 16, "wall")
    canvas.rect((left, base - deep), reach * scale, deep, "shape")
    canvas.rect((left + reach * scale + gap, base - deep), reach * scale, deep, "shape")
    canvas.rect((left + reach * scale, base - deep), gap, deep, "part")
    start = left + reach * scale
    canvas.dimension((start, base - deep - 12), (start + gap, base - deep - 12), found.joint_words)
    canvas.dimension((left - 18, base), (left - 18, base - deep), "")
    canvas.text((left, base + 36), f"through a joint {found.depth_words} deep, larger", "small")


def pieces(share: float, depth: float, share_words: str, depth_words: str) -> str:
    """Broken pieces: how much of a square of the picture is joint, and how deep it is."""
    canvas = Canvas(WIDTH, 300, "Share of the picture that is joint, and its depth")
    left, top = 60.0, 30.0
    canvas.rect((left, top), SIDE, SIDE, "shape")
    canvas.rect((left, top + SIDE * (1 - share)), SIDE, SIDE * share, "part")
    canvas.text((left, top + SIDE + 20), f"joints gathered: {share_words} of it", "small")
    canvas.rect((320, 130 - 50), 60, 50, "shape")
    canvas.rect((380, 130 - 50), 24, 50, "part")
    canvas.rect((404, 130 - 50), 60, 50, "shape")
    canvas.rect((310, 130), 164, 16, "wall")
    canvas.dimension((302, 130), (302, 80), depth_words)
    canvas.text((320, 166), "through a joint, not to scale", "small")
    return canvas.svg()
