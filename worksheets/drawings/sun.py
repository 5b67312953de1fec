"""Sun on a wall: the hours of each month, and the sun's paths as they are seen from the wall."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from worksheets.drawings.svg import Canvas, Point

LEFT, ACROSS, ROW, TOP = 42.0, 400.0, 18.0, 26.0
WIDTH = LEFT + ACROSS + 62
HALF_SKY, TALL = 200.0, 180.0  # drawing units for 90° of bearing and of altitude

Hours = tuple[float, float]  # of the day, by the clock


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthBar:
    name: str
    day: Hours | None  # sunrise and sunset
    lit: Sequence[Hours]  # sun on the wall
    hours: str


def months(rows: Sequence[MonthBar]) -> str:
    """A bar from sunrise to sunset for each month; the sun on the wall is drawn thick in it."""
    height = TOP + len(rows) * ROW + 34
    canvas = Canvas(WIDTH, height, "Hours of sun on the wall, month by month")
    ends = [end for row in rows for end in (row.day or ())] or [4.0, 22.0]
    first, last = math.floor(min(ends) / 2) * 2, math.ceil(max(ends) / 2) * 2

    def x(hour: float) -> float:
        return LEFT + (hour - first) / (last - first) * ACROSS

    for hour in range(first, last + 1, 2):
        canvas.line((x(hour), TOP - 4), (x(hour), TOP + len(rows) * ROW), "grid")
        canvas.text((x(hour), TOP - 9), f"{hour % 24}:00", "small", anchor="middle")
    for n, row in enumerate(rows):
        y = TOP + n * ROW
        canvas.text((LEFT - 8, y + 13), row.name, "label", anchor="end")
        if row.day:
            start, end = map(x, row.day)
            canvas.rect((start, y + 6), end - start, 5, "wall")
        for start, end in row.lit:
            canvas.rect((x(start), y + 2), max(1.0, x(end) - x(start)), 13, "band")
        canvas.text((LEFT + ACROSS + 8, y + 13), row.hours, "label")
    y = TOP + len(rows) * ROW + 14
    canvas.rect((LEFT, y + 4), 26, 5, "wall")
    canvas.text((LEFT + 32, y + 11), "sunrise to sunset", "small")
    canvas.rect((LEFT + 140, y), 26, 13, "band")
    canvas.text((LEFT + 172, y + 11), "sun on the wall (clear sky)", "small")
    return canvas.svg()


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """Where the sun goes on a day: bearings from the wall's own, right positive, and altitudes."""

    name: str
    points: Sequence[Point]


def paths(found: Sequence[Path], skyline: Sequence[Point], facing: str) -> str:
    """The half of the sky before the wall; ``skyline`` is what stands there, as a line."""
    width, height = 2 * HALF_SKY + 96, TALL + 62
    canvas = Canvas(width, height, f"Paths of the sun before a wall that faces {facing}")
    left, bottom = 40.0, TALL + 20

    def at(point: Point) -> Point:
        return left + HALF_SKY * (1 + point[0] / 90), bottom - TALL * point[1] / 90

    for altitude in range(0, 91, 30):
        start, end = at((-90, altitude)), at((90, altitude))
        canvas.line(start, end, "axis" if altitude == 0 else "grid")
        canvas.text((left - 6, start[1] + 4), f"{altitude}°", "small", anchor="end")
    for turn in range(-90, 91, 45):
        canvas.line(at((turn, 0)), at((turn, 90)), "grid")
    if skyline:
        outline = [at(point) for point in ((-90, 0), *skyline, (90, 0))]
        canvas.polygon(outline, "ground")
    for number, path in enumerate(found):
        for run in before_wall(path.points):
            canvas.polyline([at(point) for point in run], "curve" if number != 1 else "line")
            highest = max(run, key=lambda point: point[1])
            x, y = at(highest)
            canvas.text((min(max(x, left + 20), left + 2 * HALF_SKY - 20), y - 5), path.name,
                        "small", anchor="middle")  # fmt: skip
    for turn, words in ((-90, "along the wall"), (0, facing), (90, "along the wall")):
        anchor = "middle" if turn == 0 else ("start" if turn < 0 else "end")
        canvas.text((at((turn, 0))[0], bottom + 16), words, "small", anchor=anchor)
    out = "seen from the wall; left and right as you look out"
    canvas.text((left + HALF_SKY, bottom + 34), out, "small", anchor="middle")
    return canvas.svg()


def before_wall(points: Sequence[Point]) -> list[list[Point]]:
    """The parts of a path above the horizon and before the wall."""
    found: list[list[Point]] = [[]]
    for turn, altitude in points:
        if altitude > 0 and abs(turn) <= 90:
            found[-1].append((turn, altitude))
        elif found[-1]:
            found.append([])
    return [run for run in found if len(run) > 1]
