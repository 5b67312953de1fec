"""Which hours can be painted: each hour against a product's limits, with what speaks against it.

Temperatures in °C, differences in K, humidity as a share, wind in m/s, times by the wall clock.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from enum import StrEnum

from worksheets.engine.readings import Reading

HOUR = timedelta(hours=1)


class Mark(StrEnum):
    PAINT = "can be painted"
    STOP = "outside a limit"
    UNKNOWN = "not known"


class Why(StrEnum):
    """What speaks against an hour, the gravest first."""

    WET_SURFACE = "surface too near the dew point"
    HUMID = "too humid"
    COLD_SURFACE = "surface too cold"
    HOT_SURFACE = "surface too hot"
    COLD_AIR = "air too cold"
    HOT_AIR = "air too hot"
    WIND = "too windy"
    RAIN = "rain"
    FALLING = "surface is cooling"
    RAIN_AFTER = "rain before it is dry"
    DEW_AFTER = "dew before it is dry"
    COLD_AFTER = "too cold while it dries"
    NO_READING = "no reading"
    NO_SURFACE = "surface not measured"
    NO_WIND = "wind not told"
    NO_RAIN = "rain not told"
    NOT_AFTER = "the readings end before it is dry"


UNKNOWN = (Why.NO_READING, Why.NO_SURFACE, Why.NO_WIND, Why.NO_RAIN, Why.NOT_AFTER)


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What the product asks. ``wind`` None: no limit; ``dry_least`` None: not asked."""

    spread: float
    humidity: float
    surface: tuple[float, float]
    air: tuple[float, float]
    wind: float | None = None
    rain_free: float = 0.0  # hours after
    drying: float = 0.0  # hours in which the surface must stay above the dew point
    dry_least: float | None = None  # °C, while it dries
    rising: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """When somebody is there to paint: hours of the day, and weekdays with Monday as 0."""

    opens: int = 8
    closes: int = 18
    weekdays: frozenset[int] = frozenset(range(7))

    def has(self, moment: datetime) -> bool:
        return moment.weekday() in self.weekdays and self.opens <= moment.hour < self.closes


@dataclass(frozen=True, slots=True)
class Against:
    """One thing that speaks against an hour; ``found`` and ``limit`` in SI, ``at`` when."""

    why: Why
    found: float | None = None
    limit: float | None = None
    at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Hour:
    """An hour that begins at ``at``. ``worked`` says whether somebody is there."""

    at: datetime
    reading: Reading | None
    against: tuple[Against, ...]
    worked: bool

    @property
    def mark(self) -> Mark:
        if not self.against:
            return Mark.PAINT
        stops = [each for each in self.against if each.why not in UNKNOWN]
        return Mark.STOP if stops else Mark.UNKNOWN

    @property
    def counts(self) -> bool:
        return self.worked and self.mark == Mark.PAINT


def by_hour(readings: Sequence[Reading], holds: float = 1.0) -> dict[datetime, Reading]:
    """The reading of every hour; one stands until the next, for at most ``holds`` hours.

    Of several in one hour a measured one stands, else the one nearest to its dew point.

    >>> nine = Reading(at=datetime(2031, 6, 14, 9), air=20.0, humidity=0.5)
    >>> [at.hour for at in by_hour([nine], holds=3)]
    [9, 10, 11]
    """
    heads: dict[datetime, Reading] = {}
    for each in sorted(readings, key=lambda each: (each.measured, -dryness(each))):
        heads[each.at.replace(minute=0, second=0)] = each
    found: dict[datetime, Reading] = {}
    for at in sorted(heads):
        for step in range(math.ceil(holds)):
            found[at + step * HOUR] = heads[at]
    return found


def dryness(reading: Reading) -> float:
    """K between the dew point and the surface, or the air where no surface was measured."""
    warm = reading.air if reading.surface is None else reading.surface
    return warm - reading.dew


def with_surface(readings: Sequence[Reading], offset: float) -> tuple[Reading, ...]:
    """Where no surface was measured, the air’s temperature plus ``offset`` in K."""
    return tuple(
        replace(each, surface=each.air + offset) if each.surface is None else each
        for each in readings
    )


