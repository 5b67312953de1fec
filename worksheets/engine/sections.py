"""Metal sections: cross-section areas in m², from sizes in m. Mass per metre is area × density."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Shape = Literal["tube", "round_tube", "flat", "angle", "round_bar"]
CORNERS = 4 - math.pi  # what four rounded corners of radius 1 lack of a square of side 2


class SectionError(ValueError):
    """Sizes that make no section; ``size`` is the one to change."""

    def __init__(self, size: str, says: str) -> None:
        super().__init__(says)
        self.size = size


def rounded(width: float, height: float, radius: float) -> float:
    """Area in m² of a rectangle whose four corners are rounded.

    >>> round(rounded(2.0, 2.0, 1.0), 6) == round(math.pi, 6)
    True
    """
    return width * height - CORNERS * radius**2


def tube(width: float, height: float, wall: float, radius: float) -> float:
    """Area in m² of a square or rectangular tube; ``radius`` is that of its outside corners.

    B·H - (4-π)Ro² less (B-2t)(H-2t) - (4-π)Ri² with Ri = Ro - t, all above 0. A radius smaller
    than the wall leaves the inside corner sharp. Raises SectionError where nothing stays hollow
    or the corners meet. Source: supplier's table of square tube, met to 0.01 lb/ft.

    >>> lb_ft = tube(1.0, 1.0, 0.1, 0.2) / 144 * 490  # a 1 in tube, in inches
    >>> round(lb_ft, 2)
    1.14
    """
    if 2 * wall >= min(width, height):
        raise SectionError("wall", "Twice the wall is more than the side: nothing stays hollow.")
    if 2 * radius > min(width, height):
        raise SectionError("radius", "The rounded corners meet: the radius is over half the side.")
    inside = max(0.0, radius - wall)
    return rounded(width, height, radius) - rounded(width - 2 * wall, height - 2 * wall, inside)


def round_tube(diameter: float, wall: float) -> float:
    """Area in m² of a round tube or pipe, π·t·(D - t); D is the outside diameter.

    Raises SectionError where the wall is over half the diameter. Source: piping reference page,
    10.68 (D - t) t lb/ft in inches.

    >>> round(round_tube(1.0, 0.065) / 144 * 490, 3)
    0.65
    """
    if 2 * wall >= diameter:
        raise SectionError(
            "wall", "Twice the wall is more than the diameter: nothing stays hollow."
        )
    return math.pi * wall * (diameter - wall)


def flat(width: float, thickness: float) -> float:
    """Area in m² of a flat bar.

    >>> round(flat(1.5, 0.1875) / 144 * 490, 4)
    0.957
    """
    return width * thickness


def angle(one: float, other: float, thickness: float) -> float:
    """Area in m² of an angle, t·(a + b - t), without the fillet and the rounded toes.

    Raises SectionError where the thickness is that of a leg. Source: AISC Manual part 1, L2×2×1/4
    weighs 3.19 lb/ft (from memory).

    >>> round(angle(2.0, 2.0, 0.25) / 144 * 490, 2)
    3.19
    """
    if thickness >= min(one, other):
        raise SectionError("wall", "The thickness is more than the shorter leg.")
    return thickness * (one + other - thickness)


def round_bar(diameter: float) -> float:
    """Area in m² of a solid round bar.

    >>> round(round_bar(0.5) / 144 * 490, 3)
    0.668
    """
    return math.pi / 4 * diameter**2


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One bought section. ``width`` is the side, diameter or leg; sizes in m, density in kg/m³."""

    shape: Shape
    width: float
    height: float = 0.0  # the other side or leg; as the first where it is left out
    wall: float = 0.0
    radius: float = 0.0
    density: float

    @property
    def area(self) -> float:
        """In m²; raises SectionError for sizes that make no section."""
        other = self.height or self.width
        if self.shape == "tube":
            return tube(self.width, other, self.wall, self.radius)
        if self.shape == "round_tube":
            return round_tube(self.width, self.wall)
        if self.shape == "flat":
            return flat(self.width, self.wall)
        if self.shape == "angle":
            return angle(self.width, other, self.wall)
        return round_bar(self.width)

    @property
    def line_mass(self) -> float:
        """In kg/m.

        >>> round(Section(shape="tube", width=0.05, wall=0.003, radius=0.006, density=7850)
        ...       .line_mass, 2)
        4.25
        """
        return self.area * self.density


def corner_radius(wall: float, steps: Sequence[Sequence[float | None]]) -> float:
    """The outside corner radius that a table reckons with: so many walls, by thickness in m.

    >>> corner_radius(0.008, [[0.006, 2.0], [0.01, 2.5], [None, 3.0]])
    0.02
    """
    times = next(times for most, times in steps if most is None or wall <= most + 1e-9)
    return wall * (times or 0.0)


def in_other_metal(line_mass: float, density: float, other: float) -> float:
    """Mass per metre of the same section in another metal, from both densities.

    >>> round(in_other_metal(3.06, 492, 170), 3)
    1.057
    """
    return line_mass / density * other
