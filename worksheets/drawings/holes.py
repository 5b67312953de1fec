"""Sections through holes, to scale: a footing with its post, an anchor hole with adhesive."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.drawings.svg import Canvas, Point

WIDTH = 480.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Footing:
    """Lengths in m; the words are ready to be shown."""

    width: float
    depth: float
    gravel: float
    post: float
    post_depth: float
    width_words: str
    depth_words: str
    gravel_words: str


def footing(found: Footing) -> str:
    whole = found.depth + found.gravel
    scale = min(210 / whole, (WIDTH - 220) / found.width)
    top = 84.0 if found.post > 0 else 16.0
    middle, half = WIDTH / 2, found.width / 2 * scale
    base = top + found.depth * scale
    bottom = base + found.gravel * scale + 40
    canvas = Canvas(WIDTH, bottom, "Section through the hole with its concrete")
    canvas.rect((0, top), WIDTH, bottom - top, "ground")
    canvas.line((0, top), (WIDTH, top))
    canvas.rect((middle - half, top), 2 * half, found.depth * scale, "wall")
    if found.gravel > 0:
        canvas.rect((middle - half, base), 2 * half, found.gravel * scale, "waste")
        canvas.text((middle + half + 10, base + found.gravel * scale / 2 + 4),
                    f"gravel {found.gravel_words}", "small")  # fmt: skip
    canvas.text((middle + half + 10, top + found.depth * scale / 2), "concrete", "label")
    if found.post > 0:
        wide = found.post * scale
        canvas.rect((middle - wide / 2, 14), wide, top - 14 + found.post_depth * scale, "part")
        canvas.text((middle + wide / 2 + 8, 34), "post", "label")
    side = middle - half - 24
    canvas.dimension((side, base), (side, top), found.depth_words)
    floor = base + found.gravel * scale + 26
    canvas.dimension((middle - half, floor), (middle + half, floor), found.width_words)
    return canvas.svg()


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchored:
    """Lengths in m; ``filled`` is the share of the empty hole that the adhesive takes."""

    hole: float
    rod: float
    depth: float
    filled: float
    hole_words: str
    rod_words: str
    depth_words: str
    filled_words: str


def anchored(found: Anchored) -> str:
    """The hole before the rod goes in, and after; to one scale."""
    canvas = Canvas(WIDTH, 300, "Section through an anchor hole before and after the rod goes in")
    scale = min(190 / found.depth, 90 / found.hole)
    face, deep, wide = 60.0, found.depth * scale, found.hole * scale
    canvas.rect((0, face), WIDTH, 300 - face, "wall")
    for middle in (150.0, 340.0):
        canvas.rect((middle - wide / 2, face), wide, deep, "shape")
    level = deep * found.filled
    before, after = 150.0, 340.0
    canvas.rect((before - wide / 2, face + deep - level), wide, level, "band")
    canvas.rect((after - wide / 2, face), wide, deep, "band")
    rod = found.rod * scale
    canvas.rect((after - rod / 2, 20), rod, face - 20 + deep, "part")
    label(canvas, (before, face - 12), f"1  filled {found.filled_words}")
    label(canvas, (after, 14), f"2  rod {found.rod_words} pushed in")
    canvas.dimension((before - wide / 2 - 22, face + deep), (before - wide / 2 - 22, face),
                     found.depth_words)  # fmt: skip
    floor = face + deep + 24
    canvas.dimension((after - wide / 2, floor), (after + wide / 2, floor), found.hole_words)
    return canvas.svg()


def label(canvas: Canvas, at: Point, words: str) -> None:
    canvas.text(at, words, "label", anchor="middle")
