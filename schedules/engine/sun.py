"""Daylight at the site: from sunrise to sunset of each day, by the wall clock of the project.

The upper edge of the sun on a level horizon, with the usual bending of light in the air
(astral, after Meeus). Hills, trees, houses and cloud are not known: look at the wall itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from types import MappingProxyType
from zoneinfo import ZoneInfo

from astral import Observer, SunDirection
from astral.sun import SUN_APPARENT_RADIUS, elevation, time_of_transit

Span = tuple[int, int]  # minutes of the day
Spans = tuple[Span, ...]
HORIZON = 90 + SUN_APPARENT_RADIUS
DAY, HALF = timedelta(days=1), timedelta(hours=12)
MINUTE = timedelta(minutes=1)


@lru_cache(maxsize=64)
def daylight(latitude: float, longitude: float, zone: str, year: int) -> Mapping[date, Spans]:
    """The lit minutes of every day of a year: none in the polar night, all under a midnight sun."""
    place, clock = Observer(latitude, longitude), ZoneInfo(zone)
    first, last = date(year, 1, 1), date(year, 12, 31)
    found: dict[date, list[Span]] = {first + n * DAY: [] for n in range((last - first).days + 1)}
    for n in range(-1, len(found) + 1):
        for rise, sunset in lit(place, first + n * DAY):
            for day, span in by_day(wall(rise, clock), wall(sunset, clock)):
                if day in found:
                    found[day].append(span)
    return MappingProxyType({day: joined(spans) for day, spans in found.items()})


def lit(place: Observer, day: date) -> Iterator[tuple[datetime, datetime]]:
    """From sunrise to sunset around the noon of the site; both in UTC."""
    noon = mean_noon(place, day)
    try:
        rise = passing(place, day, noon - HALF, SunDirection.RISING)
        sunset = passing(place, day, noon, SunDirection.SETTING)
    except ValueError:  # it stays above the horizon, or below
        if elevation(place, noon) > 0:
            yield noon - HALF, noon + HALF
        return
    yield rise, sunset


def mean_noon(place: Observer, day: date) -> datetime:
    """Noon of the local mean sun, in UTC."""
    return datetime.combine(day, time(12), UTC) - timedelta(minutes=4 * place.longitude)


def passing(
    place: Observer,
    day: date,
    first: datetime,
    way: SunDirection,
    zenith: float = HORIZON,
    *,
    bent: bool = True,
) -> datetime:
    """When the sun passes ``zenith``, the horizon, in the half day, or so, after ``first``.

    East of 90° the rising that is counted to a UTC day is the one of the next local day.
    ``bent`` adds the bending of light in the air, which twilight is defined without.
    """
    found = time_of_transit(place, day, zenith, way, bent)
    late = found - first > HALF + timedelta(hours=6)
    return time_of_transit(place, day - DAY, zenith, way, bent) if late else found


def wall(moment: datetime, clock: ZoneInfo) -> datetime:
    return moment.astimezone(clock).replace(tzinfo=None)


def by_day(rise: datetime, sunset: datetime) -> Iterator[tuple[date, Span]]:
    """Whole minutes of light, cut at midnight."""
    day = rise.date()
    while day <= sunset.date():
        midnight = datetime.combine(day, time())
        opens = max(0, -((midnight - rise) // MINUTE))
        closes = min(1440, (sunset - midnight) // MINUTE)
        if opens < closes:
            yield day, (opens, closes)
        day += DAY


def joined(spans: list[Span]) -> Spans:
    """In order, and one where they touch, as the halves of a bright night do."""
    found: list[Span] = []
    for opens, closes in sorted(spans):
        if found and opens <= found[-1][1] + 1:
            found[-1] = (found[-1][0], max(found[-1][1], closes))
        else:
            found.append((opens, closes))
    return tuple(found)


def within(spans: Spans, light: Spans) -> Spans:
    """The minutes that are both worked and lit."""
    both = ((max(a, c), min(b, d)) for a, b in spans for c, d in light)
    return tuple((opens, closes) for opens, closes in both if opens < closes)
