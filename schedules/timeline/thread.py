"""The thread that joins the chain: square paths round the labels, from bar to bar."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import accumulate, pairwise

from schedules.timeline.shapes import Box

LABEL, POLE, BAR, BEND, FAR = 60.0, 12.0, 9.0, 4.0, 0.02  # what a path pays for what it crosses
HOLD = 1.0  # from a bar's end to the thread under it

Corners = tuple[tuple[float, float], ...]


@dataclass(slots=True)
class Row:
    """A line of the drawing: the middle of its bars, the free channel above, what stands on it."""

    middle: float
    channel: float
    poles: Sequence[float] = ()
    labels: list[tuple[float, float]] = field(default_factory=list)
    bars: list[tuple[float, float]] = field(default_factory=list)

    def price_at(self, x: float) -> float:
        """Of a vertical line through this row at ``x``."""
        price = 0.0  # plain loops: this is asked for every row that a long thread passes
        for a, b in self.labels:
            if a - 2 < x < b + 2:
                price += LABEL
        for pole in self.poles:
            if -4 < x - pole < 4:
                price += POLE
        for a, b in self.bars:
            if a < x < b:
                price += BAR
        return price

    def price_along(self, x0: float, x1: float) -> float:
        """Of a line along the middle of this row."""
        a, b = min(x0, x1), max(x0, x1)
        if b - a < 2:
            return 0.0
        words = sum(LABEL for c, d in self.labels if c < b and a < d)
        return words + sum(BAR for c, d in self.bars if c < b - 2 and a + 2 < d)


@dataclass(frozen=True, slots=True)
class End:
    row: int
    x: float


def route(rows: Sequence[Row], a: End, b: End) -> Corners:
    """The cheapest of the simple square paths."""
    found = list(paths(rows, a, b))
    return min(found, key=lambda priced: priced[0])[1]


def paths(rows: Sequence[Row], a: End, b: End) -> Iterable[tuple[float, Corners]]:
    ya, yb = rows[a.row].middle, rows[b.row].middle
    if a.row == b.row:
        along = rows[a.row].price_along(a.x, b.x)
        yield along, ((a.x, ya), (b.x, yb))
        for row in (a.row, a.row + 1):
            if row < len(rows):
                yield over(a, b, ya, yb, rows[row].channel, 0)
        return
    between = range(min(a.row, b.row) + 1, max(a.row, b.row))
    if abs(a.x - b.x) <= 2 * HOLD + 2:
        x = round((a.x + b.x) / 2, 1)
        yield down(rows, between, x) - BEND, ((x, ya), (x, yb))
    yield turn(rows, between, a, b, at=a.x)
    yield turn(rows, between, a, b, at=b.x)
    for x in halfway(a.x, b.x):
        yield turn(rows, between, a, b, at=x)
    yield from channels(rows, a, b)


def halfway(xa: float, xb: float) -> list[float]:
    """Where a path may turn between two bars that stand apart."""
    if xb - xa < 14:
        return []
    return [round(x, 1) for x in {xa + 6, (xa + xb) / 2, xb - 6}]


def down(rows: Sequence[Row], between: range, x: float) -> float:
    return sum(rows[n].price_at(x) for n in between)


def turn(
    rows: Sequence[Row], between: range, a: End, b: End, *, at: float
) -> tuple[float, Corners]:
    """Along the first row, down or up at ``at``, along the last row."""
    price = down(rows, between, at)
    price += rows[a.row].price_along(a.x, at) + rows[b.row].price_along(at, b.x)
    ya, yb = rows[a.row].middle, rows[b.row].middle
    corners = tidy(((a.x, ya), (at, ya), (at, yb), (b.x, yb)))
    return price + BEND * (len(corners) - 2) + FAR * abs(at - a.x), corners


def channels(rows: Sequence[Row], a: End, b: End) -> Iterable[tuple[float, Corners]]:
    """Down at the first bar's end, along a free channel, down at the second bar's start."""
    low, high = sorted((a.row, b.row))
    top, foot = (a.x, b.x) if a.row < b.row else (b.x, a.x)
    between = rows[low + 1 : high]
    above = list(accumulate((row.price_at(top) for row in between), initial=0.0))
    under = [row.price_at(foot) for row in between]
    rest = list(accumulate(reversed(under), initial=0.0))[::-1]
    prices = [up + down for up, down in zip(above, rest, strict=True)]
    best = min(range(len(prices)), key=prices.__getitem__)
    ya, yb = rows[a.row].middle, rows[b.row].middle
    yield over(a, b, ya, yb, rows[low + 1 + best].channel, prices[best])


def over(
    a: End, b: End, ya: float, yb: float, channel: float, price: float
) -> tuple[float, Corners]:
    corners = tidy(((a.x, ya), (a.x, channel), (b.x, channel), (b.x, yb)))
    return price + BEND * (len(corners) - 2) + 1, corners


def tidy(corners: Corners) -> Corners:
    """Without corners that repeat or do not turn."""
    kept: list[tuple[float, float]] = []
    for corner in corners:
        if kept and kept[-1] == corner:
            continue
        straight = len(kept) > 1 and (
            kept[-2][0] == kept[-1][0] == corner[0] or kept[-2][1] == kept[-1][1] == corner[1]
        )
        if straight:
            kept[-1] = corner
        else:
            kept.append(corner)
    return tuple(kept)


def drawn(corners: Corners, boxes: Sequence[Box]) -> str:
    """The path's ``d``, lifted where it would run through a label."""
    pieces: list[str] = []
    pen: tuple[float, float] | None = None
    for (x0, y0), (x1, y1) in pairwise(corners):
        for (ax, ay), (bx, by) in shown(x0, y0, x1, y1, boxes):
            if pen != (ax, ay):
                pieces.append(f"M{ax:g} {ay:g}")
            pieces.append(f"V{by:g}" if ax == bx else f"H{bx:g}")
            pen = (bx, by)
    return "".join(pieces)


def shown(
    x0: float, y0: float, x1: float, y1: float, boxes: Sequence[Box]
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """A straight piece without the stretches that lie under labels."""
    upright = x0 == x1
    start, end = (y0, y1) if upright else (x0, x1)
    low, high = min(start, end), max(start, end)
    at = x0 if upright else y0
    holes = []
    for box in boxes:
        near = box.x0 - 2 < at < box.x1 + 2 if upright else box.y0 < at < box.y1
        a, b = (box.y0 - 1, box.y1 + 1) if upright else (box.x0 - 3, box.x1 + 3)
        if near and a < high and low < b:
            holes.append((a, b))
    kept = without(low, high, holes)
    if end < start:
        kept = [(b, a) for a, b in reversed(kept)]
    if upright:
        return [((at, a), (at, b)) for a, b in kept]
    return [((a, at), (b, at)) for a, b in kept]


def without(low: float, high: float, holes: list[tuple[float, float]]) -> list[tuple[float, float]]:
    kept = []
    for a, b in sorted(holes):
        if a > low:
            kept.append((low, round(a, 1)))
        low = max(low, round(b, 1))
    if low < high:
        kept.append((low, high))
    return kept
