"""A sewn skin from the side, and its largest panel lying flat with its allowances."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from worksheets.drawings.svg import Canvas, Point
from worksheets.engine.sewing import Pattern
from worksheets.engine.skin import flat
from worksheets.engine.skin_case import Case

WIDE, TALL = 480.0, 380.0
SIDE, ABOVE = 122.0, 26.0
LINE = 14.0  # least distance between two labels
LETTER = 8.0  # room for a letter along a dimension line, and some to spare


def draw_skin(case: Case) -> str:
    """The side that faces us, with the heights of the rings and their radii."""
    rings = case.skin.rings
    lowest = rings[-1].height
    room = (WIDE - 2 * SIDE) / max(case.across, 1e-6), (TALL - 2 * ABOVE) / case.tall
    scale = min(room)
    canvas = Canvas(WIDE, case.tall * scale + 2 * ABOVE, "The sewn skin from the side")
    foot = case.tall * scale + ABOVE

    def at(x: float, height: float) -> Point:
        return WIDE / 2 + x * scale, foot - (height - lowest) * scale

    for number, corners in facing(case):
        canvas.polygon([at(*corner) for corner in corners], "shape")
        middle = sum(x for x, _ in corners) / 4, sum(y for _, y in corners) / 4
        if abs(middle[0]) < 1e-6 * case.across and case.patterns[number].panel.slant * scale > LINE:
            canvas.text(
                shift(at(*middle), 4), case.patterns[number].letter, "strong", anchor="middle"
            )
    canvas.line(at(0, rings[0].height + 12 / scale), at(0, lowest - 12 / scale), "dashed")
    _heights(canvas, case, at(-case.across / 2, 0)[0] - 30, foot, scale)
    _radii(canvas, case, at(case.across / 2, 0)[0] + 12, foot, scale)
    return canvas.svg()


def shift(point: Point, down: float) -> Point:
    return point[0], point[1] + down


def facing(case: Case) -> Iterator[tuple[int, list[Point]]]:
    """Each panel that faces us: its number and corners as seen from the side, in m."""
    count = case.skin.columns
    for number in range(len(case.patterns)):
        upper, lower = case.skin.rings[number : number + 2]
        for side in range(count):
            middle = math.tau * side / count
            if math.cos(middle) < 1e-9:
                continue
            first, second = (math.sin(middle + turn * math.pi / count) for turn in (-1, 1))
            yield (
                number,
                [
                    (upper.radius * first, upper.height),
                    (upper.radius * second, upper.height),
                    (lower.radius * second, lower.height),
                    (lower.radius * first, lower.height),
                ],
            )


def _heights(canvas: Canvas, case: Case, x: float, foot: float, scale: float) -> None:
    """Over all, and between neighbouring rings where there is room for all of them."""
    rings = case.skin.rings
    ys = [foot - (ring.height - rings[-1].height) * scale for ring in rings]
    drops = [upper.height - lower.height for upper, lower in pairwise(rings)]
    told = [case.given.show(drop, "length") for drop in drops]
    steps = list(zip(pairwise(ys), told, strict=True))
    if len(rings) > 2 and all(low - high >= LETTER * len(words) for (high, low), words in steps):
        for (high, low), words in steps:
            canvas.dimension((x, high), (x, low), words)
        x -= 32
    canvas.dimension((x, ys[0]), (x, ys[-1]), case.given.show(case.tall, "length"))


def _radii(canvas: Canvas, case: Case, x: float, foot: float, scale: float) -> None:
    rings = case.skin.rings
    last = -LINE
    for ring in rings:
        y = foot - (ring.height - rings[-1].height) * scale
        if abs(y - last) < LINE:
            continue
        last = y
        words = case.given.show(ring.radius, "length")
        canvas.line((WIDE / 2 + ring.radius * scale + 3, y), (x - 4, y), "thin")
        canvas.text((x, y + 4), f"radius {words}", "small")


def draw_panel(case: Case) -> str:
    """A panel with a hem: the line to sew dashed, the line to cut drawn through."""
    each = max(case.patterns[0], case.patterns[-1], key=lambda one: one.cut.area)
    width, height = each.cut.size
    scale = min((WIDE - 2 * SIDE) / width, 300 / height)
    below, above = 62.0, 54.0
    canvas = Canvas(WIDE, height * scale + below + above, f"Panel {each.letter}, flat")
    lowest = min(y for _, y in each.cut.points)
    foot = height * scale + above

    def at(point: Point) -> Point:
        return WIDE / 2 + point[0] * scale, foot - (point[1] - lowest) * scale

    canvas.polygon([at(point) for point in each.cut.points], "shape")
    canvas.polygon([at(point) for point in flat(each.panel)], "dashed")
    _panel_sizes(canvas, case, each, at)
    return canvas.svg()


def _panel_sizes(canvas: Canvas, case: Case, each: Pattern, at: object) -> None:
    assert callable(at)
    show, panel = case.given.show, each.panel
    low = min(y for _, y in each.cut.points)
    high = max(y for _, y in each.cut.points)
    wide = max(abs(x) for x, _ in each.cut.points)
    bottom, top = at((0.0, low))[1], at((0.0, high))[1]
    for width, y, sewn in ((panel.bottom, bottom + 20, 0.0), (panel.top, top - 14, panel.slant)):
        if width:
            ends = [at((x, sewn))[0] for x in (-width / 2, width / 2)]
            canvas.dimension((ends[0], y), (ends[1], y), show(width, "small_length"))
    cut_wide = show(each.cut.size[0], "small_length", toward="up")
    ends = [at((x, low))[0] for x in (-wide, wide)]
    canvas.dimension((ends[0], bottom + 44), (ends[1], bottom + 44), f"cut {cut_wide}")
    left = ends[0] - 18
    canvas.dimension((left, at((0, panel.slant))[1]), (left, at((0, 0))[1]),
                     show(panel.slant, "small_length"))  # fmt: skip
    tall = show(each.cut.size[1], "small_length", toward="up")
    canvas.dimension((left - 30, top), (left - 30, bottom), f"cut {tall}")
    canvas.text((8.0, 16.0), f"Panel {each.letter}, cut {each.count}", "strong")
    _allowances(canvas, case, each, at, ends[1] + 14)


def _allowances(canvas: Canvas, case: Case, each: Pattern, at: object, x: float) -> None:
    """What lies between the two lines, told at the right."""
    assert callable(at)
    show, panel = case.given.show, each.panel
    shares = each.allowances
    told = (
        ("top", panel.slant + shares["top"] / 2),
        ("side", panel.slant / 2),
        ("bottom", -shares["bottom"] / 2),
    )
    for name, height in told:
        word = {"top": "at the top", "side": "at each side", "bottom": "at the bottom"}[name]
        y = at((0.0, height))[1]
        edge = each.half_width(height) - shares["side"] / 2
        canvas.line(at((edge, height)), (x - 3, y), "thin")
        canvas.text((x, y), show(shares[name], "small_length"), "dim-label")
        canvas.text((x, y + 13), word, "small")
