"""Where the sun stands, when it rises and sets, and how long it shines on a wall.

Angles in degrees, hour angles from solar noon with the afternoon positive, azimuths from south
with west positive. The sun's declination and the equation of time, sunrise and sunset come from
astral (after Meeus), as on the plan's daylight; the rest is spherical trigonometry.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

CIVIL = 96.0  # zenith angle of the sun's centre at the ends of civil twilight
POLAR = 66.0  # from here on the sun may not set
STEP = 2  # minutes between looks at the wall
DEGREES_A_MINUTE = 0.25


@dataclass(frozen=True, slots=True)
class Place:
    """Latitude north and longitude east positive. Raises ValueError outside ±66° and ±180°."""

    latitude: float
    longitude: float

    def __post_init__(self) -> None:
        if abs(self.latitude) > POLAR:
            raise ValueError(f"Latitudes from -{POLAR:g}° to {POLAR:g}° can be worked out.")
        if abs(self.longitude) > 180:
            raise ValueError("Longitudes from -180° to 180° can be worked out.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """Faces ``bearing``, clockwise from north; ``tilt`` 90 is upright, 0 lies flat."""

    bearing: float
    tilt: float = 90.0

    @property
    def azimuth(self) -> float:
        """From south, west positive, -180 to 180."""
        return (self.bearing + 360) % 360 - 180


@dataclass(frozen=True, slots=True)
class Obstruction:
    """Something on the horizon: from one bearing clockwise to another, up to an altitude."""

    start: float
    end: float
    altitude: float

    def hides(self, bearing: float, altitude: float) -> bool:
        across = (self.end - self.start) % 360 or 360.0
        return altitude < self.altitude and (bearing - self.start) % 360 <= across


@dataclass(frozen=True, slots=True, kw_only=True)
class Events:
    """Of one day, in UTC; None where the sun does not come to it."""

    noon: datetime
    rise: datetime | None
    set: datetime | None
    dawn: datetime | None
    dusk: datetime | None

    @property
    def length(self) -> timedelta | None:
        return self.set - self.rise if self.rise and self.set else None


def events(day: date, place: Place) -> Events:
    """Sunrise, solar noon, sunset and civil twilight of a day by the local sun.

    The sunset is the one after this day's noon, also west of Greenwich, where the day by UTC
    has already changed. Within about half a minute of published almanacs.

    >>> found = events(date(2015, 8, 2), Place(39.0, -105.0))
    >>> found.rise and found.rise.hour, found.set and found.set.day
    (12, 3)
    """
    rise, down = crossings(day, place)
    dawn, dusk = crossings(day, place, CIVIL)
    return Events(noon=noon(day, place), rise=rise, set=down, dawn=dawn, dusk=dusk)


Moment = datetime | None


def crossings(day: date, place: Place, zenith: float | None = None) -> tuple[Moment, Moment]:
    """When the sun passes a zenith angle before and after this day's noon, in UTC.

    Without an angle: when its upper edge passes the horizon, as the plan's daylight has it.
    """
    from astral import Observer, SunDirection

    from schedules.engine.sun import HALF, HORIZON, mean_noon, passing

    observer = Observer(place.latitude, place.longitude)
    middle, angle, bent = mean_noon(observer, day), zenith or HORIZON, zenith is None
    try:
        return (
            passing(observer, day, middle - HALF, SunDirection.RISING, angle, bent=bent),
            passing(observer, day, middle, SunDirection.SETTING, angle, bent=bent),
        )
    except ValueError:  # it stays above, or below
        return None, None


def noon(day: date, place: Place) -> datetime:
    """When the sun is highest, in UTC."""
    middle = datetime(day.year, day.month, day.day, 12, tzinfo=UTC)
    middle -= timedelta(minutes=4 * place.longitude)
    return middle - timedelta(minutes=equation_of_time(middle))


def equation_of_time(moment: datetime) -> float:
    """Sundial minus clock, in minutes."""
    from astral.sun import eq_of_time

    return float(eq_of_time(century(moment)))


def declination(moment: datetime) -> float:
    """How far north of the equator the sun stands, in degrees.

    >>> round(declination(datetime(2031, 6, 21, 12, tzinfo=UTC)), 1)
    23.4
    """
    from astral.sun import sun_declination

    return float(sun_declination(century(moment)))


def century(moment: datetime) -> float:
    """Julian centuries since noon of 1 January 2000."""
    since = moment - datetime(2000, 1, 1, 12, tzinfo=UTC)
    return since.total_seconds() / (86400 * 36525)


def position(latitude: float, declination: float, hour_angle: float) -> tuple[float, float]:
    """Zenith angle and azimuth (from south, west positive) of the sun, without refraction.

    Duffie and Beckman, Solar Engineering of Thermal Processes, equations 1.6.5 and 1.6.6.

    >>> [round(each, 1) for each in position(43.0, 23.1, 97.5)]
    [79.6, 112.0]
    """
    phi, delta, omega = map(math.radians, (latitude, declination, hour_angle))
    up = math.sin(delta) * math.sin(phi) + math.cos(delta) * math.cos(phi) * math.cos(omega)
    south = math.cos(delta) * math.cos(omega) * math.sin(phi) - math.sin(delta) * math.cos(phi)
    west = math.cos(delta) * math.sin(omega)
    zenith = math.degrees(math.acos(max(-1.0, min(1.0, up))))
    return zenith, math.degrees(math.atan2(west, south))


def incidence(
    latitude: float, declination: float, hour_angle: float, tilt: float, azimuth: float
) -> float:
    """Angle between the sun's rays and a surface's normal, in degrees.

    ``azimuth`` of the surface from south, west positive; ``tilt`` from level. Duffie and
    Beckman, equation 1.6.2; their example 1.6.1 has 35°.

    >>> round(incidence(43.0, -14.0, -22.5, 45.0, 15.0), 2)
    35.18
    """
    phi, delta, omega = map(math.radians, (latitude, declination, hour_angle))
    beta, gamma = math.radians(tilt), math.radians(azimuth)
    sin, cos = math.sin, math.cos
    share = (
        sin(delta) * sin(phi) * cos(beta)
        - sin(delta) * cos(phi) * sin(beta) * cos(gamma)
        + cos(delta) * cos(phi) * cos(beta) * cos(omega)
        + cos(delta) * sin(phi) * sin(beta) * cos(gamma) * cos(omega)
        + cos(delta) * sin(beta) * sin(gamma) * sin(omega)
    )
    return math.degrees(math.acos(max(-1.0, min(1.0, share))))


Span = tuple[float, float]  # hour angles


def wall_spans(
    latitude: float,
    declination: float,
    wall: Wall,
    obstructions: Sequence[Obstruction] = (),
) -> list[Span]:
    """When the sun shines on a wall, as spans of hour angle: it is over the horizon, over what
    stands there, and before the wall. Looked at every two minutes; the ends are half way."""
    found: list[Span] = []
    half = STEP * DEGREES_A_MINUTE / 2
    for angle in angles():
        if not shines(latitude, declination, angle, wall, obstructions):
            continue
        if found and abs(found[-1][1] - (angle - half)) < 1e-9:
            found[-1] = (found[-1][0], angle + half)
        else:
            found.append((angle - half, angle + half))
    return found


def angles() -> Iterator[float]:
    """The middles of the steps of a day."""
    count = 1440 // STEP
    return ((n + 0.5 - count / 2) * STEP * DEGREES_A_MINUTE for n in range(count))


def shines(
    latitude: float,
    declination: float,
    hour_angle: float,
    wall: Wall,
    obstructions: Sequence[Obstruction] = (),
) -> bool:
    zenith, azimuth = position(latitude, declination, hour_angle)
    if zenith >= 90:
        return False
    if any(each.hides(azimuth + 180, 90 - zenith) for each in obstructions):
        return False
    return incidence(latitude, declination, hour_angle, wall.tilt, wall.azimuth) < 90


def hours_of(spans: Sequence[Span]) -> float:
    return sum(end - start for start, end in spans) / 15


def wall_hours(
    latitude: float,
    declination: float,
    wall: Wall,
    obstructions: Sequence[Obstruction] = (),
) -> float:
    """Hours of sun on a wall in a day.

    >>> round(wall_hours(40.0, 23.45, Wall(bearing=180)), 1)
    7.9
    """
    return hours_of(wall_spans(latitude, declination, wall, obstructions))


LIGHT = ("full sun", "part sun/part shade", "shade")


def light_class(hours: float, full: float, part: float) -> str:
    """What gardeners call a place with so many hours of direct sun a day.

    >>> light_class(6.0, 6.0, 3.0), light_class(5.9, 6.0, 3.0), light_class(2.9, 6.0, 3.0)
    ('full sun', 'part sun/part shade', 'shade')
    """
    if hours >= full:
        return LIGHT[0]
    return LIGHT[1] if hours >= part else LIGHT[2]
