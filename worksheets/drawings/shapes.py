"""Parts by their kind, seen from the front: enough to tell them apart, no more."""

from __future__ import annotations

from collections.abc import Callable

from worksheets.drawings.labels import Box
from worksheets.drawings.svg import Canvas

LEAF = 14.0  # height of the leaves above a planter’s rim, in drawing units


def with_leaves(box: Box, kind: str) -> Box:
    """The room a part takes: a planter with the leaves above its rim."""
    return Box(box.left, box.top - LEAF * (kind == "planter"), box.right, box.bottom)


def shape(canvas: Canvas, box: Box, kind: str) -> None:
    SHAPES.get(kind, plain)(canvas, box)


def plain(canvas: Canvas, box: Box) -> None:
    canvas.rect((box.left, box.top), box.right - box.left, box.bottom - box.top, "part")


def mural(canvas: Canvas, box: Box) -> None:
    canvas.rect((box.left, box.top), box.right - box.left, box.bottom - box.top, "field")


def frame(canvas: Canvas, box: Box) -> None:
    """A frame with six sides, as it is seen from the front: two posts and two rings between."""
    plain(canvas, box)
    for share in (0.25, 0.75):
        x = box.left + (box.right - box.left) * share
        canvas.line((x, box.top), (x, box.bottom), "line")
    for share in (1 / 3, 2 / 3):
        y = box.top + (box.bottom - box.top) * share
        canvas.line((box.left, y), (box.right, y), "thin")


def skin(canvas: Canvas, box: Box) -> None:
    inset = min(3.0, (box.right - box.left) / 6)
    wide, tall = box.right - box.left - 2 * inset, box.bottom - box.top - 2 * inset
    canvas.rect((box.left + inset, box.top + inset), wide, tall, "dashed")


def planter(canvas: Canvas, box: Box) -> None:
    """A trough with leaves above its rim."""
    leaf = min(LEAF, (box.bottom - box.top) * 0.7)
    count = max(2, int((box.right - box.left) / 14))
    step = (box.right - box.left) / count
    for number in range(count):
        x = box.left + step * (number + 0.5)
        for lean in (-0.45, 0.0, 0.45):
            canvas.line(
                (x, box.top), (x + lean * leaf, box.top - leaf * (1 - abs(lean) / 2)), "thin"
            )
    plain(canvas, box)


def light(canvas: Canvas, box: Box) -> None:
    plain(canvas, box)
    radius = max(2.0, min(box.right - box.left, box.bottom - box.top) * 0.28)
    middle = ((box.left + box.right) / 2, (box.top + box.bottom) / 2)
    canvas.circle(middle, radius, "shape")
    for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        canvas.line(
            (middle[0] + dx * radius * 0.4, middle[1] + dy * radius * 0.4),
            (middle[0] + dx * radius, middle[1] + dy * radius),
            "thin",
        )


def tile(canvas: Canvas, box: Box) -> None:
    plain(canvas, box)
    for share in (0.25, 0.5, 0.75):
        x = box.left + (box.right - box.left) * share
        y = box.top + (box.bottom - box.top) * share
        canvas.line((x, box.top), (x, box.bottom), "thin")
        canvas.line((box.left, y), (box.right, y), "thin")


def sculpture(canvas: Canvas, box: Box) -> None:
    wide, tall = box.right - box.left, box.bottom - box.top
    outline = [(0.15, 1), (0.05, 0.6), (0.2, 0.2), (0.5, 0), (0.8, 0.2), (0.95, 0.6), (0.85, 1)]
    canvas.polygon([(box.left + x * wide, box.top + y * tall) for x, y in outline], "part")


def footing(canvas: Canvas, box: Box) -> None:
    plain(canvas, box)
    step = 8.0
    x = box.left
    while x < box.right:
        reach = min(step, box.right - x, box.bottom - box.top)
        canvas.line((x, box.bottom), (x + reach, box.bottom - reach), "thin")
        x += step


SHAPES: dict[str, Callable[[Canvas, Box], None]] = {
    "mural": mural,
    "frame": frame,
    "skin": skin,
    "planter": planter,
    "light": light,
    "tile": tile,
    "sculpture": sculpture,
    "footing": footing,
}
