"""Trapezoids in rows across the bolt, each turned head to tail to its neighbour."""

from __future__ import annotations

import math
from dataclasses import dataclass

CLOSE = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """``spare`` is the width left beside a full row; ``length`` runs along the bolt."""

    per_row: int
    rows: int
    length: float
    spare: float


def row_width(top: float, bottom: float, count: int, *, turned: bool) -> float:
    """Width of ``count`` trapezoids side by side: n(a+b)/2 + |b-a|/2 head to tail, else n·max.

    >>> row_width(18, 30, 2, turned=True), row_width(18, 30, 2, turned=False)
    (54.0, 60)
    """
    if not turned:
        return count * max(top, bottom)
    return count * (top + bottom) / 2 + abs(bottom - top) / 2


def most_in_a_row(top: float, bottom: float, strip: float, *, turned: bool) -> int:
    """How many fit side by side; 0 where not one does.

    >>> most_in_a_row(18, 30, 54, turned=True), most_in_a_row(18, 30, 54, turned=False)
    (2, 1)
    """
    if turned:
        count = (strip - abs(bottom - top) / 2) / ((top + bottom) / 2)
    else:
        count = strip / max(top, bottom)
    return max(0, math.floor(count * (1 + CLOSE)))


def in_rows(
    top: float, bottom: float, height: float, count: int, strip: float, *, turned: bool
) -> Rows:
    """``count`` equal trapezoids in rows. ``turned`` is forbidden where the cloth has a direction.

    Any length unit. Raises ValueError where a single one is wider than the strip.

    >>> in_rows(18, 30, 36, 8, 54, turned=True)
    Rows(per_row=2, rows=4, length=144, spare=0.0)
    """
    per_row = most_in_a_row(top, bottom, strip, turned=turned)
    if per_row < 1:
        raise ValueError(f"The piece is {max(top, bottom):g} wide; the strip is {strip:g}.")
    rows = -(-count // per_row)
    full = min(per_row, count)
    return Rows(
        per_row=per_row,
        rows=rows,
        length=rows * height,
        spare=max(0.0, strip - row_width(top, bottom, full, turned=turned)),
    )
