"""Adapters for the published rows of fixtures/published/trade-paint.json."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from worksheets.engine import paint
from worksheets.engine.dimensions import DIMENSIONS, FOOT, GALLON
from worksheets.engine.packs import Pack, least_cost

Row = dict[str, Any]
UNITS = {unit.symbol: unit.factor for key in ("spread", "film") for unit in DIMENSIONS[key].units}
US_RATE, RATE, MIL, MICRON = UNITS["ft²/gal"], UNITS["m²/L"], UNITS["mil"], UNITS["µm"]
LITRE, CENTS, PERCENT = 0.001, 100, 0.01


def solids_of(given: Row) -> float:
    if "volume_solids_pct" in given:
        return float(given["volume_solids_pct"] * PERCENT)
    return float(given["volume_solids_frac"])


def film_of(given: Row, name: str) -> float:
    """A film in m, in whichever unit the row names it."""
    if f"{name}_mil" in given:
        return float(given[f"{name}_mil"] * MIL)
    return float(given[f"{name}_um"] * MICRON)


def coverage(row: Row) -> Row:
    """A dry film’s wet film and rate, in both systems."""
    given = row["inputs"]
    solids, dry = solids_of(given), film_of(given, "dft")
    rate = paint.film_rate(solids, dry)
    wet = paint.wet_film(dry, solids, given.get("thinner_frac", 0.0))
    return both(rate) | {"wft_um": wet / MICRON, "wft_mil": wet / MIL}


def both(rate: float) -> Row:
    return {"coverage_ft2_per_gal": rate / US_RATE, "coverage_m2_per_L": rate / RATE}


def covered(row: Row) -> Row:
    given = row["inputs"]
    rate = paint.film_rate(solids_of(given), film_of(given, "dft"))
    left = paint.practical(rate, 1 - given["transfer_efficiency"])
    return {"covered_ft2": left * given["gallons"] * GALLON / FOOT**2}


def from_wet_film(row: Row) -> Row:
    return both(paint.wet_rate(film_of(row["inputs"], "wft")))


def packs(row: Row) -> Row:
    given = row["inputs"]
    offered = [
        Pack(size * GALLON, round(price * CENTS)) for size, price in given["packs_gal_price"]
    ]
    found = least_cost(given["need_gal"] * GALLON, offered)
    return {
        "cost": found.cents / CENTS,
        "bought_gal": found.size / GALLON,
        "counts": list(found.counts),
    }


def wall_us(row: Row) -> Row:
    given = row["inputs"]
    gross = given["wall_length_ft"] * given["wall_height_ft"] * FOOT**2
    net = paint.net_area(gross, [area * FOOT**2 for area in given["openings_ft2"]])
    rate = given["rate_ft2_per_gal"] * US_RATE
    volume = paint.paint(net, rate, given["coats"], given["loss_frac"])
    return {
        "gross_ft2": gross / FOOT**2,
        "net_ft2": net / FOOT**2,
        "gallons": volume / GALLON,
    }


def wall_metric(row: Row) -> Row:
    given = row["inputs"]
    net = paint.net_area(given["gross_m2"], given["openings_m2"])
    rate = given["rate_m2_per_L"] * RATE
    volume = paint.paint(net, rate, given["coats"], given["loss_frac"])
    return {"net_m2": net, "litres": volume / LITRE}


def loss(row: Row) -> Row:
    given = row["inputs"]
    lost = 1 - given["transfer_efficiency"]
    return {"gallons": paint.with_loss(given["gallons_no_loss"], lost)}


ADAPTERS: dict[str, Callable[[Row], Row]] = {
    "trade:coverage_us": coverage,
    "trade:coverage_us_with_transfer_efficiency": covered,
    "trade:coverage_from_wet_film": from_wet_film,
    "trade:film_and_coverage_metric": coverage,
    "trade:wet_film": coverage,
    "trade:coverage_metric": coverage,
    "trade:packs_least_cost": packs,
    "trade:wall_paint_us": wall_us,
    "trade:wall_paint_metric": wall_metric,
    "trade:loss_semantics": loss,
}
