"""Section through a planter, to scale: soil, drain layer, reservoir, and its sizes."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.drawings.svg import Canvas

WIDTH, TALLEST, SIDE = 520.0, 250.0, 80.0
TOP = 96.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """Lengths in m, from the bottom up; ``lower`` is the width at the bottom."""

    upper: float
    lower: float
    soil: float
    drain: float
    reservoir: float
    raised: bool
    upper_words: str
    soil_words: str
    drain_words: str


def section(found: Inside) -> str:
    deep = found.soil + found.drain + found.reservoir
    scale = min((WIDTH - 2 * SIDE - 60) / found.upper, TALLEST / deep)
    floor = TOP + deep * scale
    below = 42 if found.raised else 18
    canvas = Canvas(WIDTH, floor + below, "Section through the planter")
    ground(canvas, floor, found.raised)
    shape = Shape(found, scale, floor)
    layer(canvas, shape, (0.0, found.reservoir), "band")
    layer(canvas, shape, (found.reservoir, found.reservoir + found.drain), "waste")
    layer(canvas, shape, (found.reservoir + found.drain, deep), "ground")
    canvas.polyline([shape.at(-1, deep), shape.at(-1, 0), shape.at(1, 0), shape.at(1, deep)])
    plant(canvas, shape, deep)
    words(canvas, shape, found, deep)
    return canvas.svg()


class Shape:
    """Where the planter’s sides lie at each height."""

    def __init__(self, found: Inside, scale: float, floor: float) -> None:
        self.found, self.scale, self.floor = found, scale, floor
        self.deep = found.soil + found.drain + found.reservoir

    def half(self, height: float) -> float:
        found = self.found
        return (found.lower + (found.upper - found.lower) * height / self.deep) / 2 * self.scale

    def at(self, side: int, height: float) -> tuple[float, float]:
        return WIDTH / 2 + side * self.half(height), self.floor - height * self.scale


def layer(canvas: Canvas, shape: Shape, span: tuple[float, float], kind: str) -> None:
    low, high = span
    if high > low:
        corners = [shape.at(-1, low), shape.at(1, low), shape.at(1, high), shape.at(-1, high)]
        canvas.polygon(corners, kind)


def ground(canvas: Canvas, floor: float, raised: bool) -> None:
    canvas.line((20, floor), (WIDTH - 20, floor))
    if not raised:
        canvas.rect((20, floor), WIDTH - 40, 14, "wall")
        return
    canvas.rect((20, floor), WIDTH - 40, 14, "wall")
    for x in (40.0, WIDTH - 60):
        canvas.rect((x, floor + 14), 20, 24, "wall")


def plant(canvas: Canvas, shape: Shape, deep: float) -> None:
    """Leaves, for scale only by the eye."""
    x, y = shape.at(0, deep)
    tall = min(60.0, 0.5 * shape.scale)
    for lean in (-1.0, -0.45, 0.0, 0.45, 1.0):
        bend = f"M {x:.1f} {y:.1f} q {lean * tall * 0.2:.1f} {-tall * 0.8:.1f} "
        canvas.path(f"{bend}{lean * tall:.1f} {-tall * (1 - abs(lean) * 0.35):.1f}", "person")


def words(canvas: Canvas, shape: Shape, found: Inside, deep: float) -> None:
    left, top = shape.at(-1, deep)
    right, _ = shape.at(1, deep)
    above = top - 66
    canvas.dimension((left, above), (right, above), found.upper_words)
    low = found.reservoir + found.drain
    side = left - 20
    canvas.dimension((side, shape.at(-1, low)[1]), (side, top), found.soil_words)
    if found.drain > 0:
        level = shape.at(1, found.reservoir + found.drain / 2)[1] + 4
        canvas.text((right + 12, min(level, shape.at(1, 0)[1] - 4)),
                    f"drain layer {found.drain_words}", "small")  # fmt: skip
    if found.reservoir > 0:
        canvas.text((right + 12, shape.at(1, found.reservoir / 2)[1] + 4), "water", "small")
    canvas.text((right + 12, shape.at(1, low + found.soil / 2)[1] + 4), "soil", "small")
