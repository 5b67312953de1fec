"""Lights on a battery: energy a night, battery, panel or crank, and the drop along a wire.

Energies are in Wh here, as batteries are sold; powers W, times h, lengths m, resistances ohm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

TILT = 23.44  # degrees between equator and ecliptic
ZENITH = 90.833  # of the sun's middle at sunrise, with refraction and its radius


class LightsError(ValueError):
    """An input outside its range; the message says the range."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bank:
    """``room`` is what the battery must hold, ``charge`` the same in Ah."""

    room: float
    charge: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Drop:
    volts: float
    share: float


def longest_night(latitude: float) -> float:
    """Hours from sunset to sunrise at the winter solstice, for a latitude in degrees.

    cos ω = (cos z − sin φ sin δ)/(cos φ cos δ) with z = 90.833°; about 2 min. 24 in a night that
    does not end. Raises LightsError outside -90 to 90.

    >>> round(longest_night(42.0), 1), longest_night(70.0)
    (14.9, 24.0)
    """
    if not -90 <= latitude <= 90:
        raise LightsError("A latitude is from -90° to 90°.")
    place, sun = math.radians(abs(latitude)), math.radians(-TILT)
    spread = math.cos(place) * math.cos(sun)
    cosine = math.cos(math.radians(ZENITH)) - math.sin(place) * math.sin(sun)
    if cosine >= spread:
        return 24.0
    return 24 - 2 * math.degrees(math.acos(cosine / spread)) / 15


def energy(loads: Sequence[tuple[float, float]], losses: float = 1.0) -> float:
    """Wh a night of loads (W, h), times a factor for what the electronics lose.

    >>> energy([(100.0, 2.0)]), energy([(3.0, 5.0), (0.1, 24.0)], 1.1)
    (200.0, 19.14)
    """
    if losses < 1:
        raise LightsError("Losses multiply the energy by 1 or more.")
    return sum(watts * hours for watts, hours in loads) * losses


def battery(need: float, days: float, depth: float, volts: float, efficiency: float = 1.0) -> Bank:
    """What a battery must hold to give ``need`` Wh a day for so many days without charge.

    Wh = E·days/(DoD·η); Ah = Wh/V. Source: sizing guide Q = E·A/(V·T·Kinv·Kcable).
    Raises LightsError for a depth or an efficiency outside 0 to 1.

    >>> battery(180.0, 3.0, 0.8, 24.0)
    Bank(room=675.0, charge=28.125)
    """
    if not 0 < depth <= 1:
        raise LightsError("A battery is emptied by more than 0 % and at most 100 %.")
    if not 0 < efficiency <= 1:
        raise LightsError("An efficiency is more than 0 % and at most 100 %.")
    if volts <= 0 or days <= 0:
        raise LightsError("A voltage and days without charge are more than 0.")
    room = need * days / (depth * efficiency)
    return Bank(room=room, charge=room / volts)


def days_held(room: float, depth: float, efficiency: float, need: float) -> float:
    """Days for which a battery of ``room`` Wh gives ``need`` Wh a day without charge.

    >>> round(days_held(675.0, 0.8, 1.0, 180.0), 9)
    3.0
    """
    return math.inf if need == 0 else room * depth * efficiency / need


def array(need: float, sun: float, system: float) -> float:
    """Watts of panel that make ``need`` Wh a day from hours of full sun: W = E/(PSH·K).

    >>> round(array(1800.0, 4.0, 0.7), 2)
    642.86
    """
    if sun <= 0 or not 0 < system <= 1:
        raise LightsError("Hours of full sun are more than 0, a system keeps 0 to 100 %.")
    return need / (sun * system)


def crank_hours(need: float, watts: float, efficiency: float) -> float:
    """Hours of turning a crank at a power in W that put ``need`` Wh to use.

    >>> round(crank_hours(7.0, 30.0, 0.7) * 60, 9)
    20.0
    """
    if watts <= 0 or not 0 < efficiency <= 1:
        raise LightsError("A crank is turned with more than 0 W, and keeps 0 to 100 % of it.")
    return need / (watts * efficiency)


def light_for_turning(watts: float, efficiency: float, load: float) -> float:
    """Minutes of light from a minute of turning, for a load in W."""
    return math.inf if load == 0 else watts * efficiency / load


def drop(current: float, one_way: float, resistance: float, supply: float) -> Drop:
    """Volts lost out and back along a wire of a resistance in ohm/m, and their share.

    V = 2·L·R·I. Drop is not ampacity: whether the wire carries the current is another question.

    >>> found = drop(4.0, 100 * 0.3048, 4.99 / 304.8, 24.0)
    >>> round(found.volts, 2), round(found.share, 3)
    (3.99, 0.166)
    """
    if supply <= 0 or min(current, one_way, resistance) < 0:
        raise LightsError("A supply is more than 0 V; current, length and resistance 0 or more.")
    volts = 2 * one_way * resistance * current
    return Drop(volts=volts, share=volts / supply)


def resistance_of(
    area: float, resistivity: float, *, at: float = 20.0, now: float = 20.0, growth: float = 0.0
) -> float:
    """Ohm/m of a wire of an area in m²; ``resistivity`` in ohm·m at a temperature in °C.

    Copper grows by 0.00393 a kelvin: at 75 °C it loses 22 % more than at 20 °C.

    >>> cold = resistance_of(1e-6, 1.7241e-8)
    >>> round(resistance_of(1e-6, 1.7241e-8, now=75.0, growth=0.00393) / cold, 3)
    1.216
    """
    if area <= 0 or resistivity <= 0:
        raise LightsError("A wire’s area and resistivity are more than 0.")
    return resistivity * (1 + growth * (now - at)) / area


def kept_back(
    room: float, depth: float, need: float, returns: float, days: int
) -> tuple[float, ...]:
    """Wh left in a full battery after each night without charge, down to its floor.

    >>> kept_back(675.0, 0.8, 180.0, 1.0, 3)
    (495.0, 315.0, 135.0)
    """
    floor = room * (1 - depth)
    return tuple(max(floor, room - need / returns * day) for day in range(1, days + 1))
