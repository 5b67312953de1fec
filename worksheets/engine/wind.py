"""Wind on a sign, wall or piece that stands, and what holds it: newtons, metres, pascals.

Static pressures of the codes only. Gusts between buildings, shaking by vortices, fatigue, ice and
uplift of canopies are not covered.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

AIR = 1.225  # kg/m³ at 15 °C and sea level, International Standard Atmosphere
SIXTH = 6.0  # the middle third: beyond a sixth of the base it lifts on one side


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """An area that meets the wind, in m², and the height of its centre above the foot, in m."""

    area: float
    centre: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Gusts:
    """The steps of EN 1991-1-4: factors, mean wind in m/s, pressures in Pa."""

    roughness: float
    terrain: float
    turbulence: float
    mean: float
    basic: float
    peak: float


def exposure_coefficient(height: float, exposure: str, code: Mapping[str, Any]) -> float:
    """Kz, of ``height`` in m above ground, by the constants of ``code`` (see rules, “wind”).

    Below 15 ft the value at 15 ft holds, as the code says; above the gradient height it is
    refused. Source: ASCE 7, Kz = 2.01 (z/zg)^(2/α).

    >>> of_c = {"alpha": 9.5, "zg": 274.32}
    >>> code = {"kz_factor": 2.01, "kz_from": 4.572, "exposures": {"C": of_c}}
    >>> round(exposure_coefficient(9.144, "C", code), 2)
    0.98
    """
    ground = code["exposures"][exposure]
    if not 0 <= height <= ground["zg"]:
        raise ValueError(f"Kz holds from the ground to {ground['zg']:.0f} m.")
    above = max(height, code["kz_from"])
    return float(code["kz_factor"] * (above / ground["zg"]) ** (2 / ground["alpha"]))


def velocity_pressure(speed: float, coefficient: float, half_density: float) -> float:
    """q in Pa of a wind in m/s: half the density of air × coefficients × V².

    Source: ASCE 7, 0.613 Kz Kzt Kd V² (SI), the same as 0.00256 in psf and mph.

    >>> round(velocity_pressure(44.704, 0.9 * 0.85, 0.613))
    937
    """
    return half_density * coefficient * speed**2


def solid_share(solidity: float) -> float:
    """Factor on the force of a face with openings; ``solidity`` from 0 to 1 is the solid share.

    Source: ASCE 7 figure for solid signs: 1 − (1 − ε)^1.5, where openings are under 30 %.

    >>> round(solid_share(0.7), 4), solid_share(1.0)
    (0.8357, 1.0)
    """
    if not 0 < solidity <= 1:
        raise ValueError("The solid share lies between 0 and 1.")
    return float(1 - (1 - solidity) ** 1.5)


def gusts(
    basic: float, height: float, z0: float, code: Mapping[str, Any], *, least: float = 0.0,
    hills: float = 1.0,
) -> Gusts:  # fmt: skip
    """Peak velocity pressure from the basic wind in m/s at ``height`` in m over roughness ``z0``.

    Below ``least`` the value there holds, as the code says. Source: EN 1991-1-4 expressions 4.3 to
    4.10. Raises ValueError at or below z0, and above 200 m.

    >>> code = {"kr_factor": 0.19, "kr_power": 0.07, "z0_of_ii": 0.05, "turbulence": 1.0,
    ...         "peak": 7.0, "density": 1.25}
    >>> round(gusts(33.0, 5.0, 0.01, code).peak)
    1611
    """
    above = max(height, least)
    if not z0 < above <= 200:
        raise ValueError("The formula holds from the height of the roughness to 200 m.")
    roughness = code["kr_factor"] * (z0 / code["z0_of_ii"]) ** code["kr_power"]
    terrain = roughness * math.log(above / z0)
    turbulence = code["turbulence"] / (hills * math.log(above / z0))
    mean = terrain * hills * basic
    half = 0.5 * code["density"]
    peak = (1 + code["peak"] * turbulence) * half * mean**2
    return Gusts(roughness=roughness, terrain=terrain, turbulence=turbulence, mean=mean,
                 basic=half * basic**2, peak=peak)  # fmt: skip


def drag(shape: float, area: float, speed: float, density: float = AIR) -> float:
    """Force in N on an area in m² of drag coefficient ``shape`` in a wind of ``speed`` m/s.

    >>> round(drag(1.98, 1.2, 15.0), 1)
    327.4
    """
    return 0.5 * density * speed**2 * shape * area


def overturning(pressure: float, faces: Iterable[Face]) -> float:
    """Moment in N·m about the foot, of one pressure in Pa on every face."""
    return math.fsum(pressure * face.area * face.centre for face in faces)


def arm(faces: Iterable[Face]) -> float:
    """Height in m at which the whole force acts."""
    every = list(faces)
    return overturning(1.0, every) / math.fsum(face.area for face in every)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stability:
    """A piece that only stands: weight and force in N, lengths in m, moments in N·m."""

    overturning: float
    resisting: float
    eccentricity: float
    by_overturning: float  # how many times the wind would have to be, to tip it
    by_sliding: float
    toe: float  # Pa under the edge; infinite where it tips


def stability(
    *, force: float, moment: float, weight: float, width: float, length: float, friction: float
) -> Stability:
    """Against tipping about the edge of a base ``width`` m deep (along the wind), and sliding.

    Raises ValueError unless weight, width and length are above 0. Source: statics.

    >>> round(stability(force=120, moment=108, weight=45 * 9.81, width=0.9, length=0.9,
    ...                 friction=0.3).by_sliding, 3)
    1.104
    """
    if min(weight, width, length) <= 0:
        raise ValueError("Weight and base must be more than 0.")
    resisting = weight * width / 2
    return Stability(
        overturning=moment,
        resisting=resisting,
        eccentricity=moment / weight,
        by_overturning=resisting / moment if moment > 0 else math.inf,
        by_sliding=friction * weight / force if force > 0 else math.inf,
        toe=toe_pressure(weight, width, length, moment / weight),
    )


def toe_pressure(weight: float, width: float, length: float, eccentricity: float) -> float:
    """Greatest pressure in Pa below a base in m: W/BL (1 + 6e/B), beyond the middle third
    2W/(3L(B/2 − e)), and infinite where the weight falls outside.

    >>> toe_pressure(12.0, 2.0, 3.0, 0.0)
    2.0
    """
    if eccentricity >= width / 2:
        return math.inf
    if eccentricity > width / SIXTH:
        return 2 * weight / (3 * length * (width / 2 - eccentricity))
    return weight / (width * length) * (1 + SIXTH * eccentricity / width)


def weight_for_overturning(moment: float, width: float, factor: float) -> float:
    """Weight in N that resists ``factor`` times the moment."""
    return factor * moment / (width / 2)


def weight_for_sliding(force: float, friction: float, factor: float) -> float:
    """Weight in N whose friction resists ``factor`` times the force."""
    return factor * force / friction


def embedment(
    force: float, height: float, soil: float, width: float, *, coefficient: float, lever: float
) -> tuple[float, float]:
    """(A, depth) in m of a post in soil, not held at the ground, at a soil pressure in Pa.

    ``force`` in N acts ``height`` m above ground on a post ``width`` m wide or thick. Source:
    IBC 1807.3.2.1: A = 2.34 P/(S₁ b), d = A/2 [1 + √(1 + 4.36 h/A)].

    >>> a, depth = embedment(7739.9, 1.271, 19152, 1.6764, coefficient=2.34, lever=4.36)
    >>> round(a, 2), round(depth, 2)
    (0.56, 1.21)
    """
    if min(force, soil, width) <= 0 or height < 0:
        raise ValueError("Force, soil and width must be more than 0, the height not less.")
    a = coefficient * force / (soil * width)
    return a, a / 2 * (1 + math.sqrt(1 + lever * height / a))


def embedment_in(
    force: float, height: float, rate: float, width: float, *, coefficient: float, lever: float,
    deepest: float,
) -> float:  # fmt: skip
    """Depth in m where the soil takes ``rate`` Pa per m of depth, counted at a third of the depth.

    The soil pressure grows with the depth that it decides, so the depth is sought: the formula's
    answer falls as the depth rises, so there is one. The pressure grows no further below
    ``deepest``.
    """

    def asked(depth: float) -> float:
        soil = rate * min(depth, deepest) / 3
        return embedment(force, height, soil, width, coefficient=coefficient, lever=lever)[1]

    low, high = 1e-3, 1.0
    while asked(high) > high:
        high *= 2
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if asked(middle) > middle else (low, middle)
    return high


def round_weight(diameter: float, depth: float, specific: float) -> float:
    """Weight in N of a round footing in m, of ``specific`` N/m³; or mass, from a density.

    >>> round(round_weight(1.0, 1.0, 2400.0))
    1885
    """
    return math.pi / 4 * diameter**2 * depth * specific
