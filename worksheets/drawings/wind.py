"""Side view of a piece in the wind, to scale: the push, its arm, the base and the resultant."""

from __future__ import annotations

from worksheets.drawings.arrows import arrow
from worksheets.drawings.svg import Canvas, Point
from worksheets.engine.wind_answer import Side

WIDTH, HEIGHT, MARGIN, LEFT = 440.0, 340.0, 30.0, 160.0
PUSH = 60.0  # length of the arrow of the whole force


def side_view(side: Side) -> str:
    canvas = Canvas(WIDTH, HEIGHT, "Side view with the force of the wind, its arm and the base")
    view = View(side)
    canvas.rect((0, view.y(0)), WIDTH, HEIGHT - view.y(0), "ground")
    canvas.line((0, view.y(0)), (WIDTH, view.y(0)))
    {"free": base, "wall": wall, "post": post}[side.stands](canvas, view)
    faces(canvas, view)
    pushes(canvas, view)
    return canvas.svg()


class View:
    """Where a point of the side view lies on the canvas; x from the middle of the piece."""

    def __init__(self, side: Side) -> None:
        self.side = side
        self.top = max(upper for _, upper in side.faces)
        below = side.depth * 1.08
        self.scale = min(
            (HEIGHT - 2 * MARGIN - 44) / (self.top + below),
            (WIDTH - LEFT - 2 * MARGIN) / max(side.base * 1.5, (self.top + below) * 0.3),
        )
        self.floor = HEIGHT - MARGIN - 44 - below * self.scale

    def x(self, metres: float) -> float:
        middle = LEFT + (WIDTH - LEFT) * 0.42
        return middle + metres * self.scale

    def y(self, metres: float) -> float:
        return self.floor - metres * self.scale

    def at(self, x: float, y: float) -> Point:
        return self.x(x), self.y(y)


def faces(canvas: Canvas, view: View) -> None:
    for low, top in view.side.faces:
        high = (top - low) * view.scale
        canvas.rect((view.x(0) - 5, view.y(top)), 10, high, "part")


def pushes(canvas: Canvas, view: View) -> None:
    """Thin arrows over each face; one thick arrow for all of them, and its arm."""
    side = view.side
    for low, top in side.faces:
        for step in range(4):
            at = view.y(low + (top - low) * (step + 0.5) / 4)
            canvas.line((view.x(0) - PUSH, at), (view.x(0) - 12, at), "thin")
    at, end = view.y(side.arm), view.x(0) - 6
    arrow(canvas, (end - PUSH - 20, at), (end, at))
    canvas.text((end - PUSH - 24, at - 8), f"Wind {side.force}", "strong", anchor="end")
    canvas.line((28, at), (end - PUSH - 20, at), "thin")
    canvas.dimension((40, view.y(0)), (40, at), side.arm_words)


def mast(canvas: Canvas, view: View, start: float = 0.0) -> None:
    lowest = min(low for low, _ in view.side.faces)
    if lowest > start:
        canvas.rect((view.x(0) - 3, view.y(lowest)), 6, (lowest - start) * view.scale, "part")


def base(canvas: Canvas, view: View) -> None:
    """The base with its middle third, the weight, and where the resultant meets the ground."""
    side, half = view.side, view.side.base / 2
    mast(canvas, view)
    canvas.rect((view.x(-half), view.y(0) - 5), side.base * view.scale, 10, "wall")
    third = side.base / 3 * view.scale
    canvas.rect((view.x(-half / 3), view.y(0) - 5), third, 10, "band")
    under = view.y(0) + 56
    canvas.dimension((view.x(-half), under), (view.x(half), under), side.base_words)
    arrow(canvas, (view.x(0), view.y(0) - 64), (view.x(0), view.y(0) - 6))
    canvas.text((view.x(0) - 12, view.y(0) - 44), side.weight, "label", anchor="end")
    if side.eccentricity is not None:
        resultant(canvas, view, side.eccentricity, half)


def resultant(canvas: Canvas, view: View, eccentricity: float, half: float) -> None:
    side = view.side
    outside = eccentricity > half
    kind = "load-over" if outside else "load"
    end = (view.x(eccentricity), view.y(0))
    start = (view.x(0), view.y(side.arm))
    right = WIDTH - MARGIN
    if end[0] > right:  # it meets the ground beyond the drawing: cut the line there
        share = (right - start[0]) / (end[0] - start[0])
        end = (right, start[1] + (end[1] - start[1]) * share)
    canvas.line(start, end, "dashed")
    if end[1] == view.y(0):
        canvas.circle(end, 4, f"{kind}-head")
    if outside:
        canvas.text((right, view.y(0) + 18), "The resultant falls", "over", anchor="end")
        canvas.text((right, view.y(0) + 33), "outside the base", "over", anchor="end")
    else:
        canvas.text((right, view.y(0) + 20), side.eccentricity_words, "label", anchor="end")


def wall(canvas: Canvas, view: View) -> None:
    left = view.x(0) + 26
    canvas.rect((left, MARGIN / 2), 40, view.y(0) - MARGIN / 2, "wall")
    canvas.text((left + 48, MARGIN), "Wall", "label")
    for low, top in view.side.faces:
        for at in (low + (top - low) * 0.2, low + (top - low) * 0.8):
            canvas.line((view.x(0) + 5, view.y(at)), (left + 14, view.y(at)), "line")
            canvas.circle((left + 14, view.y(at)), 2.5, "anchor")
    for line, words in enumerate(("It pulls as", "hard when the", "wind turns")):
        canvas.text((left + 48, view.y(view.side.arm) + 15 * line), words, "label")


def post(canvas: Canvas, view: View) -> None:
    side = view.side
    wide = max(side.base * view.scale, 8)
    canvas.rect((view.x(0) - wide / 2, view.y(0)), wide, side.depth * view.scale, "wall")
    mast(canvas, view, -side.depth)
    at = view.x(0) + wide / 2 + 24
    canvas.line((at - 8, view.y(-side.depth)), (at + 8, view.y(-side.depth)), "thin")
    canvas.dimension((at, view.y(0)), (at, view.y(-side.depth)), side.depth_words)
