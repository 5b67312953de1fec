"""A good layout at once: fill the lowest gap with the piece that fits it best.

Source: Burke, Kendall & Whitwell, “A new placement heuristic for the orthogonal stock-cutting
problem”, Operations Research 52 (2004), from memory.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from worksheets.engine.packing.pieces import (
    CLOSE,
    Layout,
    Placed,
    Rectangle,
    checked,
    shortest_thinkable,
)

Order = Callable[[Rectangle], tuple[float, ...]]
ORDERS: tuple[Order, ...] = (
    lambda piece: (piece.width, piece.height),
    lambda piece: (piece.height, piece.width),
    lambda piece: (piece.width * piece.height,),
    lambda piece: (piece.width + piece.height,),
)


@dataclass(slots=True)
class Step:
    """A level stretch of the skyline."""

    x: float
    width: float
    y: float


def fill_gaps(pieces: Sequence[Rectangle], strip: float) -> Layout:
    """The shortest of a few greedy layouts. Raises TooWide and ValueError.

    >>> found = fill_gaps([Rectangle(2, 3), Rectangle(2, 3), Rectangle(4, 1)], 4)
    >>> found.length, found.proven
    (4.0, True)
    """
    checked(pieces, strip)
    bound = shortest_thinkable(pieces, strip)
    found = [_filled(pieces, strip, order, low) for order in ORDERS for low in (True, False)]
    found.append(_shelves(pieces, strip))
    placed, length = min(found, key=lambda each: each[1])
    proven = length <= bound * (1 + CLOSE)
    return Layout(strip=strip, placed=tuple(placed), length=length, bound=bound, proven=proven)


def _filled(
    pieces: Sequence[Rectangle], strip: float, order: Order, beside_tall: bool
) -> tuple[list[Placed], float]:
    steps = [Step(0.0, strip, 0.0)]
    left = sorted(range(len(pieces)), key=lambda at: order(pieces[at]), reverse=True)
    placed: list[Placed] = []
    while left:
        low = min(range(len(steps)), key=lambda at: (steps[at].y, steps[at].x))
        gap = steps[low]
        fits = [at for at in left if pieces[at].width <= gap.width * (1 + CLOSE)]
        if not fits:
            _raise(steps, low)
            continue
        exact = [at for at in fits if pieces[at].width >= gap.width * (1 - CLOSE)]
        chosen = (exact or fits)[0]
        x = _side(steps, low, pieces[chosen], beside_tall)
        placed.append(Placed(chosen, x, gap.y))
        _lay(steps, low, x, pieces[chosen])
        left.remove(chosen)
    length = max((at.y + pieces[at.piece].height for at in placed), default=0.0)
    return placed, length


def _raise(steps: list[Step], low: int) -> None:
    """Give up a gap: lift it to its lower neighbour."""
    beside = [at for at in (low - 1, low + 1) if 0 <= at < len(steps)]
    steps[low].y = min(steps[at].y for at in beside)
    _joined(steps)


def _side(steps: list[Step], low: int, piece: Rectangle, beside_tall: bool) -> float:
    """Against the taller neighbour, or the lower."""
    gap = steps[low]
    before = steps[low - 1].y if low else float("inf")
    after = steps[low + 1].y if low + 1 < len(steps) else float("inf")
    at_left = (before >= after) == beside_tall
    return gap.x if at_left else max(gap.x, gap.x + gap.width - piece.width)


def _lay(steps: list[Step], low: int, x: float, piece: Rectangle) -> None:
    gap = steps[low]
    width = min(piece.width, gap.width)
    parts = [
        Step(gap.x, x - gap.x, gap.y),
        Step(x, width, gap.y + piece.height),
        Step(x + width, gap.x + gap.width - x - width, gap.y),
    ]
    steps[low : low + 1] = [part for part in parts if part.width > CLOSE * piece.width]
    _joined(steps)


def _joined(steps: list[Step]) -> None:
    """Neighbours of one height become one step."""
    at = 0
    while at + 1 < len(steps):
        if abs(steps[at].y - steps[at + 1].y) <= CLOSE * max(1.0, steps[at].y):
            steps[at].width += steps[at + 1].width
            del steps[at + 1]
        else:
            at += 1


def _shelves(pieces: Sequence[Rectangle], strip: float) -> tuple[list[Placed], float]:
    """Rows, the tallest first; each piece goes to the first row with room."""
    rows: list[list[float]] = []  # width used and where the row starts
    placed: list[Placed] = []
    length = 0.0
    for at in sorted(range(len(pieces)), key=lambda at: (-pieces[at].height, -pieces[at].width)):
        piece = pieces[at]
        row = next((r for r in rows if r[0] + piece.width <= strip * (1 + CLOSE)), None)
        if row is None:
            row = [0.0, length]
            rows.append(row)
            length += piece.height
        placed.append(Placed(at, row[0], row[1]))
        row[0] += piece.width
    return placed, length
