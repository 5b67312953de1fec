"""Elevation of a group of anchors, to scale, with the force along the wall on each."""

from __future__ import annotations

import math

from worksheets.drawings.arrows import arrow
from worksheets.drawings.svg import Canvas, Point
from worksheets.engine.anchors_case import Anchor, Shared

WIDTH, HEIGHT, MARGIN = 440.0, 360.0, 62.0
LONGEST = 52.0  # arrow of the greatest force, in drawing units


def elevation(found: Shared, *, load: str, greatest: str, width: str, height: str) -> str:
    """The words are ready to be shown: the load, the greatest force, the spread of the group."""
    canvas = Canvas(WIDTH, HEIGHT, "Elevation of the anchors with the force on each")
    view = View(found)
    canvas.rect((0, 0), WIDTH, HEIGHT, "wall")
    plate(canvas, view, found)
    spread(canvas, view, found, width, height)
    acting(canvas, view, found, load)
    most = max(each.across for each in found.anchors)
    scale = LONGEST / most if most > 0 else 0.0
    for each in found.anchors:
        mark(canvas, view, each, scale, worst=each is found.worst)
    canvas.line((MARGIN, HEIGHT - 14), (MARGIN + LONGEST, HEIGHT - 14), "load")
    canvas.text((MARGIN + LONGEST + 8, HEIGHT - 10), f"{greatest} along the wall", "small")
    return canvas.svg()


class View:
    """Where a point of the wall lies on the canvas."""

    def __init__(self, found: Shared) -> None:
        xs = [each.at[0] for each in found.anchors] + [found.at[0]]
        ys = [each.at[1] for each in found.anchors] + [found.at[1], found.edge]
        wide, high = max(xs) - min(xs), max(ys) - min(ys)
        across = (WIDTH - 2 * MARGIN - 40) / max(wide, 1e-6)
        self.scale = min(across, (HEIGHT - 2 * MARGIN - 40) / max(high, 1e-6))
        self.left = (WIDTH - wide * self.scale) / 2 - min(xs) * self.scale
        self.base = (HEIGHT + high * self.scale) / 2 + min(ys) * self.scale - 8

    def at(self, point: Point) -> Point:
        return self.left + point[0] * self.scale, self.base - point[1] * self.scale


def corners(found: Shared) -> tuple[float, float, float, float]:
    xs, ys = [a.at[0] for a in found.anchors], [a.at[1] for a in found.anchors]
    return min(xs), max(xs), min(ys), max(ys)


def plate(canvas: Canvas, view: View, found: Shared) -> None:
    """The bracket from its lower edge to just above the anchors, as far as it is known."""
    left, right, low, high = corners(found)
    beyond = low - found.edge
    x1, y1 = view.at((left - beyond, high + beyond))
    x2, y2 = view.at((right + beyond, found.edge))
    canvas.rect((x1, y1), x2 - x1, y2 - y1, "field")
    canvas.line((x1, y2), (x2, y2), "line")
    canvas.text(((x1 + x2) / 2, y2 + 14), "edge that it tips about", "small", anchor="middle")


def spread(canvas: Canvas, view: View, found: Shared, width: str, height: str) -> None:
    left, right, low, high = corners(found)
    _, floor = view.at((left, found.edge))
    if right > left:
        start, end = view.at((left, low))[0], view.at((right, low))[0]
        canvas.dimension((start, floor + 34), (end, floor + 34), width)
    if high > low:
        side = view.at((left - (low - found.edge), low))[0] - 22
        canvas.dimension((side, view.at((left, low))[1]), (side, view.at((left, high))[1]), height)


def acting(canvas: Canvas, view: View, found: Shared, words: str) -> None:
    x, y = view.at(found.at)
    size = math.hypot(*found.load)
    if size <= 0:
        return
    ux, uy = found.load[0] / size, -found.load[1] / size
    canvas.circle((x, y), 3, "load-head")
    arrow(canvas, (x - ux * 30, y - uy * 30), (x + ux * 34, y + uy * 34))
    canvas.text((x + 10, y + 30), words, "strong")


def mark(canvas: Canvas, view: View, each: Anchor, scale: float, *, worst: bool) -> None:
    """A numbered anchor; the worst has a ring round it."""
    x, y = view.at(each.at)
    kind = "load-over" if each.used > 1 else "load"
    end = (x + each.shear[0] * scale, y - each.shear[1] * scale)
    arrow(canvas, (x, y), end, kind)
    canvas.circle((x, y), 5, "anchor")
    if worst:
        canvas.circle((x, y), 10, "cut")
    words = f"{each.number} worst" if worst else str(each.number)
    along = each.shear[0] / each.across if each.across > 0 else 0.0
    up = each.shear[1] / each.across if each.across > 0 else -1.0
    canvas.text((x - along * 20, y + up * 20 + 4), words, "strong", anchor="middle")