def in_window(reading: Reading, limits: Limits) -> tuple[Against, ...]:
    """What speaks against painting in the conditions of one reading, before any look ahead.

    A value on its limit is allowed. An unknown surface, wind or rain speaks against it too.

    >>> limits = Limits(spread=3, humidity=0.85, surface=(10, 35), air=(10, 35))
    >>> damp = Reading(at=datetime(2031, 6, 14, 9), air=21, humidity=0.65, surface=15.6, wet=False)
    >>> [each.why.value for each in in_window(damp, limits)]
    ['surface too near the dew point']
    """
    found = [*surface_against(reading, limits), *air_against(reading, limits)]
    if reading.wet:
        found.append(Against(Why.RAIN))
    if reading.wet is None:
        found.append(Against(Why.NO_RAIN))
    return tuple(found)


def surface_against(reading: Reading, limits: Limits) -> Iterator[Against]:
    surface, (least, most) = reading.surface, limits.surface
    if surface is None:
        yield Against(Why.NO_SURFACE)
        return
    if below(surface - reading.dew, limits.spread):
        yield Against(Why.WET_SURFACE, surface - reading.dew, limits.spread)
    if below(surface, least):
        yield Against(Why.COLD_SURFACE, surface, least)
    if below(most, surface):
        yield Against(Why.HOT_SURFACE, surface, most)


def air_against(reading: Reading, limits: Limits) -> Iterator[Against]:
    least, most = limits.air
    if below(limits.humidity, reading.humidity):
        yield Against(Why.HUMID, reading.humidity, limits.humidity)
    if below(reading.air, least):
        yield Against(Why.COLD_AIR, reading.air, least)
    if below(most, reading.air):
        yield Against(Why.HOT_AIR, reading.air, most)
    if limits.wind is not None and reading.wind is None:
        yield Against(Why.NO_WIND)
    if limits.wind is not None and below(limits.wind, reading.wind or 0.0):
        yield Against(Why.WIND, reading.wind, limits.wind)


def below(one: float, other: float) -> bool:
    """Less than, with room for the rounding of a conversion between units."""
    return one < other - 1e-9


def judge(readings: Mapping[datetime, Reading], limits: Limits, offered: Offered) -> list[Hour]:
    """Every hour from the first reading’s to the last one’s."""
    if not readings:
        return []
    at, last = min(readings), max(readings)
    found = []
    while at <= last:
        found.append(judged(at, readings, limits, offered))
        at += HOUR
    return found


def judged(
    at: datetime, readings: Mapping[datetime, Reading], limits: Limits, offered: Offered
) -> Hour:
    reading = readings.get(at)
    if reading is None:
        against: tuple[Against, ...] = (Against(Why.NO_READING),)
    else:
        after = (*rising(at, readings, limits), *ahead(at, readings, limits))
        against = (*in_window(reading, limits), *after)
    return Hour(at=at, reading=reading, against=against, worked=offered.has(at))


def rising(at: datetime, readings: Mapping[datetime, Reading], limits: Limits) -> Iterator[Against]:
    before, now = readings.get(at - HOUR), readings[at]
    if not limits.rising or before is None or before.surface is None or now.surface is None:
        return
    if below(now.surface, before.surface):
        yield Against(Why.FALLING)


def ahead(at: datetime, readings: Mapping[datetime, Reading], limits: Limits) -> Iterator[Against]:
    """The first rain, dew and cold in the hours that what is painted now needs to dry."""
    rain_free, drying = math.ceil(limits.rain_free), math.ceil(limits.drying)
    told: set[Why] = set()
    for step in range(1, max(rain_free, drying) + 1):
        then = at + step * HOUR
        for each in drying_hour(then, readings.get(then), limits, step <= rain_free,
                                step <= drying):  # fmt: skip
            if each.why not in told:
                told.add(each.why)
                yield each


def drying_hour(
    at: datetime, reading: Reading | None, limits: Limits, rain: bool, dew: bool
) -> Iterator[Against]:
    if reading is None:
        yield Against(Why.NOT_AFTER, at=at)
        return
    if rain and reading.wet:
        yield Against(Why.RAIN_AFTER, at=at)
    if rain and reading.wet is None:
        yield Against(Why.NO_RAIN, at=at)
    if not dew:
        return
    if reading.surface is None:
        yield Against(Why.NO_SURFACE, at=at)
        return
    spread = reading.surface - reading.dew
    if below(spread, limits.spread):
        yield Against(Why.DEW_AFTER, spread, limits.spread, at)
    if limits.dry_least is not None and below(min(reading.surface, reading.air), limits.dry_least):
        yield Against(Why.COLD_AFTER, min(reading.surface, reading.air), limits.dry_least, at)
