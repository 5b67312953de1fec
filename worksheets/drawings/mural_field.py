"""Elevation of a wall to paint, to scale: its openings, and the heights where layers stop."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from worksheets.drawings.people import STANDING, Stand, standing
from worksheets.drawings.svg import Canvas, Point
from worksheets.engine.coating import Field, Opening

WIDTH, TALLEST = 600.0, 420.0
LEFT, RIGHT, OVER, UNDER = 62.0, 150.0, 22.0, 46.0
Show = Callable[[float], str]


def elevation(field: Field, bands: Sequence[tuple[float, str]], show: Show) -> str:
    """``bands`` are heights above the ground with the names of the layers that stop there."""
    view = View(field)
    canvas = Canvas(WIDTH, view.total, "Elevation of the wall to paint, with its openings")
    canvas.rect((0, view.y(0)), WIDTH, view.total - view.y(0), "ground")
    canvas.line((0, view.y(0)), (WIDTH, view.y(0)))
    face(canvas, view, field, bands)
    loose = [each for each in field.openings if not each.placed]
    for each in field.openings:
        if each.left is not None and each.low is not None:
            opening(canvas, view, each, view.at(each.left, each.low + each.height), "wall")
    at_the_side(canvas, view, loose)
    heights(canvas, view, field, bands, show)
    sizes(canvas, view, field, show)
    if view.room > 0:
        standing(canvas, Stand(view.right + 30, view.y(0), view.scale), STANDING)
    return canvas.svg()


class View:
    """Where a point of the wall lies on the canvas; heights are above the ground."""

    def __init__(self, field: Field) -> None:
        self.field = field
        wide, high = WIDTH - LEFT - RIGHT, TALLEST - OVER - UNDER
        self.scale = min(wide / field.width, high / max(field.top, 1e-9))
        self.total = OVER + field.top * self.scale + UNDER
        self.right = LEFT + field.width * self.scale
        self.room = WIDTH - self.right - 60 - STANDING * 0.4 * self.scale

    def y(self, height: float) -> float:
        return OVER + (self.field.top - height) * self.scale

    def at(self, left: float, height: float) -> Point:
        return LEFT + left * self.scale, self.y(height)


def face(canvas: Canvas, view: View, field: Field, bands: Sequence[tuple[float, str]]) -> None:
    canvas.rect(view.at(0, field.top), field.width * view.scale, field.height * view.scale, "field")
    if bands:
        top = max(height for height, _ in bands)
        size = (field.width * view.scale, (top - field.bottom) * view.scale)
        canvas.rect(view.at(0, top), *size, "band")


def opening(canvas: Canvas, view: View, each: Opening, corner: Point, kind: str) -> None:
    """Crossed, as drawings mark what is not there."""
    wide, high = each.width * view.scale, each.height * view.scale
    x, y = corner
    canvas.rect(corner, wide, high, kind)
    canvas.line((x, y), (x + wide, y + high), "thin")
    canvas.line((x, y + high), (x + wide, y), "thin")
    if wide >= 6.0 * len(each.name):
        canvas.text((x + wide / 2, y + high / 2 + 4), each.name, "label", anchor="middle")


def at_the_side(canvas: Canvas, view: View, loose: Sequence[Opening]) -> None:
    """Openings whose place is not known stand side by side, dashed, at the field’s foot."""
    x = LEFT + 6
    for each in loose:
        corner = (x, view.y(view.field.bottom) - each.height * view.scale)
        if x + each.width * view.scale > view.right:
            return
        opening(canvas, view, each, corner, "waste")
        x += each.width * view.scale + 6


def heights(
    canvas: Canvas, view: View, field: Field, bands: Sequence[tuple[float, str]], show: Show
) -> None:
    last = view.y(0) + 30
    for height, names in bands:
        y = view.y(height)
        canvas.line((LEFT, y), (view.right + 12, y), "dashed")
        at = min(y + 4, last - 28)
        canvas.text((view.right + 16, at), show(height), "strong")
        canvas.text((view.right + 16, at + 13), names[:22], "small")
        last = at


def sizes(canvas: Canvas, view: View, field: Field, show: Show) -> None:
    floor = view.y(0) + 26
    canvas.dimension((LEFT, floor), (view.right, floor), show(field.width))
    side = LEFT - 16
    canvas.dimension((side, view.y(field.top)), (side, view.y(field.bottom)), show(field.height))
    if field.bottom > 0 and field.bottom * view.scale > 30:
        canvas.dimension((side, view.y(field.bottom)), (side, view.y(0)), show(field.bottom))
