"""Ladders, falls, dust and wind: what a clause asks of work at height.

Lengths in m, speeds in m/s, angles in degrees. The limits come from fixtures/rules/working.json.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from worksheets.engine.rules import RuleSet

SILICA = ("brick", "concrete", "mortar", "stone", "tile", "plaster")
SLACK = 1e-6  # of a height kept in whole millimetres or of a typed inch


class WorkingError(ValueError):
    """An input outside its range; the message says the range."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """``working`` runs along the rails from the foot to the top support."""

    support: float  # height of the top support
    working: float
    base: float
    length: float  # needed, with the rails above the landing
    angle: float

    @property
    def top(self) -> float:
        return self.length * math.sin(math.radians(self.angle))


def ladder_angle(base_share: float) -> float:
    """Angle to the ground whose cosine is the foot's distance over the length.

    A quarter of the length gives 75.5°; a quarter of the height would give 75.96°. Source:
    29 CFR 1926.1053(a)(1)(ii) and (b)(5)(i). Raises WorkingError outside 0 to 1.

    >>> round(ladder_angle(0.25), 2)
    75.52
    """
    if not 0 < base_share < 1:
        raise WorkingError("The foot stands out by a share of the length between 0 and 1.")
    return math.degrees(math.acos(base_share))


def ladder_base(working: float, base_share: float) -> float:
    """How far out the foot stands, for a working length in m.

    >>> ladder_base(4.0, 0.25)
    1.0
    """
    if working <= 0:
        raise WorkingError("A working length is more than 0.")
    return working * base_share


def ladder_to(support: float, extension: float, base_share: float) -> Ladder:
    """The ladder for a landing at a height in m, its rails ``extension`` m higher.

    The overlap of the sections of an extension ladder comes on top.

    >>> found = ladder_to(14 * 0.3048, 3 * 0.3048, 0.25)
    >>> round(found.length / 0.3048, 2), round(found.base / 0.3048, 2)
    (17.56, 3.61)
    """
    if support <= 0 or extension < 0:
        raise WorkingError("A landing is above the ground, and rails end above it or level.")
    angle = ladder_angle(base_share)
    slope = math.sin(math.radians(angle))
    working = support / slope
    return Ladder(
        support=support,
        working=working,
        base=ladder_base(working, base_share),
        length=(support + extension) / slope,
        angle=angle,
    )


def support_of(working: float, base_share: float) -> float:
    """Height of the top support of a ladder whose working length is known, in m."""
    return ladder_base(working, base_share) * math.tan(math.radians(ladder_angle(base_share)))


def fall_protection(place: str, height: float, rules: RuleSet) -> bool | None:
    """Whether a place (edge, scaffold, scissor, boom, hoisted) at a height in m asks for it.

    None where the set has no threshold for such a place. Below a threshold falls still kill.
    Raises WorkingError for a height below 0.

    >>> from worksheets.engine.rules import rule_set
    >>> us = rule_set("working", "us-osha")
    >>> fall_protection("edge", 1.8288, us), fall_protection("scaffold", 3.048, us)
    (True, False)
    """
    if height < 0:
        raise WorkingError("A height above the lower level is 0 or more.")
    threshold: Mapping[str, Any] | None = rules.values.get("falls", {}).get(place)
    if threshold is None:
        return None
    limit = float(threshold["height"])
    if threshold["at"]:
        return height >= limit - SLACK
    return height > limit + SLACK


def tips(height: float, base: float, rules: RuleSet) -> bool | None:
    """Whether a free-standing scaffold of a height and least base in m must be held.

    >>> from worksheets.engine.rules import rule_set
    >>> us = rule_set("working", "us-osha")
    >>> tips(4.0, 1.0, us), tips(4.1, 1.0, us)
    (False, True)
    """
    if base <= 0:
        raise WorkingError("The base of a scaffold is wider than 0.")
    ratio = rules.values.get("scaffold_ratio")
    return None if ratio is None else height > ratio * base + SLACK


@dataclass(frozen=True, slots=True, kw_only=True)
class Dust:
    """``known`` is False where the set has a row for the tool that is not reckoned here."""

    silica: bool
    known: bool = True
    missing: tuple[str, ...] = ()  # of the controls that the row names


def dust(tool: str, material: str, controls: Mapping[str, bool], rules: RuleSet) -> Dust:
    """What a drill in a material that holds silica still lacks of its row of the table.

    >>> from worksheets.engine.rules import rule_set
    >>> us = rule_set("working", "us-osha")
    >>> dust("hammer_drill", "brick", {"shroud": True, "vacuum": False}, us).missing
    ('vacuum',)
    """
    if tool == "none" or material not in SILICA:
        return Dust(silica=False)
    if tool not in rules.values.get("drills", ()):
        return Dust(silica=True, known=False)
    lacking = tuple(name for name in ("shroud", "vacuum") if not controls.get(name))
    return Dust(silica=True, missing=lacking)


def wind_aloft(gust: float, height: float, rules: RuleSet) -> float:
    """What a gust measured at the ground may be at a height, in m/s: half as much again at 20 m.

    The growth is taken in proportion below that height, and as it is above.

    >>> from worksheets.engine.rules import rule_set
    >>> wind_aloft(10.0, 20.0, rule_set("working", "trade"))
    15.0
    """
    most = float(rules.values["aloft_factor"]) - 1
    return gust * (1 + most * min(1.0, max(0.0, height) / float(rules.values["aloft_height"])))


def wind_standing(gust: float, limit: float, near: float) -> str:
    """“over” above the limit, “near” from a share of it on, else “within”.

    >>> wind_standing(12.6, 12.5, 0.8), wind_standing(11.0, 12.5, 0.8), wind_standing(5, 12.5, 0.8)
    ('over', 'near', 'within')
    """
    if gust > limit + SLACK:
        return "over"
    return "near" if gust >= limit * near else "within"
