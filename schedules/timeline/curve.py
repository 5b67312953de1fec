"""The curve of the chance: by each day, the share of draws that are ready.

Places are percentages of the width and of the height, so that the labels keep their size
on every screen.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from projects.words import day
from schedules import engine

DAY = 1440
MOST_TICKS = 5
ROOM = 0.04  # of the width, on either side
ROWS = (16, 36, 56)
MIDDLE = 57  # of the width: a label beside a line this far along still fits a narrow screen


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """An upright line with its label."""

    x: float
    y: int  # pixels: each label has a line of its own
    label: str
    kind: str  # public, half or most
    anchor: str

    @property
    def dx(self) -> int:
        """Pixels between the line and its label."""
        return {"start": 5, "end": -5}.get(self.anchor, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    x: float
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """`path` and `area` are drawn in a square of 100 by 100, stretched to the plot."""

    path: str
    area: str  # the draws that make the date
    marks: Sequence[Mark]
    ticks: Sequence[Tick]
    y: float  # where the curve crosses the public date
    says: str


@dataclass(frozen=True, slots=True)
class Axis:
    first: float
    last: float

    def x(self, at: float) -> float:
        return round(100 * (at - self.first) / (self.last - self.first), 2)


def curve(data: Mapping[str, Any], public_on: date) -> Curve:
    shares, by = dict(data["points"]), data["by"]
    points = steps(data)
    axis = axis_over([at for at, _ in points] + [by])
    percent = round(data["percent"], 1)
    line = [(axis.x(at), round(100 - 100 * share, 2)) for at, share in points]
    made = [(x, y) for x, y in line if x <= axis.x(by)] + [(axis.x(by), round(100 - percent, 2))]
    return Curve(
        path="M" + " L".join(f"{x} {y}" for x, y in [(0, 100), *line, (100, 0)]),
        area="M0 100 L" + " L".join(f"{x} {y}" for x, y in made) + f" L{axis.x(by)} 100 Z",
        marks=marks(
            [
                (axis.x(by), "public", f"Public date: {day(public_on)}"),
                (axis.x(shares[50]), "half", f"Half ready: {day_of(shares[50])}"),
                (axis.x(shares[80]), "most", f"80 of 100 ready: {day_of(shares[80])}"),
            ]
        ),
        ticks=ticks(axis),
        y=round(100 - percent, 2),
        says=f"{percent:g} of 100 draws are ready by {day(public_on)}, "
        f"half by {day_of(shares[50])}, 80 of 100 by {day_of(shares[80])}.",
    )


def steps(data: Mapping[str, Any]) -> list[tuple[int, float]]:
    """The curve from nothing to all; each share at the end of its day."""
    first, last = data["ends"]
    inner = [(int(at), float(share)) for at, share in data["curve"]]
    return [(first // DAY * DAY, 0.0), *inner, (max(-(-last // DAY) * DAY, first + 1), 1.0)]


def axis_over(instants: Sequence[int]) -> Axis:
    first, last = min(instants), max(instants)
    room = max((last - first) * ROOM, DAY / 2)
    return Axis(first - room, last + room)


def marks(lines: Sequence[tuple[float, str, str]]) -> list[Mark]:
    """A line begins at its own label, so one that leans over others stands above them."""
    after = all(x <= MIDDLE for x, _, _ in lines)
    before = not after and all(x >= 100 - MIDDLE for x, _, _ in lines)
    lean = 100 if after else 0 if before else 50  # else each leans inwards
    rightward = sorted(line for line in lines if line[0] <= lean)
    leftward = sorted((line for line in lines if line[0] > lean), reverse=True)
    return [
        Mark(x=x, y=y, label=label, kind=kind, anchor="start" if x <= lean else "end")
        for (x, kind, label), y in zip([*rightward, *leftward], ROWS, strict=True)
    ]


def day_of(at: int) -> str:
    return day(engine.day_that_ends(at))


def ticks(axis: Axis) -> list[Tick]:
    """Mondays, or every so many of them."""
    first = engine.day_that_begins(int(axis.first))
    monday = first + timedelta(days=-first.weekday() % 7)
    days: list[date] = []
    while engine.instant(monday) <= axis.last:
        days.append(monday)
        monday += timedelta(days=7)
    step = -(-len(days) // MOST_TICKS) if days else 1
    found = [(axis.x(engine.instant(d)), f"{d.day} {d:%b}") for d in days[::step]]
    return [Tick(x=x, label=label) for x, label in found if 3 < x < 95]
