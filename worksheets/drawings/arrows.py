"""Arrows for forces: a shaft and a filled head, in the direction in which the force acts."""

from __future__ import annotations

import math

from worksheets.drawings.svg import Canvas, Point

HEAD = 7.0  # length of the head, in drawing units


def arrow(canvas: Canvas, start: Point, end: Point, kind: str = "load") -> None:
    """Nothing is drawn for an arrow of no length."""
    (x1, y1), (x2, y2) = start, end
    length = math.hypot(x2 - x1, y2 - y1)
    if length < 1e-9:
        return
    head = min(HEAD, length)
    ux, uy = (x2 - x1) / length, (y2 - y1) / length
    back = (x2 - ux * head, y2 - uy * head)
    canvas.line(start, back, kind)
    side = head * 0.45
    wings = [(back[0] - uy * side, back[1] + ux * side), (back[0] + uy * side, back[1] - ux * side)]
    canvas.polygon([end, *wings], f"{kind}-head")
