"""Dimension lines that look for a free place beside what they measure."""

from __future__ import annotations

from collections.abc import Sequence

from worksheets.drawings.labels import Box, Placer, text_width
from worksheets.drawings.svg import Canvas

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
    middle, half = (level + ground) / 2, text_width(words, SMALL) / 2 + 2
    low, high = max(level, ground) - 1, min(level, ground)
    steps = [(box.left - 8 - step, box.right + 22 + step) for step in (0, 20, 40, 60)]
    for x in (x for sides in steps for x in sides):
        taken = Box(x - 16, min(high, middle - half), x + 5, max(low, middle + half))
        if placer.free(taken, also):
            canvas.line((min(x, box.left) - 3, level), (max(x, box.left) + 3, level), "dim")
            canvas.dimension((x, ground), (x, level), words)
            placer.take(taken)
            return True
    return False


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
