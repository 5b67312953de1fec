"""From what was typed on watering to climates and planters."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from worksheets.engine import water
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.result import Impossible
from worksheets.engine.water import Planting, Weather
from worksheets.engine.water_year import Climate, Planter

LITRE, MM, MM_A_DAY = 0.001, 0.001, 0.001 / 86400


def climates(given: Given) -> list[tuple[int, Climate]]:
    """A row for each month, in the order of the year; twice the same is refused."""
    more = {row.choice("month"): row for row in given.rows("more")}
    found: dict[int, tuple[int, Climate]] = {}
    for number, row in typed_rows(given.rows("climate")):
        month = int(row.choice("month"))
        if month in found:
            raise Impossible("climate", f"{name(month)} stands here twice. Leave one.",
                             row=number, column="month")  # fmt: skip
        found[month] = number, climate(given, number, row, more.get(str(month)))
    return [found[month] for month in sorted(found)]


def climate(given: Given, number: int, row: Given, more: Given | None) -> Climate:
    high, low, known = row.maybe("high"), row.maybe("low"), row.maybe("et0")
    if known is None and (high is None or low is None):
        raise Impossible("climate", "Write both temperatures, or the evaporation.", row=number,
                         column="high" if high is None else "low")  # fmt: skip
    if high is not None and low is not None and high < low:
        raise Impossible("climate", "The highest temperature is below the lowest.", row=number,
                         column="low")  # fmt: skip
    weather = None
    if more is not None and high is not None and low is not None:
        weather = Weather(high=high, low=low, damp_most=more["damp_most"],
                          damp_least=more["damp_least"], wind=more["wind"],
                          sunshine=more["sunshine"], elevation=given["elevation"])  # fmt: skip
    return Climate(
        month=int(row.choice("month")), high=high, low=low, rain=(row.maybe("rain") or 0.0) / MM,
        known=None if known is None else known / MM_A_DAY, weather=weather,
    )  # fmt: skip


def planters(given: Given, told: Mapping[str, Any]) -> list[Planter]:
    exposed = given["pot"] * (1 + given["extra"])
    found = []
    for _, row in typed_rows(given.rows("planters")):
        species = told["factors"][row.choice("need")]
        factor = water.landscape_coefficient(species, given["density"], given["place"]) * exposed
        soil = row.maybe("soil")
        found.append(Planter(
            name=row.words("name"), count=row.count("count"),
            soil=None if soil is None else soil / LITRE,
            planting=Planting(area=row["area"], factor=factor, rain_share=given["rain_share"],
                              efficiency=told["efficiency"][given.choice("method")]),
        ))  # fmt: skip
    return found


def name(month: int) -> str:
    return f"{date(2031, month, 1):%B}"
