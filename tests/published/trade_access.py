"""Adapters for the published rows of fixtures/published/trade-access.json."""

from collections.abc import Callable

from worksheets.engine import reach
from worksheets.engine.dimensions import INCH, POUND_FORCE
from worksheets.engine.rules import rule_set

RULES = rule_set("reach", "us-2010")
PLACES = 9  # of what the units leave


def inches(metres: float | None) -> float | None:
    return None if metres is None else round(metres / INCH, PLACES)


def reach_adult(row: dict) -> dict:
    found = reach.reach(
        RULES,
        reach.ADULT,
        row["height_in"] * INCH,
        approach=row["approach"],
        depth=row["reach_depth_in"] * INCH,
        obstruction=row["obstruction_height_in"] * INCH if "obstruction_height_in" in row else None,
    )
    return {"ok": found.ok, "max_in": inches(found.most), "min_in": inches(found.least)}


def reach_child(row: dict) -> dict:
    return {"ok": reach.reach(RULES, row["age_group"], row["height_in"] * INCH).ok}


def reach_common_band(row: dict) -> dict:
    found = reach.common_band(RULES, row["groups"])
    low, high = found or (None, None)
    return {
        "low_in": inches(low),
        "high_in": inches(high),
        "low_mm": None if low is None else low * 1000,
        "high_mm": None if high is None else high * 1000,
    }


def protruding_object(row: dict) -> dict:
    edge, out = row["leading_edge_height_in"] * INCH, row["protrusion_in"] * INCH
    return {"ok": reach.sticks_out(RULES, edge, out, post=row["post_mounted"]).ok}


def operable_force(row: dict) -> dict:
    force = row["force_lbf"] * POUND_FORCE
    found = reach.operable(RULES, force)
    return {"force_N": force, "ok": found is not None and found.ok}


def clear_floor_space(row: dict) -> dict:
    wide, long = reach.floor_space(
        RULES,
        row["width_in"] * INCH,
        row["length_in"] * INCH,
        approach={"parallel": "side"}.get(row["approach"], row["approach"]),
        alcove=row["alcove_depth_in"] * INCH,
    )
    return {"required_width_in": inches(wide.least), "ok": wide.ok and long.ok}


ADAPTERS: dict[str, Callable[[dict], dict]] = {
    "trade:reach_adult": lambda row: reach_adult(row["inputs"]),
    "trade:reach_child": lambda row: reach_child(row["inputs"]),
    "trade:reach_common_band": lambda row: reach_common_band(row["inputs"]),
    "trade:protruding_object": lambda row: protruding_object(row["inputs"]),
    "trade:operable_force": lambda row: operable_force(row["inputs"]),
    "trade:clear_floor_space": lambda row: clear_floor_space(row["inputs"]),
}
