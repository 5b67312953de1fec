"""What fills holes and joints: concrete, adhesive, grout, and the tiles between.

Lengths in m, areas in m², volumes in m³, densities in kg/m³.
"""

from __future__ import annotations

import math

HAIR = 1e-9


class FillError(ValueError):
    """Sizes that do not go together; the message is the sentence to show."""


def disc(diameter: float) -> float:
    """Area of a round hole, rod or post.

    >>> round(disc(0.018) * 0.125 * 1e6, 3)  # mL of an 18 mm hole 125 mm deep
    31.809
    """
    return math.pi / 4 * diameter**2


def poured(area: float, depth: float, taken: float = 0.0) -> float:
    """Concrete in m³ in one hole of ``area`` and ``depth``, less what a post in it takes.

    Source: a builders’ page, a pier of 12 in, 33 in deep.

    >>> round(poured(disc(12 * 0.0254), 33 * 0.0254) / 0.3048**3, 2)  # ft³
    2.16
    """
    if not 0 <= taken < area * depth:
        raise FillError("The post fills the whole hole.")
    return area * depth - taken


def whole(need: float, each: float) -> int:
    """Whole bags, cartridges or tiles; one that is just filled by rounding is not bought twice.

    >>> whole(2.15, 0.30), whole(2.15, 0.60), whole(0.3 * 3, 0.3)
    (8, 4, 3)
    """
    if each <= 0:
        raise FillError("A pack holds more than nothing.")
    return math.ceil(need / each - HAIR)


def annulus(hole: float, rod: float, depth: float) -> float:
    """The gap round a rod in its hole, in m³: the least adhesive that could ever do.

    >>> round(annulus(0.018, 0.016, 0.125) * 1e6, 3)  # mL
    6.676
    """
    if not 0 < rod < hole:
        raise FillError("A hole is wider than its rod.")
    return (disc(hole) - disc(rod)) * depth


def dispensed(hole: float, depth: float, share: float) -> float:
    """Adhesive in m³ put into one hole before the rod: a share of the empty hole.

    Half to two thirds, says an anchor maker’s sheet; the rod then pushes it up. That is far more
    than the gap round the rod: half of an 18 mm hole is 2.4 times the gap at a 16 mm rod.

    >>> round(dispensed(0.018, 0.125, 0.5) / annulus(0.018, 0.016, 0.125), 1)
    2.4
    """
    if not 0 < share <= 1:
        raise FillError("The share of the hole that is filled is above 0 and up to 100 %.")
    return disc(hole) * depth * share


def joint_rule(long: float, short: float, joint: float, depth: float) -> float:
    """Grout in m³ a m² of tile by the trade’s rule: (A + B) / (A · B) · C · D.

    It counts the joint on top of the tile, so it is a little more than fits: see joint_exact.
    Source: a tile grout page.

    >>> round(joint_rule(0.02, 0.02, 0.002, 0.004) * 1600, 2)  # kg/m² at 1.6 kg/L
    1.28
    """
    positive(long, short, depth)
    return (long + short) / (long * short) * joint * depth


def joint_exact(long: float, short: float, joint: float, depth: float) -> float:
    """Grout in m³ a m² that fits into the joints: (A + B + C) / ((A + C) · (B + C)) · C · D.

    >>> round(1 - joint_exact(0.02, 0.02, 0.002, 0.004) / joint_rule(0.02, 0.02, 0.002, 0.004), 2)
    0.13
    """
    positive(long, short, depth)
    return (long + short + joint) / ((long + joint) * (short + joint)) * joint * depth


def joint_share(share: float, depth: float) -> float:
    """Grout in m³ a m² between pieces of any shape: the joints’ share of the area, times depth."""
    if not 0 <= share < 1:
        raise FillError("The joints’ share is from 0 to below 100 %.")
    return share * depth


def tiles(area: float, long: float, short: float, joint: float) -> float:
    """Tiles for an area, not yet whole: each takes its own size and one joint each way.

    >>> round(tiles(10.0, 0.1, 0.1, 0.003), 1)
    942.6
    """
    positive(long, short, 1.0)
    return area / ((long + joint) * (short + joint))


def positive(*sizes: float) -> None:
    if any(size <= 0 for size in sizes):
        raise FillError("A tile has sides and a depth above nothing.")
