"""Pump curve and system curve with their crossing, and a small sketch of the lift."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from worksheets.drawings.svg import Canvas, Point

WIDTH, HEIGHT = 560.0, 340.0
LEFT, RIGHT, TOP, BOTTOM = 62.0, 22.0, 26.0, 52.0
STEPS = 48
COUNTS = 5  # marks on an axis, about


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """``per`` turns SI into the unit that is written."""

    name: str
    symbol: str
    per: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Curves:
    """Flows in m³/s and heads in m; ``wanted`` is the flow asked for."""

    system: Callable[[float], float]
    pump: Sequence[tuple[float, float]]
    wanted: tuple[float, float]
    meets: tuple[float, float] | None
    flow: Axis
    head: Axis


def curves_view(curves: Curves) -> str:
    canvas = Canvas(WIDTH, HEIGHT, "Head by flow: what the pipe asks for, what the pump makes")
    view = View(curves)
    axes(canvas, view)
    flows = [view.most_flow * n / STEPS for n in range(STEPS + 1)]
    asked = [(flow, curves.system(flow)) for flow in flows]
    shown = [view.at(*point) for point in asked if point[1] <= view.most_head]
    canvas.polyline(shown, "curve")
    end = shown[-1]
    canvas.text((min(end[0], WIDTH - RIGHT) - 4, end[1] - 8), "Pipe asks", "small", anchor="end")
    if curves.pump:
        canvas.polyline([view.at(*point) for point in curves.pump], "line")
        for point in curves.pump:
            canvas.circle(view.at(*point), 2.5, "anchor")
        first = view.at(*curves.pump[0])
        canvas.text((first[0] + 8, first[1] - 6), "Pump makes", "small")
    points(canvas, view)
    return canvas.svg()


class View:
    def __init__(self, curves: Curves) -> None:
        self.curves = curves
        flows = [curves.wanted[0], *(flow for flow, _ in curves.pump)]
        heads = [curves.wanted[1], *(head for _, head in curves.pump)]
        self.most_flow = max(1e-4, *flows) * (1.05 if curves.pump else 1.4)
        self.most_head = max(0.1, *heads) * 1.25

    def at(self, flow: float, head: float) -> Point:
        x = LEFT + flow / self.most_flow * (WIDTH - LEFT - RIGHT)
        return x, HEIGHT - BOTTOM - head / self.most_head * (HEIGHT - TOP - BOTTOM)


def axes(canvas: Canvas, view: View) -> None:
    flow, head = view.curves.flow, view.curves.head
    floor, end = HEIGHT - BOTTOM, WIDTH - RIGHT
    for mark in marks(view.most_head / head.per):
        at = view.at(0, mark * head.per)
        canvas.line(at, (end, at[1]), "grid")
        canvas.text((LEFT - 8, at[1] + 4), f"{mark:g}", "small", anchor="end")
    for mark in marks(view.most_flow / flow.per):
        at = view.at(mark * flow.per, 0)
        canvas.line(at, (at[0], TOP), "grid")
        canvas.text((at[0], floor + 16), f"{mark:g}", "small", anchor="middle")
    canvas.line((LEFT, floor), (end, floor), "axis")
    canvas.line((LEFT, floor), (LEFT, TOP), "axis")
    canvas.text((end, floor + 36), f"{flow.name}, {flow.symbol}", "label", anchor="end")
    canvas.text((LEFT - 40, TOP - 10), f"{head.name}, {head.symbol}", "label")


def marks(most: float) -> list[float]:
    """Round numbers from 0 to the end of an axis.

    >>> marks(11.0)
    [0.0, 2.0, 4.0, 6.0, 8.0, 10.0]
    >>> marks(-3.0)  # a head below the pump asks for none
    [0.0]
    """
    if not 0 < most < math.inf:
        return [0.0]
    rough = most / COUNTS
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * n for n in (1, 2, 5, 10) if power * n >= rough * 0.8)
    return [round(step * n, 9) for n in range(int(most / step + 1e-9) + 1)]


def points(canvas: Canvas, view: View) -> None:
    wanted = view.at(*view.curves.wanted)
    canvas.line((wanted[0], HEIGHT - BOTTOM), wanted, "dashed")
    canvas.line((LEFT, wanted[1]), wanted, "dashed")
    canvas.circle(wanted, 4, "near")
    canvas.text((wanted[0] + 8, wanted[1] + 16), "Wanted", "small")
    if view.curves.meets is not None:
        meets = view.at(*view.curves.meets)
        canvas.line(meets, (meets[0], HEIGHT - BOTTOM), "dashed")
        canvas.circle(meets, 5, "load-head")
        left = meets[0] > WIDTH - 130 or (meets[0] < wanted[0] and meets[0] > LEFT + 130)
        at = (meets[0] + (-8 if left else 8), HEIGHT - BOTTOM - 12)
        canvas.text(at, "They meet here", "strong", anchor="end" if left else "start")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """In m, with words."""

    lift: float
    words: str
    length_words: str
    outlet_words: str


def lift_view(lift: Lift) -> str:
    """A sketch, not to scale sideways: basin, pump, pipe and outlet."""
    wide, tall = 560.0, 210.0
    canvas = Canvas(wide, tall, "Sketch of the lift from the water to the outlet")
    up = lift.lift >= 0
    low, high = 158.0, 52.0
    water, outlet = (low, high) if up else (high, low)
    canvas.rect((60, water), 130, tall - 14 - water, "band")
    canvas.line((60, water - 12), (60, tall - 14), "line")
    canvas.line((190, water - 12), (190, tall - 14), "line")
    canvas.line((60, tall - 14), (190, tall - 14), "line")
    canvas.text((68, water + 16), "Water", "small")
    canvas.circle((125, min(water + 30, tall - 30)), 11, "part")
    canvas.text((142, min(water + 34, tall - 26)), "Pump", "small")
    rise = min(water, outlet) - 18
    pipe = [(125, min(water + 19, tall - 41)), (125, rise), (400, rise), (400, outlet)]
    canvas.polyline(pipe, "load")
    canvas.text((262, rise - 8), lift.length_words, "dim-label", anchor="middle")
    canvas.text((410, outlet + 4), lift.outlet_words, "label")
    canvas.line((190, water), (330, water), "dashed")
    canvas.line((300, outlet), (400, outlet), "dashed")
    if lift.lift:
        canvas.dimension((316, water), (316, outlet), lift.words)
    return canvas.svg()
