"""Hours across, days down: what can be painted; and the wall's warmth above the dew point."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from datetime import date, timedelta

from worksheets.drawings.svg import Canvas, Point
from worksheets.engine.clock_words import day_words
from worksheets.engine.paintable import HOUR, Hour, Mark
from worksheets.engine.painting_days import by_day

LEFT, CELL, ROW, TOP = 84.0, 16.0, 20.0, 26.0
WIDTH = LEFT + 24 * CELL + 20
PLOT = 170.0


def strip(hours: Sequence[Hour], planned: frozenset[date]) -> str:
    """A row for each day. A dot: can be painted; a cross: outside a limit; “?”: not known."""
    days = [(day, found) for day, found in by_day(hours).items() if any(e.worked for e in found)]
    height = TOP + len(days) * ROW + 46
    canvas = Canvas(WIDTH, height, "Hours that can be painted, day by day")
    for hour in range(0, 25, 3):
        x = LEFT + hour * CELL
        canvas.text((x, TOP - 8), f"{hour}:00", "small", anchor="middle")
        canvas.line((x, TOP - 4), (x, TOP + len(days) * ROW), "grid")
    for n, (day, found) in enumerate(days):
        y = TOP + n * ROW
        canvas.text((LEFT - 10, y + 14), day_words(day), "label", anchor="end")
        if day in planned:
            canvas.rect((0, y + 2), 5, ROW - 4, "band")
        for each in found:
            if each.worked:
                cell(canvas, (LEFT + each.at.hour * CELL, y), each.mark)
    legend(canvas, height - 26, bool(planned & {day for day, _ in days}))
    return canvas.svg()


def cell(canvas: Canvas, corner: Point, mark: Mark) -> None:
    x, y = corner
    middle = (x + CELL / 2, y + ROW / 2)
    kind = {Mark.PAINT: "within", Mark.STOP: "waste", Mark.UNKNOWN: "field"}[mark]
    canvas.rect((x + 1, y + 1), CELL - 2, ROW - 2, kind)
    if mark == Mark.PAINT:
        canvas.circle(middle, 4, "anchor")
    elif mark == Mark.STOP:
        for way in (1, -1):
            canvas.line((middle[0] - 3.5, middle[1] - 3.5 * way),
                        (middle[0] + 3.5, middle[1] + 3.5 * way), "cut")  # fmt: skip
    else:
        canvas.text((middle[0], middle[1] + 4), "?", "small", anchor="middle")


def legend(canvas: Canvas, y: float, has_plan: bool) -> None:
    at = 0.0
    if has_plan:
        canvas.rect((0, y + 2), 5, ROW - 4, "band")
        canvas.text((10, y + 14), "planned", "small")
        at = 62.0
    for mark in Mark:
        cell(canvas, (at, y), mark)
        canvas.text((at + CELL + 5, y + 14), mark.value, "small")
        at += CELL + 26 + 5.4 * len(mark.value)


Show = Callable[[float], tuple[float, str]]  # °C -> the number shown, and its unit


def curves(hours: Sequence[Hour], spread: float, show: Show) -> str:
    """The surface against the dew point, and against the margin that the paint asks above it."""
    told = [each for each in hours if each.reading is not None]
    canvas = Canvas(WIDTH, PLOT + 60, "Surface and dew point over the hours")
    if not told:
        return canvas.svg()
    scale = Scale(told, spread, show)
    scale.axes(canvas)
    for each in told:
        if each.counts:
            x, across = scale.x(each), scale.step
            canvas.rect((x, TOP + PLOT - 7), max(across, 0.8), 7, "band")
    lines = (
        ("dashed", [(e, e.reading.dew + spread) for e in told if e.reading]),
        ("line", [(e, e.reading.dew) for e in told if e.reading]),
        ("curve", [(e, e.reading.surface) for e in told if e.reading]),
    )
    for kind, values in lines:
        for run in scale.runs(values):
            canvas.polyline(run, kind)
    key(canvas, TOP + PLOT + 26)
    return canvas.svg()


Value = tuple[Hour, float | None]


def round_ends(low: float, high: float, show: Show) -> tuple[float, float, list[float]]:
    """Ends and ticks, in °C, that are round in the unit shown."""
    first, last = show(low)[0], show(high)[0]
    each = next(step for step in (1, 2, 5, 10, 20, 50) if (last - first) / step <= 6)
    start, end = math.floor(first / each) * each, math.ceil(last / each) * each
    degree = (high - low) / (last - first) if last > first else 1.0
    count = round((end - start) / each) + 1
    ticks = [low + (n * each + start - first) * degree for n in range(count)]
    return ticks[0], max(ticks[-1], ticks[0] + degree), ticks


class Scale:
    """Time across, temperature up."""

    def __init__(self, told: Sequence[Hour], spread: float, show: Show) -> None:
        self.told, self.show = told, show
        values = [v for e in told if e.reading for v in (e.reading.dew, e.reading.dew + spread)]
        values += [e.reading.surface for e in told if e.reading and e.reading.surface is not None]
        self.low, self.high, self.ticks = round_ends(min(values), max(values), show)
        self.start = told[0].at
        self.count = max(1, round((told[-1].at - self.start) / HOUR) + 1)
        self.step = 24 * CELL / self.count

    def x(self, each: Hour) -> float:
        return LEFT + (each.at - self.start) / HOUR * self.step

    def y(self, value: float) -> float:
        return TOP + PLOT * (self.high - value) / (self.high - self.low)

    def runs(self, values: Sequence[Value]) -> list[list[Point]]:
        """Points in the middle of their hours, broken where nothing is known."""
        found: list[list[Point]] = [[]]
        for each, value in values:
            if value is None:
                found.append([])
            else:
                found[-1].append((self.x(each) + self.step / 2, self.y(value)))
        return [run for run in found if len(run) > 1]

    def axes(self, canvas: Canvas) -> None:
        for value in self.ticks:
            number, unit = self.show(value)
            canvas.line((LEFT, self.y(value)), (LEFT + 24 * CELL, self.y(value)), "grid")
            words = f"{number:.0f} {unit}"
            canvas.text((LEFT - 8, self.y(value) + 4), words, "small", anchor="end")
        day, every = self.start.date(), max(1, round(self.count / 24 / 6))
        while day <= self.told[-1].at.date():
            x = LEFT + (24 * (day - self.start.date()).days - self.start.hour) * self.step
            if x >= LEFT - 0.1:
                canvas.line((x, TOP), (x, TOP + PLOT), "thin")
            near = max(x, LEFT) + 3
            if (day - self.start.date()).days % every == 0 and near < WIDTH - 60:
                canvas.text((near, TOP - 8), day_words(day), "small")
            day += timedelta(days=1)
        canvas.line((LEFT, TOP + PLOT), (LEFT + 24 * CELL, TOP + PLOT), "axis")


def key(canvas: Canvas, y: float) -> None:
    at = 0.0
    told = (("curve", "surface"), ("line", "dew point"), ("dashed", "least surface"))
    for kind, words in told:
        canvas.line((at, y - 4), (at + 24, y - 4), kind)
        canvas.text((at + 29, y), words, "small")
        at += 48 + 5.4 * len(words)
    canvas.rect((at, y - 8), 18, 7, "band")
    canvas.text((at + 23, y), "can be painted", "small")
