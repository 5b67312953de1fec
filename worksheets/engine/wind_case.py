"""From the inputs of the worksheet on wind to pressure and force, by the code that was chosen."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from worksheets.engine import wind
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.result import Impossible
from worksheets.engine.rules import RuleSet, rule_set

WEATHER = re.compile(r"\b(weather|forecast|met office|app|beaufort)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Push:
    """How hard the wind pushes: pressures in Pa, forces in N, heights in m."""

    rules: RuleSet
    faces: tuple[wind.Face, ...]
    tops: tuple[tuple[float, float], ...]  # lower and upper edge of each face
    area: float
    arm: float
    height: float  # at which the pressure is taken
    pressure: float
    force: float  # as the code gives it
    service: float  # of the same level as allowable loads
    steps: tuple[tuple[str, str, float], ...]  # key, label, factor
    notes: tuple[str, ...]

    @property
    def moment(self) -> float:
        return self.service * self.arm


def push(given: Given) -> Push:
    """Raises Impossible where the code does not cover what was entered."""
    rules = code_of(given)
    edges = edges_of(given)
    faces = tuple(wind.Face(area=w * (top - low), centre=(top + low) / 2) for w, low, top in edges)
    area = math.fsum(face.area for face in faces)
    at = height_of(rules, edges)
    pressure, steps, notes = pressure_of(given, rules, at)
    shape = shape_of(given, rules)
    force = pressure * shape * area
    return Push(
        rules=rules,
        faces=faces,
        tops=tuple((low, top) for _, low, top in edges),
        area=area,
        arm=wind.arm(faces),
        height=at,
        pressure=pressure,
        force=force,
        service=force * rules.values["service"],
        steps=steps,
        notes=notes,
    )


def code_of(given: Given) -> RuleSet:
    """The edition; refused where its constants are not here, or the speed is not from its map."""
    rules = rule_set("wind", given.choice("code"))
    if rules.values["family"] == "none":
        raise Impossible(
            "code",
            f"{rules.title} has other constants for height and direction. They are not in this "
            "planner: ask the engineer, or choose the edition that your building office names.",
        )
    if WEATHER.search(given.words("speed_from")):
        raise Impossible(
            "speed_from",
            "A weather report is never a design speed. Take it from the map of the code, for the "
            "site and its risk category.",
        )
    low, high = rules.values["speed_from"], rules.values["speed_to"]
    if not low - 1e-9 <= given["speed"] <= high + 1e-9:
        raise Impossible(
            "speed",
            f"{given.both(given['speed'], 'speed')} is not on the map of {rules.title}: write a "
            f"speed from {given.both(low, 'speed')} to {given.both(high, 'speed')}.",
        )
    return rules


def edges_of(given: Given) -> list[tuple[float, float, float]]:
    """Width, lower and upper edge of every face, in m above the ground."""
    first = (given["width"], given["bottom"], given["bottom"] + given["height"])
    return [first] + [
        (row["width"], row["bottom"], row["bottom"] + row["height"])
        for _, row in typed_rows(given.rows("more"))
    ]


def height_of(rules: RuleSet, edges: list[tuple[float, float, float]]) -> float:
    """ASCE takes the pressure at the top, EN 7.4.3 at the middle of the highest board."""
    if rules.values["family"] == "asce":
        return max(top for _, _, top in edges)
    return max((low + top) / 2 for _, low, top in edges)


def shape_of(given: Given, rules: RuleSet) -> float:
    """Force coefficient with gusts and openings."""
    solid = given["solidity"]
    if solid < rules.values["solid_from"] - 1e-12:
        least = given.show(rules.values["solid_from"], "fraction")
        raise Impossible(
            "solidity",
            f"Below {least} solid the rule for openings no longer holds "
            f"({rules.clause('porous')}). Ask the engineer.",
        )
    if rules.values["family"] == "asce":
        return given["gust"] * given["shape"] * wind.solid_share(solid)
    return given["cscd"] * given["shape"]


def pressure_of(
    given: Given, rules: RuleSet, at: float
) -> tuple[float, tuple[tuple[str, str, float], ...], tuple[str, ...]]:
    if rules.values["family"] == "asce":
        return asce_pressure(given, rules, at)
    return en_pressure(given, rules, at)


def asce_pressure(
    given: Given, rules: RuleSet, at: float
) -> tuple[float, tuple[tuple[str, str, float], ...], tuple[str, ...]]:
    code: Mapping[str, Any] = rules.values
    kz = wind.exposure_coefficient(at, given.choice("exposure"), code)
    share = kz * given["hills"] * given["direction"]
    share *= given["importance"] if code["importance"] else 1.0
    pressure = wind.velocity_pressure(given["speed"], share, code["half_density"])
    low = f"The piece ends below {given.both(code['kz_from'], 'length')}: Kz is taken at that "
    notes = (low + f"height ({rules.clause('kz')}).",) if at < code["kz_from"] else ()
    return pressure, (("kz", "Kz, exposure and height", kz),), notes


def en_pressure(
    given: Given, rules: RuleSet, at: float
) -> tuple[float, tuple[tuple[str, str, float], ...], tuple[str, ...]]:
    ground = rules.values["terrains"][given.choice("terrain")]
    found = wind.gusts(
        given["speed"], at, ground["z0"], rules.values, least=ground["zmin"], hills=given["hills"]
    )
    steps = (
        ("cr", "cr, roughness of the terrain", found.terrain),
        ("iv", "Iv, turbulence", found.turbulence),
    )
    low = f"The middle lies below {given.both(ground['zmin'], 'length')}: the pressure is taken at "
    notes = (low + f"that height ({rules.clause('kz')}).",) if at < ground["zmin"] else ()
    return found.peak, steps, notes
