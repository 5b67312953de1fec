"""The sun on a wall through the year: a row for each month, by the clock of the place."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from worksheets.engine import sun
from worksheets.engine.sun import Events, Obstruction, Place, Wall

DAY_OF_MONTH = 21  # of all days of a month the one nearest to solstices and equinoxes
MINUTES_A_DEGREE = 4
COMPASS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")

Hours = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What the sun shines on, and by which clock."""

    place: Place
    wall: Wall
    zone: ZoneInfo
    obstructions: tuple[Obstruction, ...] = ()

    def clock(self, moment: datetime, day: date) -> float:
        """Minutes after midnight of a day by the clock there; over 1440 on the next day."""
        here = moment.astimezone(self.zone).replace(tzinfo=None)
        return (here - datetime.combine(day, time())) / timedelta(minutes=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class SunDay:
    """``lit`` are hours of the clock in which the sun shines on the wall."""

    day: date
    events: Events
    hours: float
    lit: tuple[Hours, ...]


def sun_day(scene: Scene, day: date) -> SunDay:
    """A day: its sun events, and when the sun is on the wall."""
    found = sun.events(day, scene.place)
    delta = sun.declination(found.noon)
    spans = sun.wall_spans(scene.place.latitude, delta, scene.wall, scene.obstructions)

    def hour(angle: float) -> float:
        moment = found.noon + timedelta(minutes=angle * MINUTES_A_DEGREE)
        return scene.clock(moment, day) / 60

    lit = tuple((hour(start), hour(end)) for start, end in spans)
    return SunDay(day=day, events=found, hours=sun.hours_of(spans), lit=lit)


def sun_year(scene: Scene, year: int) -> list[SunDay]:
    """The 21st of each month."""
    return [sun_day(scene, date(year, month, DAY_OF_MONTH)) for month in range(1, 13)]


def season(days: Sequence[SunDay], latitude: float) -> float:
    """Mean hours of sun on the wall while plants grow: April to September, or half a year on."""
    north = [each.hours for each in days if 4 <= each.day.month <= 9]
    south = [each.hours for each in days if not 4 <= each.day.month <= 9]
    mine = north if latitude >= 0 else south
    return sum(mine) / len(mine)


def path(scene: Scene, day: date) -> list[tuple[float, float]]:
    """The sun's way over the wall: bearings from the wall's own, right positive, and altitudes."""
    delta = sun.declination(sun.noon(day, scene.place))
    found = []
    for angle in sun.angles():
        zenith, azimuth = sun.position(scene.place.latitude, delta, angle)
        turn = (azimuth + 180 - scene.wall.bearing + 180) % 360 - 180
        found.append((turn, 90 - zenith))
    return found


def skyline(scene: Scene) -> list[tuple[float, float]]:
    """The highest thing at each degree before the wall; empty where nothing stands there."""
    found = []
    for turn in range(-90, 91):
        bearing = (scene.wall.bearing + turn) % 360
        heights = [o.altitude for o in scene.obstructions if o.hides(bearing, -1.0)]
        found.append((float(turn), max(heights, default=0.0)))
    return found if any(altitude > 0 for _, altitude in found) else []


def compass(bearing: float) -> str:
    """
    >>> compass(180.0), compass(350.0), compass(68.0)
    ('south', 'north', 'east')
    """
    return COMPASS[math.floor((bearing % 360) / 45 + 0.5) % 8]
