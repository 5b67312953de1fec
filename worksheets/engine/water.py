"""How much water plants use: reference evaporation, and what a planter needs in a week.

Inside, depths of water are mm a day, temperatures °C, radiation MJ/m² a day, pressures kPa, as in
FAO Irrigation and Drainage Paper 56 (Allen and others, 1998), whose equation numbers are given.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

SOLAR = 0.0820  # MJ/m² a minute, the solar constant
STEFAN = 4.903e-9  # MJ/K⁴ m² a day
TO_MM = 0.408  # mm of water that 1 MJ/m² evaporates
GRASS = 0.23  # albedo of the reference crop
KELVIN = 273.16
WEEK = 7


def sun_distance(day: int) -> float:
    """Inverse relative distance of earth and sun on a day of the year (eq. 23)."""
    return 1 + 0.033 * math.cos(2 * math.pi / 365 * day)


def declination(day: int) -> float:
    """Solar declination in radians (eq. 24)."""
    return 0.409 * math.sin(2 * math.pi / 365 * day - 1.39)


def sunset_angle(latitude: float, day: int) -> float:
    """Hour angle of sunset in radians (eq. 25), for latitudes of at most ±66°.

    Raises ValueError beyond, where the sun may not set.
    """
    if abs(latitude) > 66:
        raise ValueError("Latitudes from -66° to 66° can be worked out.")
    return math.acos(-math.tan(math.radians(latitude)) * math.tan(declination(day)))


def extraterrestrial(latitude: float, day: int) -> float:
    """Radiation above the air on a level surface, MJ/m² a day (eq. 21).

    ``latitude`` in degrees, south negative; ``day`` of the year from 1 to 366. Example 8 of the
    paper: 20° S on 3 September.

    >>> round(extraterrestrial(-20.0, 246), 1)
    32.2
    """
    phi, delta, angle = math.radians(latitude), declination(day), sunset_angle(latitude, day)
    inner = angle * math.sin(phi) * math.sin(delta)
    inner += math.cos(phi) * math.cos(delta) * math.sin(angle)
    return 24 * 60 / math.pi * SOLAR * sun_distance(day) * inner


def daylight(latitude: float, day: int) -> float:
    """Hours of daylight (eq. 34).

    >>> round(daylight(-20.0, 246), 1)
    11.7
    """
    return 24 / math.pi * sunset_angle(latitude, day)


def vapour_pressure(temperature: float) -> float:
    """Saturation vapour pressure in kPa (eq. 11).

    >>> round(vapour_pressure(24.5), 3)
    3.075
    """
    return 0.6108 * math.exp(17.27 * temperature / (temperature + 237.3))


def mean_vapour_pressure(high: float, low: float) -> float:
    """Of a day: the mean of both ends, not the pressure at the mean (eq. 12).

    >>> round(mean_vapour_pressure(24.5, 15.0), 2)
    2.39
    """
    return (vapour_pressure(high) + vapour_pressure(low)) / 2


def air_pressure(elevation: float) -> float:
    """kPa at metres above the sea (eq. 7).

    >>> round(air_pressure(1800.0), 1)
    81.8
    """
    return 101.3 * float(((293 - 0.0065 * elevation) / 293) ** 5.26)


def wind_at_two_metres(wind: float, height: float) -> float:
    """m/s at 2 m from m/s at another height over grass (eq. 47).

    >>> round(wind_at_two_metres(3.2, 10.0), 1)
    2.4
    """
    return wind * 4.87 / math.log(67.8 * height - 5.42)


def radiation_from_temperature(above: float, high: float, low: float, coast: float) -> float:
    """Solar radiation in MJ/m² a day from that above the air and the day's range (eq. 50).

    ``coast`` is 0.16 inland and 0.19 by the sea.

    >>> round(radiation_from_temperature(40.6, 26.6, 14.8, 0.16), 1)
    22.3
    """
    return coast * math.sqrt(high - low) * above


def hargreaves(high: float, low: float, latitude: float, day: int) -> float:
    """Reference evaporation in mm a day from the day's highest and lowest temperature (eq. 52).

    A screening value, up to 1 mm a day off where the wind is strong or the air very damp. Raises
    ValueError where the high is below the low.

    >>> round(hargreaves(26.6, 14.8, 45.72, 196), 1)
    5.0
    """
    if high < low:
        raise ValueError("The highest temperature is below the lowest.")
    mean = (high + low) / 2
    above = TO_MM * extraterrestrial(latitude, day)
    return max(0.0, 0.0023 * (mean + 17.8) * math.sqrt(high - low) * above)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weather:
    """A day: °C, humidity as a share, m/s at 2 m, hours of sunshine, metres above the sea."""

    high: float
    low: float
    damp_most: float
    damp_least: float
    wind: float
    sunshine: float
    elevation: float = 0.0

    @property
    def vapour(self) -> float:
        """Actual vapour pressure in kPa (eq. 17)."""
        morning = vapour_pressure(self.low) * self.damp_most
        return (morning + vapour_pressure(self.high) * self.damp_least) / 2


def net_radiation(weather: Weather, latitude: float, day: int) -> float:
    """MJ/m² a day that stay at the ground (eq. 35 to 40), angstrom values 0.25 and 0.50."""
    above = extraterrestrial(latitude, day)
    share = min(1.0, weather.sunshine / daylight(latitude, day))
    sun = (0.25 + 0.50 * share) * above
    clear = (0.75 + 2e-5 * weather.elevation) * above
    fourth = ((weather.high + KELVIN) ** 4 + (weather.low + KELVIN) ** 4) / 2
    damp = 0.34 - 0.14 * math.sqrt(weather.vapour)
    lost = STEFAN * fourth * damp * (1.35 * min(1.0, sun / clear) - 0.35)
    return (1 - GRASS) * sun - lost


def penman_monteith(weather: Weather, latitude: float, day: int) -> float:
    """Reference evaporation in mm a day, where humidity, wind and sunshine are known (eq. 6).

    Example 18 of the paper (Brussels, 6 July) has 3.9 mm.

    >>> there = Weather(high=21.5, low=12.3, damp_most=0.84, damp_least=0.63, wind=2.078,
    ...                 sunshine=9.25, elevation=100)
    >>> round(penman_monteith(there, 50.8, 187), 1)
    3.9
    """
    mean = (weather.high + weather.low) / 2
    slope = 4098 * vapour_pressure(mean) / (mean + 237.3) ** 2
    psychrometric = 0.000665 * air_pressure(weather.elevation)
    lack = mean_vapour_pressure(weather.high, weather.low) - weather.vapour
    energy = TO_MM * slope * net_radiation(weather, latitude, day)
    moved = psychrometric * 900 / (mean + 273) * weather.wind * lack
    return max(0.0, (energy + moved) / (slope + psychrometric * (1 + 0.34 * weather.wind)))


def landscape_coefficient(species: float, density: float, place: float) -> float:
    """KL = ks · kd · kmc (Guide to Estimating Irrigation Water Needs, WUCOLS III, 2000).

    >>> round(landscape_coefficient(0.5, 1.0, 1.2), 3)
    0.6
    """
    return species * density * place


def used(depth: float, factor: float, area: float, efficiency: float, per: float = 1.0) -> float:
    """Water for plants: ``depth`` · ``factor`` · ``area`` · ``per`` / ``efficiency``.

    ``per`` is the volume of one depth on one area: 1 L for mm on m², 0.6234 gal for inches on ft².
    Divide by the efficiency: what misses the roots is brought too.

    >>> used(10.0, 0.5, 2.0, 0.8)
    12.5
    """
    return depth * factor * area * per / efficiency


def allowance(
    depth: float,
    share: float,
    area: float,
    special: float = 0.0,
    *,
    special_share: float | None = None,
    per: float = 1.0,
) -> float:
    """The most water an ordinance allows: ``share`` of the evaporation on all of the area, and
    what is left of it, 1 − ``share``, on the special part (California, 23 CCR 492.13).

    >>> round(allowance(10.0, 0.55, 100.0, 20.0))
    640
    """
    more = 1 - share if special_share is None else special_share
    return depth * per * (share * area + more * special)


@dataclass(frozen=True, slots=True, kw_only=True)
class Planting:
    """``area`` in m² is what the leaves cover, not the pot; ``factor`` the landscape coefficient;
    ``rain_share`` of the rain gets into the pot; ``efficiency`` of the water reaches the roots."""

    area: float
    factor: float
    rain_share: float
    efficiency: float


def week_litres(planting: Planting, evaporation: float, rain: float) -> float:
    """Litres to bring in a week, from mm a day and mm of rain a week; never less than nothing.

    >>> pot = Planting(area=0.8, factor=0.5, rain_share=0.6, efficiency=0.9)
    >>> week_litres(pot, 3.0, 20.0), round(week_litres(pot, 3.0, 0.0), 2)
    (0.0, 9.33)
    """
    lacking = WEEK * evaporation * planting.factor - planting.rain_share * rain
    return used(max(0.0, lacking), 1.0, planting.area, planting.efficiency)


def cans(litres: float, size: float) -> int:
    """Whole cans.

    >>> cans(9.33, 9.0), cans(0.0, 9.0)
    (2, 0)
    """
    return math.ceil(litres / size - 1e-9)


def days_held(soil: float, share: float, planting: Planting, evaporation: float) -> float:
    """Days until a soaked pot is dry: ``share`` of ``soil`` litres is there for the plants.

    >>> pot = Planting(area=0.8, factor=0.5, rain_share=0.6, efficiency=0.9)
    >>> round(days_held(80.0, 0.15, pot, 3.0), 3)
    10.0
    """
    a_day = evaporation * planting.factor * planting.area
    return math.inf if a_day <= 0 else soil * share / a_day
