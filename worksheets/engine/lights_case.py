"""The lights of the inputs: loads, battery, charge and wire, each with what it is taken from."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from worksheets.engine import lights
from worksheets.engine.dimensions import FOOT
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.result import Impossible
from worksheets.engine.rules import RuleSet, rule_set

HOUR = 3600.0  # seconds; energies and charges of the inputs are in joules and coulombs
KILO_FEET = 1000 * FOOT
GAUGES = tuple((size, f"{size} AWG") for size in ("18", "16", "14", "12", "10", "8", "6", "4"))


def rules(key: str) -> RuleSet:
    return rule_set("lights", key)


def wires() -> RuleSet:
    return rule_set("wires", "awg-75")


@dataclass(frozen=True, slots=True, kw_only=True)
class Power:
    """Energies in Wh a night, powers in W, ``night`` in h."""

    watts: float
    night: float
    used: float
    need: float  # with what the electronics lose
    days: float
    depth: float
    efficiency: float
    returns: float
    volts: float
    bank: lights.Bank
    current: float

    @property
    def whole_days(self) -> int:
        return max(1, math.ceil(self.days - 1e-9))


def power_of(given: Given) -> Power:
    night = night_of(given)
    loads = [load(row, place, night) for place, row in typed_rows(given.rows("loads"))]
    kind = battery_kind(given)
    depth, returns = given.maybe("depth"), given.maybe("returns")
    used = lights.energy(loads)
    need = lights.energy(loads, 1 + given["losses"])
    depth = float(kind["depth"]) if depth is None else depth
    volts, watts = given["volts"], sum(watts for watts, _ in loads)
    typed = given.maybe("current")
    return Power(
        watts=watts,
        night=night,
        used=used,
        need=need,
        days=given["days"],
        depth=depth,
        efficiency=given["delivery"],
        returns=float(kind["returns"]) if returns is None else returns,
        volts=volts,
        bank=lights.battery(need, given["days"], depth, volts, given["delivery"]),
        current=watts / volts if typed is None else typed,
    )


def night_of(given: Given) -> float:
    """Hours: as typed, else the longest night of the site."""
    typed = given.maybe("night")
    if typed is not None:
        return typed / HOUR
    latitude = given.maybe("latitude")
    if latitude is None:
        raise Impossible("night", "Write the longest night, or the latitude of the site.")
    return lights.longest_night(latitude)


def load(row: Given, place: int, night: float) -> tuple[float, float]:
    hours = row.maybe("hours")
    told = night if hours is None else hours / HOUR
    if told > 24:
        raise Impossible("loads", "A day has 24 hours.", row=place, column="hours")
    return row["count"] * row["watts"], told


def battery_kind(given: Given) -> Mapping[str, Any]:
    found: Mapping[str, Any] = rules("batteries").values[given.choice("battery")]
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Charge:
    """``makes`` is what a day of charging puts to use, in Wh; None where nothing is known."""

    way: str
    panel: float = 0.0  # W
    hours: float = 0.0  # of turning a night
    ratio: float = 0.0  # minutes of light for a minute of turning
    makes: float | None = None


def charge_of(given: Given, power: Power) -> Charge:
    way = given.choice("charge")
    if way == "sun":
        return by_sun(given, power)
    if way == "crank":
        return by_hand(given, power)
    return Charge(way=way)


def by_sun(given: Given, power: Power) -> Charge:
    sun, system = given["sun"] / HOUR, given["system"]
    owned = given.maybe("panel")
    return Charge(
        way="sun",
        panel=lights.array(power.need, sun, system),
        makes=None if owned is None else owned * sun * system,
    )


def by_hand(given: Given, power: Power) -> Charge:
    """What the arm gives is lost in the generator, then in the battery."""
    kept = given["crank_keeps"] * power.returns * power.efficiency
    turned, each = given.maybe("visitors"), given.maybe("turning")
    if (turned is None) != (each is None):
        name = "visitors" if turned is None else "turning"
        raise Impossible(name, "Visitors and minutes go together. Write both, or none.")
    makes = None
    if turned is not None and each is not None:
        makes = turned * each / HOUR * given["crank"] * kept
    return Charge(
        way="crank",
        hours=lights.crank_hours(power.need, given["crank"], kept),
        ratio=lights.light_for_turning(given["crank"], kept, power.watts * (1 + given["losses"])),
        makes=makes,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A wire, out and back; ``resistance`` in ohm/m at ``warm`` °C."""

    length: float
    resistance: float
    warm: float
    words: str
    drop: lights.Drop

    @property
    def left(self) -> float:
        """Share of the supply that arrives."""
        return 1 - self.drop.share


def run_of(given: Given, power: Power) -> Run:
    by_area = given.choice("wire") == "area"
    length = given["run"]
    resistance = area_resistance(given) if by_area else gauge_resistance(given)
    drop = lights.drop(power.current, length, resistance, power.volts)
    if drop.share >= 1:
        raise Impossible(
            "run", "So long and thin a wire leaves no voltage at its end. Shorten it, or take a "
            "thicker one.",
        )  # fmt: skip
    strand = dict(STRANDS)[given.choice("strand")].lower()
    words = f"{given['area'] * 1e6:g} mm²" if by_area else f"{given.choice('gauge')} AWG, {strand}"
    warm = given["warm"] if by_area else 75.0
    return Run(length=length, resistance=resistance, warm=warm, words=words, drop=drop)


STRANDS = (("stranded", "Stranded"), ("solid", "Solid"))


def gauge_resistance(given: Given) -> float:
    size, strand = given.choice("gauge"), given.choice("strand")
    row = wires().values["ohm_per_kft"][size]
    if strand not in row:
        raise Impossible("strand", f"{size} AWG has a row for stranded wire only. Choose stranded.")
    return float(row[strand]) / KILO_FEET


def area_resistance(given: Given) -> float:
    values = rule_set("wires", "copper").values
    return lights.resistance_of(
        given["area"],
        float(values["resistivity"]),
        at=float(values["at"]),
        now=given["warm"],
        growth=float(values["growth"]),
    )


def beyond_low_voltage(given: Given, power: Power) -> str:
    """Why an electrician must look; empty within extra-low voltage."""
    limits = rules("low-voltage")
    if given.choice("charge") == "mains":
        return "There is a connection to the mains."
    kind = given.choice("current_kind")
    if power.volts > float(limits.values[kind]) + 1e-9:
        return f"{limits.clause(kind)}."
    return "The wire runs in a public way." if given.flag("public") else ""
