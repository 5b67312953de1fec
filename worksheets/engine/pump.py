"""Water in pipes: friction, the head a pump must make, where its curve crosses, and siphons.

Everything is in SI: m, m³/s, Pa, W, °C. Heads are in metres of the water itself.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from worksheets.engine.dimensions import GALLON, GRAVITY, INCH

GALLON_A_MINUTE = GALLON / 60  # m³/s
COLD_WATER = 1000.0  # kg/m³
SEA_LEVEL, SEA_LEVEL_AIR = 101_325.0, 288.15
LAPSE, EXPONENT = 0.0065, 5.25588  # US Standard Atmosphere 1976, to 11 km
LAMINAR_TO, TURBULENT_FROM = 2300.0, 4000.0
STEPS = 200  # of a halving search; ends at the last bit of a float long before

Curve = Sequence[tuple[float, float]]  # flow, head


class PumpError(ValueError):
    """Outside the range of a formula; the message says the range."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Of the Hazen-Williams formula; see fixtures/rules/pipes.json."""

    smooth_from: float = 100.0
    smooth_to: float = 150.0
    least_bore: float = 0.0127
    fastest: float = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    density: float  # kg/m³
    viscosity: float  # Pa·s


@dataclass(frozen=True, slots=True, kw_only=True)
class Friction:
    velocity: float
    reynolds: float
    factor: float
    head: float
    pressure: float


def water_at(temperature: float) -> Water:
    """Fresh water from 0 to 60 °C, from memory: density after Kell (1975), shortened, within
    0.1 %; viscosity after Vogel, within 2.5 %.

    >>> round(water_at(20.0).density), round(water_at(20.0).viscosity * 1e3, 2)
    (998, 1.0)
    """
    if not 0 <= temperature <= 60:
        raise PumpError("Water from 0 to 60 °C (32 to 140 °F) can be worked out.")
    density = 1000 * (
        1
        - (temperature + 288.9414)
        / (508929.2 * (temperature + 68.12963))
        * (temperature - 3.9863) ** 2
    )
    viscosity = 2.414e-5 * 10 ** (247.8 / (temperature + 273.15 - 140))
    return Water(density=density, viscosity=viscosity)


def velocity(flow: float, bore: float) -> float:
    """Mean speed in m/s of a flow in m³/s through a bore in m.

    >>> round(velocity(0.006, 0.05), 2)
    3.06
    """
    if bore <= 0:
        raise PumpError("A pipe’s bore is more than 0.")
    return flow / (math.pi / 4 * bore**2)


def hazen_williams(flow: float, bore: float, length: float, smoothness: float) -> float:
    """Head in m lost along a pipe. Nothing is refused.

    The form of US codes, ft per 100 ft = 0.2083·(100/C)^1.852·gpm^1.852/in^4.8655; the metric
    form h = 10.67·L·Q^1.852/(C^1.852·D^4.8704) gives about 1 % less.

    >>> round(hazen_williams(0.001, 0.04, 100.0, 150.0), 2)
    1.8
    """
    share = 0.2083 / 100 * (100 / smoothness) ** 1.852
    return float(share * length * (flow / GALLON_A_MINUTE) ** 1.852 / (bore / INCH) ** 4.8655)


def hazen_williams_checked(
    flow: float, bore: float, length: float, smoothness: float, limits: Limits
) -> float:
    """The same, refused outside the range in which the formula was measured.

    Raises PumpError for bores below 1/2 in, C outside 100 to 150, more than 3 m/s, and flows
    that are not turbulent in water near 15 °C.
    """
    if not limits.smooth_from <= smoothness <= limits.smooth_to:
        raise PumpError(
            f"C is from {limits.smooth_from:g} to {limits.smooth_to:g} in Hazen-Williams."
        )
    if bore < limits.least_bore - 1e-9:
        raise PumpError("Hazen-Williams is for bores of 1/2 in (12.7 mm) and more.")
    fast = velocity(flow, bore)
    if fast > limits.fastest + 1e-9:
        raise PumpError(
            f"The water runs at {fast:.2f} m/s; Hazen-Williams holds to {limits.fastest:g} m/s "
            f"({limits.fastest / 0.3048:.1f} ft/s)."
        )
    mild = water_at(15.0)
    swirl = mild.density * fast * bore / mild.viscosity
    if swirl < TURBULENT_FROM:
        raise PumpError(
            f"The flow is not turbulent (Reynolds number {swirl:,.0f}); Hazen-Williams holds "
            f"from {TURBULENT_FROM:,.0f} on."
        )
    return hazen_williams(flow, bore, length, smoothness)


def friction_factor(reynolds: float, relative: float) -> float:
    """Darcy’s friction factor: 64/Re to 2300, Colebrook above.

    Between 2300 and 4000 the flow may be either; Colebrook, the larger, is taken.

    >>> round(friction_factor(134_300, 4e-5), 4), friction_factor(1000.0, 0.01)
    (0.0172, 0.064)
    """
    if reynolds <= 0 or not 0 <= relative < 0.1:
        raise PumpError("A roughness is from 0 to a tenth of the bore, and the water must run.")
    if reynolds <= LAMINAR_TO:
        return 64 / reynolds
    root = -2 * math.log10(relative / 3.7 + 5.74 / reynolds**0.9)
    for _ in range(50):
        better = -2 * math.log10(relative / 3.7 + 2.51 * root / reynolds)
        if abs(better - root) < 1e-14:
            break
        root = better
    return 1 / root**2


