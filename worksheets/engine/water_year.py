"""Water for planters through the year: what each month's climate takes, and what is to bring."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from worksheets.engine import water
from worksheets.engine.water import Planting, Weather

LENGTHS = (31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
MIDDLE = 15  # the day that stands for its month


@dataclass(frozen=True, slots=True, kw_only=True)
class Climate:
    """A month: °C, rain in mm of the whole month, or a known evaporation in mm a day.

    ``weather`` where humidity, wind and sunshine are known too.
    """

    month: int
    high: float | None = None
    low: float | None = None
    rain: float = 0.0
    known: float | None = None
    weather: Weather | None = None

    @property
    def mean(self) -> float | None:
        return None if self.high is None or self.low is None else (self.high + self.low) / 2

    @property
    def weekly_rain(self) -> float:
        return self.rain * water.WEEK / LENGTHS[self.month - 1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Planter:
    name: str
    count: int
    planting: Planting
    soil: float | None = None  # litres in one


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthNeed:
    """Litres in a week: with the usual rain, and in a week without any."""

    month: int
    evaporation: float  # mm a day
    rain: float  # mm a week
    litres: float
    dry: float
    held: float | None  # days until the first pot is dry; None where no soil was told
    driest: str = ""  # its name
    rests: bool = False

    @property
    def name(self) -> str:
        return f"{date(2031, self.month, 1):%B}"

    @property
    def visits(self) -> int | None:
        """Waterings in a week without rain; a visit lasts until the first pot is dry."""
        if self.held is None or self.dry == 0:
            return None if self.held is None else 0
        return math.ceil(water.WEEK / self.held - 1e-9)


def evaporation(climate: Climate, latitude: float) -> float:
    """mm a day: as told; by Penman-Monteith where all is known; else by Hargreaves.

    Raises ValueError where neither temperatures nor the evaporation were told.
    """
    day = date(2031, climate.month, MIDDLE).timetuple().tm_yday
    if climate.known is not None:
        return climate.known
    if climate.weather is not None:
        return water.penman_monteith(climate.weather, latitude, day)
    if climate.high is None or climate.low is None:
        raise ValueError("Write both temperatures, or the evaporation.")
    return water.hargreaves(climate.high, climate.low, latitude, day)


def month_need(
    climate: Climate,
    planters: Sequence[Planter],
    latitude: float,
    *,
    soil_share: float,
    rest_below: float,
) -> MonthNeed:
    """A week of one month, for all planters together."""
    lost = evaporation(climate, latitude)
    rests = climate.mean is not None and climate.mean < rest_below
    usual = sum(
        p.count * water.week_litres(p.planting, lost, climate.weekly_rain) for p in planters
    )
    dry = sum(p.count * water.week_litres(p.planting, lost, 0.0) for p in planters)
    held = [
        (water.days_held(p.soil, soil_share, p.planting, lost), p.name)
        for p in planters
        if p.soil is not None
    ]
    days, name = min(held, default=(None, ""))
    return MonthNeed(
        month=climate.month,
        evaporation=lost,
        rain=climate.weekly_rain,
        litres=0.0 if rests else usual,
        dry=0.0 if rests else dry,
        held=days,
        driest=name,
        rests=rests,
    )


def year_litres(needs: Sequence[MonthNeed]) -> float:
    """Of the months that were told."""
    return sum(each.litres / water.WEEK * LENGTHS[each.month - 1] for each in needs)


def season_words(needs: Sequence[MonthNeed]) -> str:
    """“April to October”: the months in a row, also over the turn of the year, with any need."""
    months = [each.month for each in needs if each.dry > 0]
    if not months:
        return "no month"
    runs = [month for month in months if (month - 2) % 12 + 1 not in months] or [months[0]]
    told = []
    for first in runs:
        last = first
        while last % 12 + 1 in months and last % 12 + 1 != first:
            last = last % 12 + 1
        names = [f"{date(2031, month, 1):%B}" for month in (first, last)]
        told.append(names[0] if first == last else " to ".join(names))
    return ", ".join(told)


def peak(needs: Sequence[MonthNeed]) -> MonthNeed:
    """The month that asks for most in a week without rain."""
    return max(needs, key=lambda each: (each.dry, each.evaporation))
