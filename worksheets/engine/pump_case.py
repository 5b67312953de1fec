"""The pipe of the inputs: its bore, its friction by either formula, and the head at a flow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from worksheets.engine import pump
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.result import Impossible
from worksheets.engine.rules import RuleSet, rule_set

FITTINGS = (
    ("elbow", "Elbow, 90°"),
    ("bend", "Long bend, 90°"),
    ("half_elbow", "Elbow, 45°"),
    ("tee_through", "Tee, straight through"),
    ("tee_branch", "Tee, through the branch"),
    ("ball_valve", "Ball valve, open"),
    ("gate_valve", "Gate valve, open"),
    ("globe_valve", "Globe valve, open"),
    ("check_valve", "Swing check valve"),
    ("foot_valve", "Foot valve with strainer"),
)
MATERIALS = (
    ("plastic", "Plastic"),
    ("copper", "Copper"),
    ("hose", "Hose"),
    ("steel", "Steel"),
    ("galvanised", "Galvanised steel"),
)


def water_rules() -> RuleSet:
    return rule_set("pipes", "water")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pipe:
    """Lengths in m; ``fittings`` as a length of pipe; ``outlet`` in m of head."""

    bore: float
    length: float
    fittings: float
    allowance: float
    lift: float
    outlet: float
    method: str
    roughness: float
    smoothness: float
    water: pump.Water

    @property
    def reckoned(self) -> float:
        return (self.length + self.fittings) * (1 + self.allowance)

    def friction(self, flow: float) -> float:
        """Head lost in m, of any flow; nothing is refused, for drawing the curve."""
        if self.method == "darcy":
            return self.darcy(flow).head
        return pump.hazen_williams(flow, self.bore, self.reckoned, self.smoothness)

    def darcy(self, flow: float) -> pump.Friction:
        return pump.darcy_weisbach(flow, self.bore, self.reckoned, self.roughness, self.water)

    def head(self, flow: float) -> float:
        return pump.total_dynamic_head(self.lift, self.friction(flow), self.outlet)


def pipe_of(given: Given) -> Pipe:
    bore, material = bore_of(given), given.choice("material")
    values = water_rules().values
    rough, smooth = given.maybe("roughness"), given.maybe("smoothness")
    water = pump.water_at(given["temperature"])
    found = Pipe(
        bore=bore,
        length=given["length"],
        fittings=pump.equivalent_length(fittings(given), bore),
        allowance=given["allowance"],
        lift=given["lift"],
        outlet=pump.head_of(given["outlet"], water.density),
        method=given.choice("method"),
        roughness=float(values["roughness"][material]) if rough is None else rough,
        smoothness=float(values["coefficient"][material]) if smooth is None else smooth,
        water=water,
    )
    if found.roughness >= bore * 0.1:
        raise Impossible("roughness", "The roughness is from 0 to a tenth of the pipe’s bore.")
    return found


def bore_of(given: Given) -> float:
    if given.choice("pipe") == "other":
        typed = given.maybe("bore")
        if typed is None:
            raise Impossible("bore", "Write the inside diameter, or choose a size of pipe.")
        return typed
    family, size = given.choice("pipe").split(":")
    return float(rule_set("pipes", family).values["inside"][size])


def fittings(given: Given) -> Sequence[tuple[float, float]]:
    lengths = rule_set("pipes", "fittings").values["lengths"]
    return [(row["count"], float(lengths[row.choice("kind")])) for row in given.rows("fittings")]


def limits() -> pump.Limits:
    values = water_rules().values
    return pump.Limits(
        smooth_from=float(values["smooth_from"]),
        smooth_to=float(values["smooth_to"]),
        least_bore=float(values["least_bore"]),
        fastest=float(values["fastest"]),
    )


def refuse_outside(pipe: Pipe, flow: float, temperature: float) -> None:
    """Hazen-Williams where it was never measured: said beside the choice of the formula."""
    if pipe.method == "darcy":
        return
    values = water_rules().values
    tail = "Choose Darcy-Weisbach."
    if not values["coldest"] <= temperature <= values["warmest"]:
        raise Impossible(
            "method", f"Hazen-Williams is for water from 5 to 25 °C (41 to 77 °F). {tail}"
        )
    try:
        pump.hazen_williams_checked(flow, pipe.bore, pipe.length, pipe.smoothness, limits())
    except pump.PumpError as error:
        raise Impossible("method", f"{error} {tail}") from None


def curve_of(given: Given) -> tuple[tuple[float, float], ...]:
    """The pump’s own curve, flow rising and head falling; empty where none is typed."""
    rows = list(typed_rows(given.rows("curve")))
    points = tuple((row["flow"], row["head"]) for _, row in rows)
    if len(points) == 1:
        raise Impossible("curve", "A curve has two points at least. Add one, or clear it.",
                         row=rows[0][0], column="flow")  # fmt: skip
    for (_, before), (place, row) in pairwise(rows):
        if row["flow"] <= before["flow"]:
            raise Impossible("curve", "Write the points in order: each flow above the one before.",
                             row=place, column="flow")  # fmt: skip
        if row["head"] > before["head"]:
            raise Impossible(
                "curve", "A pump’s head does not rise with its flow. Read the sheet again.",
                row=place, column="head",
            )  # fmt: skip
    return points