def darcy_weisbach(
    flow: float, bore: float, length: float, roughness: float, water: Water
) -> Friction:
    """Friction of any flow in a round pipe: h = f·L/D·v²/2g. No flow loses nothing.

    >>> found = darcy_weisbach(0.006, 0.05, 60.0, 2e-6, Water(density=999.0, viscosity=1.138e-3))
    >>> round(found.head, 2), round(found.reynolds, -2)
    (9.82, 134100.0)
    """
    fast = velocity(flow, bore)
    if fast == 0:
        return Friction(velocity=0.0, reynolds=0.0, factor=0.0, head=0.0, pressure=0.0)
    swirl = water.density * fast * bore / water.viscosity
    factor = friction_factor(swirl, roughness / bore)
    head = factor * length / bore * fast**2 / (2 * GRAVITY)
    if swirl <= LAMINAR_TO:  # the same, but finite for a flow of next to nothing
        head = 32 * water.viscosity * length * fast / (water.density * GRAVITY * bore**2)
    return Friction(
        velocity=fast,
        reynolds=swirl,
        factor=factor,
        head=head,
        pressure=head * water.density * GRAVITY,
    )


def equivalent_length(counts: Sequence[tuple[float, float]], bore: float) -> float:
    """Length in m of pipe that loses as much as the fittings: (how many, length in bores).

    >>> equivalent_length([(4, 30), (1, 3)], 0.02)
    2.46
    """
    return sum(count * bores for count, bores in counts) * bore


def total_dynamic_head(lift: float, friction: float, outlet: float) -> float:
    """What the pump must make: the lift, the friction and the head at the outlet, in m.

    >>> total_dynamic_head(50.0, 10.0, 20.0)
    80.0
    """
    return lift + friction + outlet


def pressure_of(head: float, density: float = COLD_WATER) -> float:
    """Pressure in Pa of a head in m.

    >>> round(pressure_of(10.0))
    98066
    """
    return density * GRAVITY * head


def head_of(pressure: float, density: float = COLD_WATER) -> float:
    """Head in m of a pressure in Pa.

    >>> round(head_of(98066.5), 6)
    10.0
    """
    return pressure / (density * GRAVITY)


def power(flow: float, head: float, density: float, efficiency: float = 1.0) -> float:
    """Power in W that the pump draws: ρgQH/η. Raises PumpError for η outside 0 to 1.

    >>> round(power(0.006, 9.82, 999.0))
    577
    """
    if not 0 < efficiency <= 1:
        raise PumpError("An efficiency is more than 0 % and at most 100 %.")
    return density * GRAVITY * flow * head / efficiency


def on_curve(curve: Curve, flow: float) -> float:
    """Head of a pump at a flow, straight between the points of its sheet.

    Raises PumpError outside the points.

    >>> on_curve([(0.0, 4.0), (2.0, 2.0)], 1.0)
    3.0
    """
    for (low, above), (high, below) in itertools.pairwise(curve):
        if low <= flow <= high:
            return above + (below - above) * (flow - low) / (high - low)
    raise PumpError("The flow lies outside the points of the pump’s curve.")


def crossing(curve: Curve, system: Callable[[float], float]) -> float | None:
    """Flow at which a falling pump curve meets a system curve that does not fall, in m³/s.

    None where the pump cannot lift at its first point, or is still above the system at its last:
    compare the heads there to know which.

    >>> round(crossing([(0.0, 4.0), (2.0, 2.0)], lambda flow: 1.0 + flow), 9)
    1.5
    """
    low, high = curve[0][0], curve[-1][0]
    if on_curve(curve, low) < system(low) or on_curve(curve, high) > system(high):
        return None
    for _ in range(STEPS):
        middle = (low + high) / 2
        if on_curve(curve, middle) > system(middle):
            low = middle
        else:
            high = middle
    return (low + high) / 2


def air_pressure(altitude: float) -> float:
    """Mean pressure in Pa at an altitude in m from -400 to 5000 (US Standard Atmosphere 1976).

    >>> round(air_pressure(1500.0), -1)
    84560.0
    """
    if not -400 <= altitude <= 5000:
        raise PumpError("Altitudes from -400 to 5000 m (-1,300 to 16,400 ft) can be worked out.")
    return SEA_LEVEL * float((1 - LAPSE * altitude / SEA_LEVEL_AIR) ** EXPONENT)


def siphon_crest(pressure: float, vapour: float = 0.0, density: float = COLD_WATER) -> float:
    """The highest a siphon’s crest can stand above the water, in m, before the column breaks.

    >>> round(siphon_crest(101_325.0), 2)
    10.33
    """
    return head_of(pressure - vapour, density)
