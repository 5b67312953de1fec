"""Adapters for the published rows of fixtures/published/trade-working.json."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from worksheets.engine import heat, working
from worksheets.engine.amounts import show
from worksheets.engine.dimensions import DIMENSIONS, FOOT, System
from worksheets.engine.rules import rule_set

Row = dict[str, Any]
OSHA = rule_set("working", "us-osha")
OTM = rule_set("heat", "us-otm")
PLACES = {"unprotected_edge": "edge", "boom_lift": "boom", "scissor_lift": "scissor"}
KMH = DIMENSIONS["speed"].named("km/h")


def ladder_base(given: Row) -> Row:
    share = OSHA.values["base_share"]
    return {"base_ft": working.ladder_base(given["working_length_ft"] * FOOT, share) / FOOT}


def ladder_angle(given: Row) -> Row:
    return {"angle_deg": working.ladder_angle(given["ratio_base_to_length"])}


def ladder_length_needed(given: Row) -> Row:
    found = working.ladder_to(
        given["landing_height_ft"] * FOOT,
        given["extension_above_ft"] * FOOT,
        OSHA.values["base_share"],
    )
    return {"ladder_length_ft": found.length / FOOT, "base_ft": found.base / FOOT}


def heat_index(given: Row) -> Row:
    found = heat.heat_index(heat.celsius(given["air_F"]), given["rh_pct"] / 100)
    return {"heat_index_F": heat.fahrenheit(found)}


def fall_protection(given: Row) -> Row:
    place = PLACES.get(given["place"], given["place"])
    return {"required": working.fall_protection(place, given["height_ft"] * FOOT, OSHA)}


def wind_stop_unit(given: Row) -> Row:
    speed = given["wind_m_s"]
    words = show(speed, "speed", System.US, places=0)
    return {"mph": float(words.split()[0]), "km_h": speed / KMH.factor}


def wbgt_outdoor(given: Row) -> Row:
    found = heat.wbgt_outdoor(
        given["natural_wet_bulb_C"],
        given["globe_C"],
        given["dry_bulb_C"],
        OTM.values["weights"],
    )
    return {"wbgt_C": found}


ADAPTERS: dict[str, Callable[[Row], Row]] = {
    "trade:ladder_base": lambda row: ladder_base(row["inputs"]),
    "trade:ladder_angle": lambda row: ladder_angle(row["inputs"]),
    "trade:ladder_length_needed": lambda row: ladder_length_needed(row["inputs"]),
    "trade:heat_index": lambda row: heat_index(row["inputs"]),
    "trade:fall_protection_threshold": lambda row: fall_protection(row["inputs"]),
    "trade:wind_stop_unit": lambda row: wind_stop_unit(row["inputs"]),
    "trade:wbgt_outdoor": lambda row: wbgt_outdoor(row["inputs"]),
}
