"""The plot of the balance. Places are percentages, so that the labels keep their size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from budgets.engine.cash import Course
from projects.words import day as in_words
from projects.words import money

MOST_TICKS = 5
ROOM = 4.0  # percent of the height, above and below
MIDDLE = 57  # a label beside a line this far along still fits a narrow screen


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """An upright line with its label."""

    x: float
    kind: str  # public or low
    label: str
    anchor: str
    y: int

    @property
    def dx(self) -> int:
        return 5 if self.anchor == "start" else -5


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    x: float
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """`path` is the balance, `short` what is below the floor; `floor` and `zero` are heights."""

    path: str
    short: str
    floor: float
    zero: float
    floor_label: str
    marks: Sequence[Mark]
    ticks: Sequence[Tick]
    says: str


@dataclass(frozen=True, slots=True)
class Frame:
    """Days and cents as percentages of the plot."""

    first: date
    last: date
    least: int
    most: int

    def x(self, day: date) -> float:
        return round(100 * (day - self.first).days / max(1, (self.last - self.first).days), 2)

    def y(self, cents: int) -> float:
        share = (self.most - cents) / max(1, self.most - self.least)
        return round(ROOM + (100 - 2 * ROOM) * share, 2)


def balance(
    ahead: Course, today: date, floor: int, public_on: date | None, currency: str
) -> Balance | None:
    """The course from today on; nothing to draw when no money moves."""
    if ahead.lowest is None:
        return None
    last = ahead.days[-1].day + timedelta(3)
    levels = [ahead.opening, floor, 0, *(c for day in ahead.days for c in (day.low, day.close))]
    frame = Frame(today, last, min(levels), max(levels))
    points = steps(ahead, frame)
    floor_y = frame.y(floor)
    return Balance(
        path="M" + " L".join(f"{x} {y}" for x, y in points),
        short=below(points, floor_y),
        floor=floor_y,
        zero=frame.y(0),
        floor_label=f"floor {money(floor, currency)}" if floor else "nothing left",
        marks=marks(ahead, frame, public_on, currency),
        ticks=ticks(frame),
        says=said(ahead, currency),
    )


def steps(ahead: Course, frame: Frame) -> list[tuple[float, float]]:
    """The balance stays until money moves; what goes out is drawn before what comes in."""
    points = [(0.0, frame.y(ahead.opening))]
    for day in ahead.days:
        x = frame.x(day.day)
        points += [(x, points[-1][1]), (x, frame.y(day.low)), (x, frame.y(day.close))]
    return [*points, (100.0, points[-1][1])]


def below(points: Sequence[tuple[float, float]], floor: float) -> str:
    """The area between the floor and the line where the line is beneath it."""
    sunk = [(x, max(y, floor)) for x, y in points]
    line = " L".join(f"{x} {y}" for x, y in sunk)
    return f"M0 {floor} L{line} L100 {floor} Z"


def marks(ahead: Course, frame: Frame, public_on: date | None, currency: str) -> list[Mark]:
    assert ahead.lowest is not None
    low = ahead.lowest
    found = [mark(frame.x(low.day), "low", f"{in_words(low.day)}: {money(low.low, currency)}", 18)]
    if public_on and frame.first <= public_on <= frame.last:
        found.append(mark(frame.x(public_on), "public", f"Public date, {in_words(public_on)}", 38))
    return found


def mark(x: float, kind: str, label: str, y: int) -> Mark:
    return Mark(x=x, kind=kind, label=label, anchor="start" if x < MIDDLE else "end", y=y)


def ticks(frame: Frame) -> list[Tick]:
    """The first days of months, a few of them."""
    days, day = [], frame.first.replace(day=1)
    while day <= frame.last:
        if day >= frame.first:
            days.append(day)
        day = (day + timedelta(31)).replace(day=1)
    every = max(1, -(-len(days) // MOST_TICKS))
    inside = [day for day in days[::every] if 3 < frame.x(day) < 97]
    return [Tick(x=frame.x(day), label=f"1 {day:%b}") for day in inside]


def said(ahead: Course, currency: str) -> str:
    assert ahead.lowest is not None
    low, least = ahead.lowest, money(ahead.lowest.low, currency)
    return (
        f"The balance from {money(ahead.opening, currency)} today to "
        f"{money(ahead.closing, currency)}; lowest on {in_words(low.day)}, {least}."
    )
