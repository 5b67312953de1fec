"""Side and plan of the pieces of a work, to scale, with the centre of their mass."""

from __future__ import annotations

import math
from collections.abc import Sequence

from worksheets.drawings.svg import Canvas, Point
from worksheets.engine.lifting import Piece, Place

WIDTH, HEIGHT, MARGIN, TOP = 480.0, 300.0, 26.0, 36.0
LARGEST, SMALLEST = 22.0, 4.0  # radius of the heaviest piece, and of any other at least
MOST_NAMES = 8
NAME = (70.0, 12.0)  # room that a name takes


def centre_of_mass(
    pieces: Sequence[Piece], centre: Place, *, across: str, deep: str, up: str
) -> str:
    """``pieces`` all have a place; the words say where the centre is, ready to be shown."""
    canvas = Canvas(WIDTH, HEIGHT, "Side and plan of the pieces with their centre of mass")
    half = WIDTH / 2
    view(canvas, 0.0, "From the front", pieces, centre, axes=(0, 2), words=(across, up))
    canvas.line((half, 16), (half, HEIGHT - 16), "thin")
    view(canvas, half, "From above", pieces, centre, axes=(0, 1), words=(across, deep))
    return canvas.svg()


def view(
    canvas: Canvas, left: float, title: str, pieces: Sequence[Piece], centre: Place, *,
    axes: tuple[int, int], words: tuple[str, str],
) -> None:  # fmt: skip
    canvas.text((left + 12, 22), title, "strong")
    places = [(each.at[axes[0]], each.at[axes[1]]) for each in pieces if each.at]
    put = Placing(left, places)
    heaviest = max(each.mass for each in pieces)
    named: list[Point] = []
    pairs = sorted(zip(pieces, places, strict=True), key=lambda pair: -pair[0].mass)
    for each, place in pairs:
        x, y = put(place)
        radius = max(SMALLEST, LARGEST * math.sqrt(each.mass / heaviest))
        canvas.circle((x, y), radius, "part")
        if len(pieces) <= MOST_NAMES:
            at = free((x, y - radius - 4), named)
            canvas.text(at, each.name[:26], "small", anchor="middle")
    mark(canvas, put((centre[axes[0]], centre[axes[1]])))
    canvas.text((left + 12, HEIGHT - 12), f"centre of mass: {words[0]} across, {words[1]} "
                f"{'up' if axes[1] == 2 else 'deep'}", "small")  # fmt: skip


def free(at: Point, taken: list[Point]) -> Point:
    """A place for a name, as many lines higher as it takes to stand clear of the others."""
    x, y = at
    while any(abs(x - other) < NAME[0] and abs(y - line) < NAME[1] for other, line in taken):
        y -= NAME[1]
    taken.append((x, y))
    return x, y


class Placing:
    """From metres to the canvas, one scale for both directions."""

    def __init__(self, left: float, places: Sequence[Point]) -> None:
        xs, ys = [x for x, _ in places], [y for _, y in places]
        room = (WIDTH / 2 - 2 * MARGIN - 2 * LARGEST, HEIGHT - TOP - 2 * MARGIN - 2 * LARGEST)
        spans = (max(xs) - min(xs), max(ys) - min(ys))
        each = [room[axis] / span for axis, span in enumerate(spans) if span > 1e-9]
        self.scale = min(each, default=1.0)
        self.middle = ((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2)
        self.at = (left + WIDTH / 4, (HEIGHT + TOP) / 2 - 8)

    def __call__(self, place: Point) -> Point:
        return (
            self.at[0] + (place[0] - self.middle[0]) * self.scale,
            self.at[1] - (place[1] - self.middle[1]) * self.scale,
        )


def mark(canvas: Canvas, at: Point) -> None:
    """The usual sign for a centre of mass: a circle whose quarters are filled in turn."""
    x, y, r = at[0], at[1], 8.0
    canvas.circle(at, r, "within")
    canvas.path(f"M{x} {y}L{x} {y - r}A{r} {r} 0 0 1 {x + r} {y}Z", "bar")
    canvas.path(f"M{x} {y}L{x} {y + r}A{r} {r} 0 0 1 {x - r} {y}Z", "bar")
