"""Sections through holes, to scale: a footing with its post, an anchor hole with adhesive."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.drawings.svg import Canvas, Point

WIDTH, HEIGHT, TOP = 480.0, 340.0, 84.0


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
    canvas = Canvas(WIDTH, HEIGHT, "Section through the hole with its concrete")
    whole = found.depth + found.gravel
    scale = min((HEIGHT - TOP - 50) / whole, (WIDTH - 220) / found.width)
    middle, half = WIDTH / 2, found.width / 2 * scale
    canvas.rect((0, TOP), WIDTH, HEIGHT - TOP, "ground")
    canvas.line((0, TOP), (WIDTH, TOP))
    canvas.rect((middle - half, TOP), 2 * half, found.depth * scale, "wall")
    base = TOP + found.depth * scale
    if found.gravel > 0:
        canvas.rect((middle - half, base), 2 * half, found.gravel * scale, "waste")
        canvas.text((middle + half + 10, base + found.gravel * scale / 2 + 4),
                    f"gravel {found.gravel_words}", "small")  # fmt: skip
    canvas.text((middle + half + 10, TOP + found.depth * scale / 2), "concrete", "label")
    if found.post > 0:
        wide = found.post * scale
        canvas.rect((middle - wide / 2, 14), wide, TOP - 14 + found.post_depth * scale, "part")
        canvas.text((middle + wide / 2 + 8, 34), "post", "label")
    side = middle - half - 24
    canvas.dimension((side, base), (side, TOP), found.depth_words)
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
    label(canvas, (before, 14), f"Filled {found.filled_words}, then")
    label(canvas, (after, 14), f"rod {found.rod_words}")
    canvas.dimension((before - wide / 2 - 22, face + deep), (before - wide / 2 - 22, face),
                     found.depth_words)  # fmt: skip
    floor = face + deep + 24
    canvas.dimension((after - wide / 2, floor), (after + wide / 2, floor), found.hole_words)
    return canvas.svg()


def label(canvas: Canvas, at: Point, words: str) -> None:
    canvas.text(at, words, "label", anchor="middle")
