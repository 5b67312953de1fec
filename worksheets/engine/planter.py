"""A planter from what was typed: soil to buy, and what it weighs with every pore full of water."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.engine import soil
from worksheets.engine.dimensions import GRAVITY
from worksheets.engine.given import Given
from worksheets.engine.result import Impossible
from worksheets.engine.rules import RuleSet, rule_set
from worksheets.engine.soil import SoilError

HAIR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Planter:
    """Volumes in m³, masses in kg, of one planter; ``dry`` is None where it is not known."""

    given: Given
    rules: RuleSet
    count: int
    volume: float
    footprint: float
    drain: float
    dry: float | None
    wet_density: float

    @property
    def wet(self) -> float:
        return self.volume * self.wet_density

    @property
    def reservoir(self) -> float:
        return soil.water_mass(self.given["reservoir"])

    @property
    def mass(self) -> float:
        given = self.given
        return self.wet + self.drain + given["container"] + given["plants"] + self.reservoir

    @property
    def pressure(self) -> float:
        """On what carries it, in Pa, spread over its footprint."""
        return self.mass * GRAVITY / self.footprint

    @property
    def raised(self) -> bool:
        return self.given.choice("stands") != "ground"

    @property
    def says_limit(self) -> float | None:
        return self.given.maybe("carries")


def planter(given: Given) -> Planter:
    rules = rule_set("soil", "trade")
    dry, wet = densities(given, rules)
    shape, length = given.choice("shape"), given["length"]
    wide = width_of(given)
    footprint = soil.footprint(shape, length, wide)
    return Planter(
        given=given, rules=rules, count=given.count("count"),
        volume=volume(given, wide) * given["fill"], footprint=footprint,
        drain=footprint * lower_share(given) * given["drain"] * rules.values["gravel"],
        dry=dry, wet_density=wet,
    )  # fmt: skip


def width_of(given: Given) -> float:
    if given.choice("shape") == "round":
        return given["length"]
    width = given.maybe("width")
    if width is None:
        raise Impossible("width", "A box needs a width. Write it, or choose “round”.")
    return width


def lower_share(given: Given) -> float:
    """Area at the bottom as a share of the area at the top."""
    return given["taper"] ** 2 if given.choice("shape") == "taper" else 1.0


def volume(given: Given, width: float) -> float:
    length, depth = given["length"], given["depth"]
    if given.choice("shape") == "round":
        return soil.round_pot(length, depth)
    if given.choice("shape") == "box":
        return soil.box(length, width, depth)
    top = length * width
    return soil.tapered(top, top * lower_share(given), depth)


def densities(given: Given, rules: RuleSet) -> tuple[float | None, float]:
    """Dry and soaked: of the chosen mix, as typed, or soaked from the pores."""
    mix = rules.values["mixes"].get(given.choice("mix"))
    if mix is not None:
        return mix["dry"], mix["wet"]
    known, dry = given.maybe("wet"), given.maybe("dry")
    if dry is None:
        if known is not None:
            return None, known
        raise Impossible("dry", "Write a density, dry or soaked, or choose a mix above.")
    if known is None:
        try:
            return dry, soil.saturated(dry, given["gravity"])
        except SoilError as error:
            raise Impossible("gravity", str(error)) from None
    if known < dry - HAIR:
        raise Impossible("wet", "Soaked soil cannot weigh less than dry soil. Change one of them.")
    return dry, known
