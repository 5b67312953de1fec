"""How a group of anchors in a wall shares a load: newtons and metres, x to the right, y upwards.

The plate is taken as rigid and every anchor as equally stiff. What the wall itself can hold
(breakout, edges, old brick) is not reckoned: it comes typed from the anchor's own report.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

Point = tuple[float, float]
CLOSEST = 1e-6  # m: two anchors nearer than this are one


def centroid(bolts: Sequence[Point]) -> Point:
    """Middle of the group.

    >>> centroid([(0.0, 0.0), (2.0, 4.0)])
    (1.0, 2.0)
    """
    count = len(bolts)
    return math.fsum(x for x, _ in bolts) / count, math.fsum(y for _, y in bolts) / count


def in_plane(bolts: Sequence[Point], load: Point, at: Point) -> list[Point]:
    """The force on each anchor, in N, of a load in the plane of the wall that acts ``at``.

    Direct share P/n, and M r/Σr² across the line to the middle. Needs two anchors at least, apart.
    Sources: Bhandari, Design of Machine Elements, ch. 7; Shigley, ch. 8.

    >>> bolts = [(-0.1, -0.075), (0.1, -0.075), (0.1, 0.075), (-0.1, 0.075)]
    >>> round(max(math.hypot(*f) for f in in_plane(bolts, (0.0, 10000.0), (0.5, 0.0))), 1)
    12093.4
    """
    (cx, cy), (px, py), count = centroid(bolts), load, len(bolts)
    polar = math.fsum((x - cx) ** 2 + (y - cy) ** 2 for x, y in bolts)
    if count < 2 or polar < CLOSEST**2:
        raise ValueError("A group needs at least two anchors, apart from each other.")
    moment = (at[0] - cx) * py - (at[1] - cy) * px
    turn = moment / polar
    return [(px / count - turn * (y - cy), py / count + turn * (x - cx)) for x, y in bolts]


def added(direct: float, turning: float, cosine: float) -> float:
    """Length of two forces together, from the cosine of the angle between them.

    >>> added(3.0, 4.0, 0.0)
    5.0
    """
    return math.sqrt(direct**2 + turning**2 + 2 * direct * turning * cosine)


def tension(heights: Sequence[float], moment: float, pull: float = 0.0) -> list[float]:
    """Pull on each anchor, in N, from ``heights`` in m above the edge about which a bracket tips.

    ``moment`` in N·m acts about that edge and includes that of ``pull``, a force away from the wall
    in N. While the edge still presses on the wall, Tᵢ = M lᵢ/Σl². Where the pull is so great that
    it does not, force and moment are shared about the middle of the group instead; both agree
    where one passes into the other. Source: Bhandari ch. 7; statics.

    >>> [round(t, 1) for t in tension([0.55, 0.55, 0.05, 0.05], 25000 * 0.5)]
    [11270.5, 11270.5, 1024.6, 1024.6]
    """
    squares = math.fsum(height**2 for height in heights)
    if min(heights) < 0 or squares < CLOSEST**2:
        raise ValueError("The edge must lie below the anchors.")
    leaning = [moment * height / squares for height in heights]
    return leaning if math.fsum(leaning) >= pull else free_tension(heights, moment, pull)


def free_tension(heights: Sequence[float], moment: float, pull: float) -> list[float]:
    """Pull on each anchor where the plate no longer presses on the wall."""
    count = len(heights)
    middle = math.fsum(heights) / count
    spread = math.fsum((height - middle) ** 2 for height in heights)
    rest = moment - pull * middle
    turn = rest / spread if spread > CLOSEST**2 else 0.0
    return [pull / count + turn * (height - middle) for height in heights]


def core_area(pull: float, shear: float, allowed: float) -> float:
    """Smallest area in m² of a bolt's core at an allowed tension in Pa: largest principal stress.

    Source: Bhandari ch. 7: σ/2 + √((σ/2)² + τ²) = allowed.

    >>> round(core_area(11270.5, 6250, 35e6) * 1e6, 1)
    401.4
    """
    return (pull / 2 + math.hypot(pull / 2, shear)) / allowed


@dataclass(frozen=True, slots=True, kw_only=True)
class Interaction:
    """Tension and shear together, as shares of what is allowed. ``used`` over 1 is too much."""

    total: float
    used: float

    @property
    def within(self) -> bool:
        return self.used <= 1 + 1e-12


def interaction(pull: float, shear: float, rule: Mapping[str, Any]) -> Interaction:
    """Of the two shares T/Ta and V/Va, by the ``power``, ``limit`` and ``ignore`` of a rule.

    No share alone can pass 1 so: a small one is left out, two greater ones pass the limit.
    Source: ACI 318 anchor chapter (from memory); the report's own equation rules.

    >>> interaction(0.6, 0.6, {"power": 1.0, "limit": 1.2, "ignore": 0.2}).within
    True
    >>> interaction(0.9, 0.4, {"power": 1.0, "limit": 1.2, "ignore": 0.2}).within
    False
    """
    if min(pull, shear) < 0:
        raise ValueError("Shares of what is allowed cannot be below 0.")
    total = pull ** rule["power"] + shear ** rule["power"]
    if min(pull, shear) <= rule["ignore"]:
        return Interaction(total=total, used=max(pull, shear))
    return Interaction(total=total, used=total / rule["limit"])
