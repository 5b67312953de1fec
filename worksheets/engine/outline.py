"""From the line to sew to the line to cut: every edge moves out by its own allowance."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

Point = tuple[float, float]
SHARPEST = 30.0  # degrees; a corner sharper than this is cut off
STRAIGHT = 1e-9


class OutlineError(ValueError):
    """An outline that cannot be given allowances; ``edge`` is the one to change, from 0."""

    def __init__(self, says: str, edge: int | None = None) -> None:
        super().__init__(says)
        self.edge = edge


@dataclass(frozen=True, slots=True)
class Cut:
    """The line to cut, in the units of the line to sew, whose ``bevelled`` corners are cut off."""

    points: tuple[Point, ...]
    bevelled: tuple[int, ...] = ()

    @property
    def area(self) -> float:
        return abs(signed_area(self.points))

    @property
    def size(self) -> Point:
        """Width and height."""
        xs, ys = zip(*self.points, strict=True)
        return max(xs) - min(xs), max(ys) - min(ys)


def signed_area(points: Sequence[Point]) -> float:
    """Above 0 where the corners run counter-clockwise.

    >>> signed_area([(0, 0), (4, 0), (4, 3), (0, 3)])
    12.0
    """
    pairs = zip(points, [*points[1:], points[0]], strict=True)
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs) / 2


def cut_line(sewn: Sequence[Point], allowances: Sequence[float], sharpest: float = SHARPEST) -> Cut:
    """Move edge n (from corner n to the next) out by allowance n; neighbours meet in a mitre.

    A corner sharper than ``sharpest`` degrees is cut off square, at the wider allowance from the
    sewn corner. Any length unit. Raises OutlineError for fewer than three corners, an allowance
    below 0, a straight or hollow corner, or an edge that its neighbours' allowances swallow.
    For one allowance d on a convex outline the area is A + P·d + d²·Σ tan(exterior angle / 2).

    >>> cut_line([(0, 0), (40, 0), (40, 30), (0, 30)], [0.5] * 4).area
    1271.0
    """
    corners = [(float(x), float(y)) for x, y in sewn]
    shares = [float(each) for each in allowances]
    _checked(corners, shares)
    if signed_area(corners) < 0:
        turned = cut_line(corners[::-1], [*shares[-2::-1], shares[-1]], sharpest)
        last = len(corners) - 1
        return Cut(turned.points[::-1], tuple(sorted(last - at for at in turned.bevelled)))
    found: list[Point] = []
    bevelled = []
    for at in range(len(corners)):
        met = _corner(corners, shares, at, sharpest)
        bevelled += [at] if len(met) > 1 else []
        found += met
    _not_swallowed(corners, shares)
    return Cut(tuple(found), tuple(bevelled))


def _checked(corners: list[Point], shares: list[float]) -> None:
    if len(corners) < 3:
        raise OutlineError("An outline needs at least three corners.")
    if len(shares) != len(corners):
        raise OutlineError("Give one allowance for each edge.")
    if not all(math.isfinite(value) for corner in corners for value in corner):
        raise OutlineError("Every corner needs two numbers.")
    for edge, share in enumerate(shares):
        if not 0 <= share < math.inf:
            raise OutlineError(
                f"The allowance of edge {edge + 1} is below 0. Write 0 or more.", edge
            )
    _convex(corners)


def _convex(corners: list[Point]) -> None:
    """All corners turn the same way, once around."""
    size = max(math.dist(corners[0], other) for other in corners)
    turns = []
    for at in range(len(corners)):
        (ax, ay), (bx, by) = _along(corners, at - 1), _along(corners, at)
        if min(math.hypot(ax, ay), math.hypot(bx, by)) <= STRAIGHT * size:
            raise OutlineError(f"Two corners lie on each other at corner {at + 1}.", at)
        turns.append(math.atan2(ax * by - ay * bx, ax * bx + ay * by))
    for at, turn in enumerate(turns):
        if abs(turn) < STRAIGHT or abs(turn) > math.pi - STRAIGHT:
            raise OutlineError(
                f"Corner {at + 1} lies on a straight line, so it is no corner. Leave it out.", at
            )
    hollow = [at for at, turn in enumerate(turns) if (turn > 0) != (sum(turns) > 0)]
    if hollow or abs(abs(sum(turns)) - math.tau) > 1e-6:
        at = hollow[0] if hollow else 0
        raise OutlineError(
            f"The outline is hollow or crosses itself at corner {at + 1}. Cut it into pieces "
            "without hollow corners.",
            at,
        )


def _along(corners: list[Point], edge: int) -> Point:
    (x1, y1), (x2, y2) = corners[edge % len(corners)], corners[(edge + 1) % len(corners)]
    return x2 - x1, y2 - y1


def _unit(vector: Point) -> Point:
    length = math.hypot(*vector)
    return vector[0] / length, vector[1] / length


def _corner(corners: list[Point], shares: list[float], at: int, sharpest: float) -> list[Point]:
    """Where two moved edges meet: one point, or two where the mitre is cut off."""
    before, after = _unit(_along(corners, at - 1)), _unit(_along(corners, at))
    tip = _meet(corners[at], before, shares[at - 1], after, shares[at])
    inside = math.pi - math.acos(max(-1.0, min(1.0, before[0] * after[0] + before[1] * after[1])))
    reach = max(shares[at - 1], shares[at])
    out = _unit((before[0] - after[0], before[1] - after[1]))
    past = (tip[0] - corners[at][0]) * out[0] + (tip[1] - corners[at][1]) * out[1] - reach
    if inside >= math.radians(sharpest) or past <= STRAIGHT * max(1.0, reach):
        return [tip]
    back = past / math.cos(inside / 2)  # along either moved edge, which lean inside/2 from `out`
    return [
        (tip[0] - before[0] * back, tip[1] - before[1] * back),
        (tip[0] + after[0] * back, tip[1] + after[1] * back),
    ]


def _meet(corner: Point, before: Point, d1: float, after: Point, d2: float) -> Point:
    """The corner moved so that it lies d1 outside one edge and d2 outside the next."""
    cross = before[0] * after[1] - before[1] * after[0]
    along, back = (d1 * (before[0] * after[0] + before[1] * after[1]) - d2) / cross, d1
    # On the first edge's moved line, as far along as the second line lies.
    x = corner[0] + back * before[1] - along * before[0]
    y = corner[1] - back * before[0] - along * before[1]
    return x, y


def _not_swallowed(corners: list[Point], shares: list[float]) -> None:
    """Every moved edge must still run the way it ran."""
    count = len(corners)
    units = [_unit(_along(corners, edge)) for edge in range(count)]
    tips = [
        _meet(corners[at], units[at - 1], shares[at - 1], units[at], shares[at])
        for at in range(count)
    ]
    for edge in range(count):
        x, y = _along(tips, edge)
        if x * units[edge][0] + y * units[edge][1] <= 0:
            raise OutlineError(
                f"The allowance of edge {edge + 1} is so deep that its neighbours meet inside it. "
                "Make it shallower.",
                edge,
            )
