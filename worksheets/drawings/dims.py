"""Dimension lines that look for a free place beside what they measure."""

from __future__ import annotations

from collections.abc import Sequence

from worksheets.drawings.labels import EM, Box, Placer, text_width
from worksheets.drawings.svg import TICK, Canvas

SMALL = 11.0


def rise(
    canvas: Canvas,
    placer: Placer,
    box: Box,
    span: tuple[float, float],
    words: str,
    also: Sequence[Box] = (),
) -> bool:
    """Up from the ground, beside ``box``: ``span`` is ground and level."""
    ground, level = span
    steps = [(box.left - 8 - step, box.right + 22 + step) for step in (0, 20, 40, 60)]
    for x in (x for sides in steps for x in sides):
        taken = upright(x, ground, level, words)
        if placer.free(taken, also):
            canvas.line((min(x, box.left) - 3, level), (max(x, box.left) + 3, level), "dim")
            canvas.dimension((x, ground), (x, level), words)
            placer.take(taken)
            return True
    return False


def upright(x: float, ground: float, level: float, words: str) -> Box:
    """What an upright dimension line takes up: its words stand beside it, turned, or lie level
    where the line is too short for them."""
    long, middle = text_width(words, SMALL), (level + ground) / 2
    low, high = max(level, ground) - 1, min(level, ground)
    if low - high < len(words) * SMALL * EM + 3 * TICK:
        return Box(x - long - 10, min(high, middle - 8), x + 5, max(low, middle + 5))
    half = long / 2 + 2
    return Box(x - 16, min(high, middle - half), x + 5, max(low, middle + half))


def across(canvas: Canvas, placer: Placer, box: Box, words: str) -> bool:
    """The width of ``box``, above it or below."""
    half, middle = text_width(words, SMALL) / 2 + 2, (box.left + box.right) / 2
    for y in (box.top - 7, box.bottom + 17, box.top - 25, box.bottom + 35):
        ends = (min(box.left, middle - half), max(box.right, middle + half))
        taken = Box(ends[0] - 2, y - 16, ends[1] + 2, y + 5)
        if placer.free(taken):
            canvas.dimension((box.left, y), (box.right, y), words)
            placer.take(taken)
            return True
    return False
