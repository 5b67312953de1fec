"""Moist air: dew point, humidity from a wet bulb, and how warm a wall must be to stay dry.

Temperatures in °C, pressures in Pa, relative humidity as a share of 1. Everything is over water,
also below freezing: over ice the figures would be up to 1.2 °C higher.
"""

from __future__ import annotations

import math

# Magnus form with the coefficients of Alduchov and Eskridge (1996), from memory; -40 to 50 °C.
STEEPNESS, BASE, AT_ZERO = 17.625, 243.04, 610.94
SEA_LEVEL = 101_325.0
COLDEST, HOTTEST = -40.0, 60.0
WATER_TO_AIR = 0.621945  # ratio of the molar masses, ASHRAE Fundamentals 2017, chapter 1


def saturation_pressure(temperature: float) -> float:
    """Pressure in Pa of vapour over water at a temperature in °C from -40 to 60.

    Within 0.35 % of the table of ASHRAE Fundamentals 2017 between 5 and 50 °C.

    >>> round(saturation_pressure(25.0))
    3162
    """
    _within(temperature)
    return AT_ZERO * math.exp(STEEPNESS * temperature / (BASE + temperature))


def dew_point(air: float, humidity: float) -> float:
    """Temperature in °C at which air of a temperature in °C and a humidity (0 to 1) turns wet.

    γ = ln h + aT/(b + T); Td = bγ/(a − γ). Raises ValueError outside -40 to 60 °C, and for a
    humidity that is not above 0 and at most 1.

    >>> round(dew_point(30.0, 0.55), 1), dew_point(12.0, 1.0)
    (20.0, 12.0)
    """
    _within(air)
    if not 0 < humidity <= 1:
        raise ValueError("Humidity is above 0 % and at most 100 %.")
    if humidity == 1:
        return air
    gamma = math.log(humidity) + STEEPNESS * air / (BASE + air)
    return BASE * gamma / (STEEPNESS - gamma)


def humidity_at(air: float, dew: float) -> float:
    """Relative humidity of air with a dew point, both in °C.

    >>> round(humidity_at(30.0, dew_point(30.0, 0.55)), 9)
    0.55
    """
    return saturation_pressure(dew) / saturation_pressure(air)


def humidity_from_wet_bulb(air: float, wet_bulb: float, pressure: float = SEA_LEVEL) -> float:
    """Relative humidity from a dry and a wet thermometer in °C, at a pressure in Pa.

    ASHRAE Fundamentals 2017, chapter 1, equation 33 (wet bulb at or above 0 °C); its example 1
    has 40 °C dry and 20 °C wet. Raises ValueError where the wet bulb is warmer than the air, or
    so cold that no vapour would be left.

    >>> round(humidity_from_wet_bulb(40.0, 20.0), 2)
    0.14
    """
    if wet_bulb < 0:
        raise ValueError("A wet bulb below freezing is coated with ice: use a humidity meter.")
    if wet_bulb > air:
        raise ValueError("The wet bulb cannot be warmer than the air.")
    wet = saturation_pressure(wet_bulb)
    full = WATER_TO_AIR * wet / (pressure - wet)
    ratio = ((2501 - 2.326 * wet_bulb) * full - 1.006 * (air - wet_bulb)) / (
        2501 + 1.86 * air - 4.186 * wet_bulb
    )
    vapour = pressure * ratio / (WATER_TO_AIR + ratio)
    if vapour <= 0:
        raise ValueError("So cold a wet bulb is not possible in air as warm as this.")
    return min(1.0, vapour / saturation_pressure(air))


def least_surface(air: float, humidity: float, spread: float) -> float:
    """The coldest a surface may be, in °C, to stay ``spread`` kelvins above the dew point.

    >>> round(least_surface(20.0, 0.6, 3.0), 1)
    15.0
    """
    return dew_point(air, humidity) + spread


def _within(temperature: float) -> None:
    if not COLDEST <= temperature <= HOTTEST:
        raise ValueError(f"Temperatures from {COLDEST:g} to {HOTTEST:g} °C can be worked out.")
