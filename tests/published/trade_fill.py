"""Adapters for the published rows of fixtures/published/trade-fill.json."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from worksheets.engine import filling, soil
from worksheets.engine.dimensions import FOOT, GALLON, INCH, POUND

Row = dict[str, Any]
CUBIC_FOOT, PCF, MM, ML, LITRE = FOOT**3, POUND / FOOT**3, 1e-3, 1e-6, 1e-3
CM, IN3 = 1e-2, INCH**3


def lengths(given: Row) -> dict[str, float]:
    """Every length of the row in m, without the unit in its name."""
    units = {"_ft": FOOT, "_in": INCH, "_mm": MM, "_cm": CM, "_m": 1.0}
    return {
        name.removesuffix(end): value * factor
        for name, value in given.items()
        for end, factor in units.items()
        if name.endswith(end)
    }


def area_of(given: Row) -> float:
    return given["area_m2"] if "area_m2" in given else given["area_ft2"] * FOOT**2


def volume_of(size: dict[str, float]) -> float:
    if "diameter" in size:
        return soil.round_pot(size["diameter"], size["depth"])
    return soil.box(size["length"], size["width"], size["depth"])


def planter_mass(row: Row) -> Row:
    given = row["inputs"]
    volume = volume_of(lengths(given))
    wet = volume * given["saturated_pcf"] * PCF / POUND
    dry = volume * given.get("dry_pcf", given["saturated_pcf"]) * PCF / POUND
    size = lengths(given)
    shape = "round" if "diameter" in size else "box"
    long = size.get("diameter", size.get("length", 0.0))
    floor = soil.footprint(shape, long, size.get("width", 0.0)) / FOOT**2
    return {
        "volume_ft3": volume / CUBIC_FOOT,
        "mass_lb": wet,
        "saturated_lb": wet,
        "dry_lb": dry,
        "water_lb": wet - dry,
        "load_psf": wet / floor,
    }


def planter_volume(row: Row) -> Row:
    given = row["inputs"]
    size, count = lengths(given), given.get("count", 1)
    footprint = soil.footprint("box", size["length"], size["width"]) * count
    volume = volume_of(size) * count
    return {"area_ft2": footprint / FOOT**2, "volume_ft3": volume / CUBIC_FOOT}


def water_mass(row: Row) -> Row:
    volume = row["inputs"]["gallons"] * GALLON
    mass = soil.water_mass(volume) / POUND
    return {"mass_lb": mass, "volume_ft3": volume / CUBIC_FOOT}


def tapered(row: Row) -> Row:
    size = lengths(row["inputs"])
    volume = soil.tapered(size["top"] ** 2, size["bottom"] ** 2, size["depth"])
    return {"volume_in3": volume / INCH**3, "volume_ft3": volume / CUBIC_FOOT}


def saturated(row: Row) -> Row:
    given = row["inputs"]
    dry, gravity, water = (given["dry_pcf"] * PCF, given["specific_gravity"],
                           given["water_pcf"] * PCF)  # fmt: skip
    return {
        "porosity": soil.porosity(dry, gravity, water),
        "saturated_pcf": soil.saturated(dry, gravity, water) / PCF,
    }


def footing(row: Row) -> Row:
    given = row["inputs"]
    size = lengths(given)
    area = filling.disc(size["diameter"]) if "diameter" in size else size["length"] * size["width"]
    volume = filling.poured(area, size["depth"])
    need = volume * (1 + given.get("waste_frac", 0.0))
    yields = [each * CUBIC_FOOT for each in given["bag_yield_ft3"]]
    return {
        "volume_ft3": volume / CUBIC_FOOT,
        "mass_lb": volume * given.get("concrete_pcf", 0.0) * PCF / POUND,
        "bags_unrounded": [need / each for each in yields],
        "bags": [filling.whole(need, each) for each in yields],
    }


def adhesive(row: Row) -> Row:
    given = row["inputs"]
    size = lengths(given)
    each = filling.dispensed(size["hole"], size["embed"], given["fill_fraction_of_hole"])
    gap = filling.annulus(size["hole"], size["rod"], size["embed"])
    total = each * given["holes"] * (1 + given.get("waste_frac", 0.0))
    return {
        "annulus_mL_each": gap / ML,
        "annulus_in3_each": gap / IN3,
        "dispense_mL_total": total / ML,
        "dispense_in3_total": total / IN3,
    }


def grout(row: Row) -> Row:
    given = row["inputs"]
    size = lengths(given)
    rule = filling.joint_rule(size["tile_a"], size["tile_b"], size["joint"], size["depth"])
    mass = rule * given["density_kg_L"] / LITRE
    return {"kg_per_m2": mass, "m2_per_bag": given["bag_kg"] / mass}


def tile_count(row: Row) -> Row:
    given = row["inputs"]
    size = lengths(given)
    net = filling.tiles(area_of(given), size["tile_a"], size["tile_b"], size["joint"])
    return {
        "tiles_net": net,
        "tiles_order": filling.whole(net * (1 + given.get("waste_frac", 0.0)), 1),
    }


ADAPTERS: dict[str, Callable[[Row], Row]] = {
    "trade:planter_mass": planter_mass,
    "trade:planter_volume": planter_volume,
    "trade:water_mass": water_mass,
    "trade:tapered_planter_volume": tapered,
    "trade:saturated_density": saturated,
    "trade:footing_concrete": footing,
    "trade:anchor_adhesive": adhesive,
    "trade:grout": grout,
    "trade:tile_count": tile_count,
}
