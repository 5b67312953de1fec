"""A panel of a pattern with everything that is marked on it, in mm from its lower left corner."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from worksheets.engine.sewing import Pattern
from worksheets.engine.skin import flat

Point = tuple[float, float]
Segment = tuple[Point, Point]
MM = 1000.0
NOTCH = 6.0  # mm, or the allowance where that is less
LEAST = 2.0  # mm; a narrower allowance has no room for a notch
PAIR = 10.0  # mm between the two notches that tell the lower edge
HEAD = 6.0  # mm, of the arrow for the grain


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """Corners of the line to cut and the line to sew; ``notches`` and ``grain`` as segments."""

    letter: str
    count: int
    cut: tuple[Point, ...]
    sewn: tuple[Point, ...]
    notches: tuple[Segment, ...]
    grain: tuple[Segment, ...]
    lying: bool = False

    @property
    def size(self) -> Point:
        xs, ys = zip(*self.cut, strict=True)
        return max(xs), max(ys)

    @property
    def name(self) -> str:
        return f"Panel {self.letter}"

    @property
    def middle(self) -> Point:
        wide, tall = self.size
        return wide / 2, tall / 2

    def on_its_side(self) -> Marked:
        """A quarter turn to the right: what was up points right."""
        wide = self.size[0]

        def at(point: Point) -> Point:
            return point[1], wide - point[0]

        return replace(
            self,
            cut=tuple(at(point) for point in self.cut),
            sewn=tuple(at(point) for point in self.sewn),
            notches=tuple((at(start), at(end)) for start, end in self.notches),
            grain=tuple((at(start), at(end)) for start, end in self.grain),
            lying=not self.lying,
        )


def around(corners: Sequence[Point]) -> Iterator[Segment]:
    """Every edge of an outline, the last back to the first corner."""
    yield from zip(corners, [*corners[1:], corners[0]], strict=True)


def marked(each: Pattern) -> Marked:
    """A panel in mm. The lower edge has two notches, the others one, in their middles."""
    left = min(x for x, _ in each.cut.points)
    low = min(y for _, y in each.cut.points)

    def at(point: Point) -> Point:
        return (point[0] - left) * MM, (point[1] - low) * MM

    cut = tuple(at(point) for point in each.cut.points)
    sewn = tuple(at(point) for point in flat(each.panel))
    return Marked(
        letter=each.letter,
        count=each.count,
        cut=cut,
        sewn=sewn,
        notches=tuple(notches(each, sewn)),
        grain=tuple(grain(sewn)),
    )


def notches(each: Pattern, sewn: Sequence[Point]) -> Iterator[Segment]:
    """Short lines from the line to cut toward the line to sew."""
    floor, top = min(y for _, y in sewn), max(y for _, y in sewn)
    for start, end in around(sewn):
        low = start[1] == end[1] == floor
        name = "bottom" if low else "top" if start[1] == end[1] == top else "side"
        share = each.allowances[name] * MM
        length = math.dist(start, end)
        if share < LEAST or length < 4 * PAIR:
            continue
        along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
        out = (along[1], -along[0])  # the outline runs counter-clockwise
        for aside in (-PAIR / 2, PAIR / 2) if low else (0.0,):
            middle = [(a + b) / 2 + aside * u for a, b, u in zip(start, end, along, strict=True)]
            depth = share - min(NOTCH, share)
            yield (
                (middle[0] + out[0] * share, middle[1] + out[1] * share),
                (middle[0] + out[0] * depth, middle[1] + out[1] * depth),
            )


def grain(sewn: Sequence[Point]) -> Iterator[Segment]:
    """An upright arrow down the middle, a quarter of the way from either end."""
    xs, ys = zip(*sewn, strict=True)
    middle, tall = (max(xs) + min(xs)) / 2, max(ys) - min(ys)
    low, high = min(ys) + tall / 4, max(ys) - tall / 4
    yield (middle, low), (middle, high)
    head = min(HEAD, tall / 6)
    for end, way in ((high, -1), (low, 1)):
        for side in (-1, 1):
            yield (middle, end), (middle + side * head / 2, end + way * head)
