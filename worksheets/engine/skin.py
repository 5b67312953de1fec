"""A sewn skin on straight columns: the true flat size of every panel between two rings.

The columns stand in a regular ring; a panel spans from column to column and from ring to ring.
Its upper and lower edges are parallel, so it is flat: a trapezoid, or a triangle at a point.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

Point = tuple[float, float]
HAIR = 1e-6  # m; an edge no longer than this is a point


class RingError(ValueError):
    """Rings that make no skin; ``row`` counts from 0, ``column`` is what to change there."""

    def __init__(self, row: int, column: Literal["radius", "height"], says: str) -> None:
        super().__init__(says)
        self.row, self.column = row, column


@dataclass(frozen=True, slots=True)
class Ring:
    """``radius`` from the middle to the columns and ``height``, both in m."""

    radius: float
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """True flat sizes in m: ``edge`` runs along the column, ``slant`` down the middle."""

    top: float
    bottom: float
    slant: float
    edge: float

    @property
    def diagonal(self) -> float:
        return math.hypot(self.slant, (self.top + self.bottom) / 2)

    @property
    def area(self) -> float:
        """In m²."""
        return (self.top + self.bottom) / 2 * self.slant

    @property
    def width(self) -> float:
        return max(self.top, self.bottom)

    def scaled(self, by: float) -> Panel:
        """The same shape with every length multiplied."""
        return Panel(
            top=self.top * by, bottom=self.bottom * by, slant=self.slant * by, edge=self.edge * by
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Skin:
    """Every panel from the top down, and what the whole skin comes to, in m and m²."""

    columns: int
    rings: tuple[Ring, ...]
    panels: tuple[Panel, ...]

    @property
    def count(self) -> int:
        return self.columns * len(self.panels)

    @property
    def area(self) -> float:
        return self.columns * sum(panel.area for panel in self.panels)

    @property
    def column_seams(self) -> float:
        """Length in m of the seams along the columns."""
        return self.columns * sum(panel.edge for panel in self.panels)

    @property
    def ring_seams(self) -> float:
        """Length in m of the seams at the rings between the top and the bottom one."""
        return self.columns * sum(panel.bottom for panel in self.panels[:-1])

    @property
    def hems(self) -> float:
        """Length in m of the top and the bottom hem."""
        return self.columns * (self.panels[0].top + self.panels[-1].bottom)


def chord(radius: float, columns: int) -> float:
    """Straight distance in m from column to column, 2 r sin(π/N).

    ``columns`` at least 3, ``radius`` in m and not below 0; ValueError otherwise.
    Source: table of chord factors, http://shopswarf.orcon.net.nz/spacing.html

    >>> round(chord(0.5, 7), 4)
    0.4339
    """
    if columns < 3 or radius < 0:
        raise ValueError("A skin needs at least 3 columns and radii of 0 or more.")
    return 2 * radius * math.sin(math.pi / columns)


def panel(columns: int, upper: Ring, lower: Ring) -> Panel:
    """The flat panel between two rings.

    slant = √(run² + Δh²) with run = (r₂ - r₁)·cos(π/N); edge = √((r₂ - r₁)² + Δh²).
    Source: CRC Concise Encyclopedia of Mathematics, “Pyramidal frustum”.

    >>> found = panel(6, Ring(0.0, 6.082763), Ring(6.0, 0.0))
    >>> round(found.slant, 4), round(found.bottom, 4), round(found.area, 3)
    (8.0, 6.0, 24.0)
    """
    wider, drop = lower.radius - upper.radius, upper.height - lower.height
    widths = [chord(ring.radius, columns) for ring in (upper, lower)]
    return Panel(
        top=widths[0] if widths[0] > HAIR else 0.0,
        bottom=widths[1] if widths[1] > HAIR else 0.0,
        slant=math.hypot(wider * math.cos(math.pi / columns), drop),
        edge=math.hypot(wider, drop),
    )


def checked(rings: Sequence[Ring]) -> None:
    """Raise RingError for the first ring that is out of order, with a sentence."""
    if len(rings) < 2:
        raise RingError(0, "radius", "A skin needs at least two rings. Write one more row.")
    for row, ring in enumerate(rings):
        if ring.radius < 0:
            raise RingError(row, "radius", f"Ring {row + 1} has a radius below 0.")
    for row, (upper, lower) in enumerate(pairwise(rings), start=1):
        if lower.height > upper.height - HAIR:
            level = lower.height - upper.height <= HAIR
            stands = "as high as" if level else "higher than"
            raise RingError(
                row,
                "height",
                f"Ring {row + 1} stands {stands} ring {row}. Write the rings from the top "
                "down, each lower than the one before.",
            )
        if max(upper.radius, lower.radius) <= HAIR:
            raise RingError(
                row,
                "radius",
                f"Rings {row} and {row + 1} are both a point, so there is no cloth between "
                "them. Give one of them a radius.",
            )


def skin(columns: int, rings: Sequence[Ring]) -> Skin:
    """The skin over ``rings``, written from the top down. Raises RingError and ValueError.

    >>> found = skin(8, [Ring(0.2, 2.8), Ring(1.0, 2.5), Ring(1.5, 2.1)])
    >>> found.count, round(found.area, 4), round(found.column_seams, 4)
    (16, 7.6073, 11.9577)
    """
    checked(rings)
    return Skin(
        columns=columns,
        rings=tuple(rings),
        panels=tuple(panel(columns, *pair) for pair in pairwise(rings)),
    )


def floor_area(columns: int, radius: float) -> float:
    """Area in m² of the regular outline of a ring, N/2·r²·sin(2π/N).

    >>> round(floor_area(6, 6.0), 2)
    93.53
    """
    return columns / 2 * radius**2 * math.sin(2 * math.pi / columns)


def flat(found: Panel) -> tuple[Point, ...]:
    """Corners of a panel lying flat, its lower edge on y = 0, counter-clockwise from below left.

    A panel that ends in a point has three corners.

    >>> flat(Panel(top=0.0, bottom=2.0, slant=3.0, edge=3.162))
    ((-1.0, 0.0), (1.0, 0.0), (0.0, 3.0))
    """
    half, upper = found.bottom / 2, found.top / 2
    below = ((-half, 0.0), (half, 0.0)) if found.bottom else ((0.0, 0.0),)
    above = ((upper, found.slant), (-upper, found.slant)) if found.top else ((0.0, found.slant),)
    return below + above


def edge_names(found: Panel) -> tuple[str, ...]:
    """Which edge follows each corner of ``flat``: bottom, side, top or side.

    >>> edge_names(Panel(top=0.0, bottom=2.0, slant=3.0, edge=3.162))
    ('bottom', 'side', 'side')
    """
    named = [("bottom", found.bottom), ("side", 1.0), ("top", found.top), ("side", 1.0)]
    return tuple(name for name, length in named if length)
