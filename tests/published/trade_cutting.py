"""Adapters for the published rows of fixtures/published/trade-cutting.json."""

from collections.abc import Callable
from typing import Any

from projects.amounts import parse_amount
from worksheets.engine import amounts
from worksheets.engine.cutting import (
    Found,
    Problem,
    at_once,
    bars,
    bought,
    fewest_different,
    lower_bound,
    search,
    waste,
    whole,
)
from worksheets.engine.cutting import problem as cutting_problem
from worksheets.engine.dimensions import DIMENSIONS
from worksheets.engine.sections import Section, in_other_metal

Row = dict[str, Any]
PATIENCE = float("inf")  # a proof takes seconds, more on a busy machine
CENTS = parse_amount("1")  # in the unit of money


def length(number: float, unit: str) -> float:
    return amounts.parse(f"{number} {unit}", "length")


def size(row: Row, name: str) -> float:
    """A size of the row in metres; its unit stands in its name."""
    return length(*next((v, k.rsplit("_", 1)[1]) for k, v in row["inputs"].items()
                        if k.rsplit("_", 1)[0] == name))  # fmt: skip


def density(row: Row) -> float:
    given = row["inputs"]
    if "density_lb_ft3" in given:
        return amounts.parse(f"{given['density_lb_ft3']} lb/ft³", "density")
    return amounts.parse(f"{given['density_kg_m3']} kg/m³", "density")


def weight(row: Row, shape: str, **sizes: float) -> Row:
    mass = Section(shape=shape, density=density(row), **sizes).line_mass
    units = {unit.symbol: unit.factor for unit in DIMENSIONS["line_mass"].units}
    return {"lb_per_ft": mass / units["lb/ft"], "kg_per_m": mass / units["kg/m"]}


def square_tube(row: Row) -> Row:
    sizes = {"width": "outside", "wall": "wall", "radius": "outside_corner_radius"}
    return weight(row, "tube", **{mine: size(row, name) for mine, name in sizes.items()})


def round_tube(row: Row) -> Row:
    return weight(row, "round_tube", width=size(row, "outside_diameter"), wall=size(row, "wall"))


def flat_bar(row: Row) -> Row:
    return weight(row, "flat", width=size(row, "width"), wall=size(row, "thickness"))


def round_bar(row: Row) -> Row:
    return weight(row, "round_bar", width=size(row, "diameter"))


def angle(row: Row) -> Row:
    return weight(row, "angle", width=size(row, "leg1"), height=size(row, "leg2"),
                  wall=size(row, "thickness"))  # fmt: skip


def density_ratio(row: Row) -> Row:
    given = row["inputs"]
    return {"aluminium_lb_per_ft": in_other_metal(
        given["steel_lb_per_ft"], given["density_steel_pcf"], given["density_aluminium_pcf"]
    )}  # fmt: skip


def bar_problem(given: Row) -> Problem:
    unit = given["unit"]
    pieces = zip(given["sizes"], given["demand"], strict=True)
    return cutting_problem(
        [(whole(length(given["stock_length"], unit)), 1)],
        [(whole(length(each, unit)), count) for each, count in pieces],
        kerf=whole(length(given["kerf"], unit)),
        useful=whole(length(given["stock_length"], unit)),
    )


def cutting_stock(row: Row) -> Row:
    given = bar_problem(row["inputs"])
    found = search(given)
    number, asks = bars(found.plan), any("patterns" in key for key in row["expected"])
    fewest = fewest_different(given, found.plan, PATIENCE) if asks else (found.plan, False)
    return {
        "bars": number if found.proven else None,
        "lower_bound": found.least,
        "lp_bound": float(lower_bound(given, to_the_end=True).least),
        "waste_fraction": waste(given, found.plan) / bought(given, found.plan),
        f"min_patterns_at_{number}": len(fewest[0]) if fewest[1] else None,
    }


def kerf_only(row: Row) -> Row:
    return {"bars": proven(bar_problem(row["inputs"])).cost}


def proven(given: Problem) -> Found:
    found = at_once(given)
    return found if found.proven else search(given)


def mixed_stock(row: Row) -> Row:
    given = row["inputs"]
    stocks = [(whole(length(s, "in")), parse_amount(str(p))) for s, p in given["stocks_in_price"]]
    pieces = [(whole(length(each, "in")), 1) for each in given["pieces_in"]]
    found = proven(cutting_problem(stocks, pieces, kerf=whole(length(given["kerf_in"], "in"))))
    used = {cut.stock for cut in found.plan}
    return {
        "cost": found.cost / CENTS,
        "stocks_used_in": [given["stocks_in_price"][stock][0] for stock in sorted(used)],
    }


ADAPTERS: dict[str, Callable[[dict], dict]] = {
    "trade:weight_square_tube": square_tube,
    "trade:weight_square_tube_metric": square_tube,
    "trade:weight_round_tube": round_tube,
    "trade:weight_flat_bar": flat_bar,
    "trade:weight_round_bar": round_bar,
    "trade:weight_angle": angle,
    "trade:density_ratio": density_ratio,
    "trade:cutting_stock": cutting_stock,
    "trade:cutting_kerf_boundary": kerf_only,
    "trade:cutting_kerf": kerf_only,
    "trade:cutting_mixed_stock_cost": mixed_stock,
}
