"""Small paths of the marks."""

from __future__ import annotations

from schedules.timeline.packing import Item
from schedules.timeline.shapes import Box, Metrics


def tails_of(item: Item) -> list[tuple[float, float]]:
    ends = [(item.tail0, item.x0), (item.x1, item.tail1)]
    return [(a, b) for a, b in ends if b - a >= 1]


def caps_of(item: Item) -> list[float]:
    return [
        round(end, 1)
        for end, bar in ((item.tail0, item.x0), (item.tail1, item.x1))
        if abs(end - bar) >= 1
    ]


def tail_path(a: float, b: float, y: float, gap: Box | None) -> str:
    """A tail, without the stretch behind its own label."""
    a, b = round(a, 1), round(b, 1)
    if gap is None or gap.x1 < a or b < gap.x0:
        return f"M{a:g} {y:g}H{b:g}"
    left, right = round(gap.x0 - 4, 1), round(gap.x1 + 5, 1)
    before = f"M{a:g} {y:g}H{left:g}" if left - a >= 3 else ""
    after = f"M{right:g} {y:g}H{b:g}" if b - right >= 1 else ""
    return before + after


def diamond(box: Box, sizes: Metrics) -> str:
    x, y = (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2
    half = (box.x1 - box.x0) / 2
    return f"M{x:g} {y - half:g}l{half:g} {half:g}l{-half:g} {half:g}l{-half:g} {-half:g}z"


def bracket(box: Box) -> str:
    """A hire: a line over all that it holds, its ends turned down."""
    return f"M{box.x0:g} {box.y1:g}V{box.y0:g}H{box.x1:g}V{box.y1:g}"
