"""People for scale: outlines in metres, with the heights that hands reach.

Seated: eye 43 to 51 in (the middle is drawn), seat 19 in, chair’s handle 36 in, 42 in long with
6 in for the feet: dimensions of adult-sized wheelchairs, figure A3 of the 1991 ADA Standards,
https://www.ada.gov/descript/reg3a/figA3ds.htm. Standing 1.70 m, and children’s heights (1.00,
1.20 and 1.40 m): common practice, no source.
"""

from __future__ import annotations

from worksheets.drawings.scene import Reach
from worksheets.drawings.svg import Canvas, Point

EYE_SEATED = (1.0922 + 1.2954) / 2
SEAT, HANDLE, LAP, LENGTH = 0.4826, 0.9144, 0.6858, 1.2192
STANDING, SEATED = 1.70, 1.32  # m, to the top of the head
STANDING_WORDS = "5\u00a0ft 7\u00a0in (1.70\u00a0m)"
CHILD = {"3-4": 1.00, "5-8": 1.20, "9-12": 1.40}
WIDTH = {"standing": 0.62, "seated": 1.30, "child": 0.5}
OUTLINE = [  # of somebody 1 m tall, right half from the neck down
    (0.03, 0.87), (0.035, 0.835), (0.13, 0.81), (0.165, 0.48), (0.135, 0.475), (0.105, 0.71),
    (0.105, 0.47), (0.075, 0.0), (0.02, 0.0), (0.0, 0.44),
]  # fmt: skip


class Stand:
    """Where a figure stands: x and y on the canvas of its middle on the ground, and the scale."""

    def __init__(self, x: float, ground: float, scale: float) -> None:
        self.x, self.ground, self.scale = x, ground, scale

    def at(self, x: float, y: float) -> Point:
        return self.x + x * self.scale, self.ground - y * self.scale


def person(canvas: Canvas, stand: Stand, who: Reach, facing: int = -1) -> None:
    """``facing`` is -1 to the left, 1 to the right; a standing figure is seen from the front."""
    if who.who == "seated":
        seated(canvas, stand, facing)
    else:
        standing(canvas, stand, who.tall)


def standing(canvas: Canvas, stand: Stand, tall: float) -> None:
    right = [(x * tall, y * tall) for x, y in OUTLINE]
    left = [(-x, y) for x, y in reversed(right[:-1])]
    canvas.polygon([stand.at(x, y) for x, y in [*right, *left]], "person")
    canvas.circle(stand.at(0, tall * 0.935), tall * 0.062 * stand.scale, "person")


def seated(canvas: Canvas, stand: Stand, facing: int) -> None:
    def at(x: float, y: float) -> Point:
        return stand.at(facing * x, y)

    canvas.circle(at(-0.12, 0.30), 0.30 * stand.scale, "person")
    canvas.circle(at(0.36, 0.09), 0.09 * stand.scale, "person")
    canvas.polyline(
        [at(-0.38, HANDLE), at(-0.30, HANDLE), at(-0.28, SEAT), at(0.26, SEAT)], "person"
    )
    canvas.polyline([at(0.26, SEAT), at(0.36, 0.15), at(0.60, 0.13)], "person")
    canvas.polyline([at(-0.20, SEAT + 0.04), at(-0.16, 1.0), at(-0.14, 1.08)], "person")
    canvas.polyline([at(-0.18, SEAT + 0.09), at(0.30, LAP - 0.08), at(0.42, 0.22)], "person")
    canvas.polyline([at(-0.16, 0.98), at(0.02, 0.74), at(0.30, 0.80)], "person")
    canvas.circle(at(-0.10, EYE_SEATED), 0.105 * stand.scale, "person")


def band(canvas: Canvas, stand: Stand, who: Reach, wide: float) -> None:
    """The heights that hands reach, behind the figure."""
    if who.low is None or who.high is None:
        return
    left, top = stand.at(-wide / 2, who.high)
    canvas.rect((left, top), wide * stand.scale, (who.high - who.low) * stand.scale, "band")
