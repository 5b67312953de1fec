"""Planters: volumes in m³ from inside measures in m, and densities in kg/m³."""

from __future__ import annotations

import math

WATER = 1000.0  # kg/m³


class SoilError(ValueError):
    """A planter or a soil that cannot be; the message is the sentence to show."""


def box(length: float, width: float, depth: float) -> float:
    """Volume of a box.

    >>> box(1.2, 0.6, 0.5)
    0.36
    """
    return length * width * depth


def round_pot(diameter: float, depth: float) -> float:
    """Volume of a cylinder.

    >>> round(round_pot(0.9144, 0.4572) * 1602, 1)  # 3 ft by 18 in at 100 lb/ft³, in kg
    481.0
    """
    return math.pi / 4 * diameter**2 * depth


def tapered(top: float, bottom: float, depth: float) -> float:
    """Volume between two level areas in m²: the frustum, D/3 · (A₁ + A₂ + √(A₁ · A₂)).

    Source: CRC Concise Encyclopedia of Mathematics, “Pyramidal frustum”.

    >>> round(tapered(4.0, 1.0, 3.0), 6)
    7.0
    """
    return depth / 3 * (top + bottom + math.sqrt(top * bottom))


def footprint(shape: str, length: float, width: float) -> float:
    """Area in m² of the upper edge; a round pot’s ``length`` is its diameter.

    >>> footprint("box", 1.2, 0.5)
    0.6
    """
    return math.pi / 4 * length**2 if shape == "round" else length * width


def porosity(dry: float, gravity: float, water: float = WATER) -> float:
    """Share of pores from the dry density and the specific gravity of the grains.

    ``dry`` is above 0 and below the density of the grains; else SoilError.

    >>> round(porosity(1300.0, 2.6), 3)
    0.5
    """
    if not 0 < dry < gravity * water:
        raise SoilError("Dry soil is lighter than its grains. Change the density or the gravity.")
    return 1 - dry / (gravity * water)


def saturated(dry: float, gravity: float, water: float = WATER) -> float:
    """Density with every pore full of water; a drained mix holds less.

    >>> round(saturated(1300.0, 2.6))
    1800
    """
    return dry + porosity(dry, gravity, water) * water


def water_mass(volume: float) -> float:
    """Mass in kg of fresh water: 62.4 lb/ft³, 8.345 lb/gal.

    >>> water_mass(0.01)
    10.0
    """
    return volume * WATER
