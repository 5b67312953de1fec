"""How the day on which the work would be ready moved, drawn over the day it was said.

Geometry alone: classes and texts are the template's. Time runs to the right, later runs up;
each line holds until something else is said.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

from projects.words import day

STEPS = (1, 2, 7, 14, 28, 56, 91, 182, 364)  # days between two lines of the grid
TOP, BOTTOM, LEFT = 46, 30, 62
RIGHT, NARROW_RIGHT = 142, 10  # the lines are named beside the drawing where there is room
NARROW = 500
LABEL_ROOM = 44  # a letter and its neighbour
LINE = 15
MONDAY = date(2001, 1, 1)


@dataclass(frozen=True, slots=True)
class Said:
    """What the plan said on a day."""

    on: date
    ready: date
    public: date | None

    @property
    def late(self) -> bool:
        return self.public is not None and self.ready > self.public


@dataclass(frozen=True, slots=True)
class Tick:
    x: float
    y: float
    text: str
    line: str = ""


@dataclass(frozen=True, slots=True)
class Dot:
    x: float
    y: float
    late: bool
    title: str


@dataclass(frozen=True, slots=True)
class Mark:
    """A plan kept: its letter above and its line."""

    x: float
    y: float
    text: str
    line: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipChart:
    width: int
    height: int
    across: tuple[Tick, ...]
    up: tuple[Tick, ...]
    public: str
    ready: str
    dots: tuple[Dot, ...]
    marks: tuple[Mark, ...]
    names: tuple[Tick, ...]


class Frame:
    """From days to points of the drawing."""

    def __init__(self, said: Sequence[Said], width: int, height: int) -> None:
        self.width = width
        self.right = width - (NARROW_RIGHT if width < NARROW else RIGHT)
        days = [each.ready for each in said] + [each.public for each in said if each.public]
        self.low, self.high = min(days) - timedelta(days=2), max(days) + timedelta(days=4)
        self.first, self.last = said[0].on, said[-1].on
        self.floor = height - BOTTOM

    def x(self, on: date) -> float:
        span = max(1, (self.last - self.first).days)
        share = (on - self.first).days / span if self.last > self.first else 1.0
        return round(LEFT + share * (self.right - LEFT), 1)

    def y(self, on: date) -> float:
        share = (on - self.low).days / (self.high - self.low).days
        return round(self.floor - share * (self.floor - TOP), 1)


def draw_slips(
    said: Sequence[Said], kept: Iterable[tuple[str, date]], *, width: int, height: int
) -> SlipChart | None:
    """None before anything was said. ``kept`` gives letters and days of the plans kept."""
    if not said:
        return None
    frame = Frame(said, width, height)
    return SlipChart(
        width=width,
        height=height,
        across=across(frame),
        up=up(frame),
        public=stepped(frame, [(each.on, each.public) for each in said]),
        ready=stepped(frame, [(each.on, each.ready) for each in said]),
        dots=tuple(dot(frame, each) for each in turns(said)),
        marks=marks(frame, kept),
        names=names(frame, said[-1]),
    )


def turns(said: Sequence[Said]) -> list[Said]:
    """Where something changed, and today."""
    found = [said[0]]
    for before, each in pairwise(said):
        if (before.ready, before.public) != (each.ready, each.public):
            found.append(each)
    return found if found[-1] == said[-1] else [*found, said[-1]]


def stepped(frame: Frame, points: Iterable[tuple[date, date | None]]) -> str:
    path, level = "", None
    for on, value in points:
        x = frame.x(on)
        if value is None:
            path += f"H{x}" if level is not None else ""
            level = None
            continue
        y = frame.y(value)
        path += f"M{x} {y}" if level is None else f"H{x}" + (f"V{y}" if y != level else "")
        level = y
    return path


def dot(frame: Frame, said: Said) -> Dot:
    title = f"{day(said.on)}: ready {day(said.ready)}"
    if said.public:
        title += f", public date {day(said.public)}"
    return Dot(x=frame.x(said.on), y=frame.y(said.ready), late=said.late, title=title)


def up(frame: Frame) -> tuple[Tick, ...]:
    """Lines on Mondays once a step is a week or more."""
    step = step_of((frame.high - frame.low).days, 5)
    days = stepping(frame.low, frame.high, step)
    return tuple(
        Tick(
            x=LEFT - 8,
            y=frame.y(on),
            text=f"{on.day} {on:%b}",
            line=f"M{LEFT} {frame.y(on)}H{frame.right}",
        )
        for on in days
    )


def across(frame: Frame) -> tuple[Tick, ...]:
    most = 4 if frame.width < NARROW else 8
    step = step_of((frame.last - frame.first).days, most)
    found = []
    for on in stepping(frame.first, frame.last, step):
        x = frame.x(on)
        inside = min(max(x, LEFT + 14), frame.right - 18)
        line = f"M{x} {frame.floor}V{frame.floor + 5}"
        found.append(Tick(x=inside, y=frame.floor + 19, text=f"{on.day} {on:%b}", line=line))
    return tuple(found)


def step_of(days: int, most: int) -> int:
    return next((step for step in STEPS if days / step <= most), STEPS[-1] * (1 + days // 2000))


def stepping(first: date, last: date, step: int) -> list[date]:
    """Every ``step`` days, counted from a Monday."""
    ahead = (MONDAY - first).days % step
    days = [first + timedelta(days=n) for n in range(ahead, (last - first).days + 1, step)]
    return days or [last]


def marks(frame: Frame, kept: Iterable[tuple[str, date]]) -> tuple[Mark, ...]:
    """Letters stand in a second row where they would run into each other."""
    found: list[Mark] = []
    ends = [float("-inf"), float("-inf")]
    for letter, on in sorted(kept, key=lambda pair: pair[1]):
        if not frame.first <= on <= frame.last:
            continue
        x = frame.x(on)
        row = 0 if x - ends[0] >= LABEL_ROOM or ends[0] <= ends[1] else 1
        ends[row] = x
        top = LINE * (row + 1) - 3
        inside = min(max(x, 18.0), frame.width - 20.0)
        line = f"M{x} {top + 4}V{frame.floor}"
        found.append(Mark(x=inside, y=top, text=f"Rev {letter}", line=line))
    return tuple(found)


def names(frame: Frame, last: Said) -> tuple[Tick, ...]:
    """The two lines by name at their right ends, clear of each other; none where it is narrow."""
    if frame.width < NARROW:
        return ()
    x, ready = frame.right + 8, frame.y(last.ready)
    if last.public is None:
        return (Tick(x=x, y=ready + 4, text=f"Ready {day(last.ready)}"),)
    public = frame.y(last.public)
    apart = max(0.0, LINE + 2 - abs(public - ready)) / 2 * (1 if last.late else -1)
    return (
        Tick(x=x, y=public + 4 + apart, text=f"Public {day(last.public)}"),
        Tick(x=x, y=ready + 4 - apart, text=f"Ready {day(last.ready)}"),
    )
