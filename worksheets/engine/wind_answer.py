"""What the worksheet on wind answers: figures, findings and what holds the piece."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from worksheets.engine import wind
from worksheets.engine.dimensions import FOOT, GRAVITY, POUND, System
from worksheets.engine.example import is_example, still_example
from worksheets.engine.given import Given
from worksheets.engine.result import Figure, Finding, Hand, Impossible, Standing, ToLine
from worksheets.engine.rules import rule_set
from worksheets.engine.wind_case import Push

CONCRETE = 150 * POUND / FOOT**3  # kg/m³, normal weight
WITHIN_OR_OVER = {True: Standing.WITHIN, False: Standing.OVER}


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """Lengths in m; words are ready to be shown."""

    faces: Sequence[tuple[float, float]]  # lower and upper edge
    arm: float
    stands: str  # free, wall, post
    force: str
    arm_words: str
    base: float = 0.0
    base_words: str = ""
    eccentricity: float | None = None
    eccentricity_words: str = ""
    weight: str = ""
    depth: float = 0.0
    depth_words: str = ""


def push_figures(given: Given, found: Push) -> tuple[Figure, ...]:
    q = found.rules.clause("q")
    steps = tuple(
        Figure(key=key, label=label, value=value, places=3, note=found.rules.clause("kz"))
        for key, label, value in found.steps
    )
    return (
        Figure(key="force", label="Force of the wind", value=found.force, of="force", toward="up",
               main=True, note=found.rules.clause("force")),
        Figure(key="service", label="The same, of the level of allowable loads",
               value=found.service, of="force", toward="up", note=found.rules.clause("service")),
        Figure(key="pressure", label="Velocity pressure", value=found.pressure, of="pressure",
               note=q),
        *steps,
        Figure(key="area", label="Area that meets the wind", value=found.area, of="area"),
        Figure(key="arm", label="Height of the force above the ground", value=found.arm,
               of="length"),
        Figure(key="moment", label="Overturning moment about the foot", value=found.moment,
               of="moment", toward="up", note="of the force of the level of allowable loads"),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What holds the piece: ``end`` closes the sentence of the result."""

    end: str
    side: Side
    figures: tuple[Figure, ...] = ()
    findings: tuple[Finding, ...] = ()
    hands: tuple[Hand, ...] = ()


def standing_free(given: Given, found: Push) -> Held:
    weight, width, factor = given["mass"] * GRAVITY, given["base"], given["factor"]
    held = wind.stability(force=found.service, moment=found.moment, weight=weight, width=width,
                          length=given["base_length"], friction=given["friction"])  # fmt: skip
    needed = max(
        wind.weight_for_overturning(found.moment, width, factor),
        wind.weight_for_sliding(found.service, given["friction"], factor),
    )
    ballast = max(0.0, (needed - weight) / GRAVITY)
    checks = (("Tipping", held.by_overturning), ("Sliding", held.by_sliding))
    findings = tuple(check(name, by, factor) for name, by in checks)
    side = replace(
        drawn(given, found, "free"), base=width,
        base_words=given.show(width, "length"), weight=f"Weight {given.show(weight, 'force')}",
        eccentricity=held.eccentricity,
        eccentricity_words=f"off the middle {given.show(held.eccentricity, 'small_length')}",
    )  # fmt: skip
    limits = [f"{name.lower()} is {limit_words(by, factor)}" for name, by in checks]
    hands = (ballast_line(given, ballast),) if ballast > 0 else ()
    return Held(
        end="; " + " and ".join(limits),
        side=side,
        figures=free_figures(given, held, ballast),
        findings=findings,
        hands=hands,
    )


def free_figures(given: Given, held: wind.Stability, ballast: float) -> tuple[Figure, ...]:
    factor, tips = given["factor"], math.isinf(held.toe)
    return (
        factor_figure("by_overturning", "Against tipping", held.by_overturning, factor),
        factor_figure("by_sliding", "Against sliding", held.by_sliding, factor),
        Figure(key="ballast", label="Further ballast for both", value=ballast, of="mass",
               toward="up", main=True, note="the greater of what tipping and sliding ask for"),
        Figure(key="resisting", label="Moment that resists tipping", value=held.resisting,
               of="moment", toward="down"),
        Figure(key="eccentricity", label="Resultant, off the middle of the base",
               value=held.eccentricity, of="length", toward="up"),
        Figure(key="toe", label="Greatest pressure on the ground",
               text="none can be given: the weight falls outside the base" if tips else "",
               value=None if tips else held.toe, of="" if tips else "pressure", toward="up"),
    )  # fmt: skip


def factor_figure(key: str, label: str, by: float, factor: float) -> Figure:
    return Figure(key=key, label=f"{label}: resisting over acting", value=by, places=2,
                  toward="down", standing=WITHIN_OR_OVER[by >= factor],
                  note=f"the entered limit asks for {factor:g}")  # fmt: skip


def check(name: str, by: float, factor: float) -> Finding:
    return Finding(
        standing=WITHIN_OR_OVER[by >= factor],
        says=f"{name} is {limit_words(by, factor)}.",
        rule="Factor as entered; 1.5 in IBC 1807.2.3 as cited in a city permit file",
    )


def limit_words(by: float, factor: float) -> str:
    side = "within" if by >= factor else "over"
    shown = math.floor(by * 100 + 1e-9) / 100
    return f"{side} the entered limit ({shown:g} where {factor:g} is asked for)"


def ballast_line(given: Given, ballast: float) -> ToLine:
    us = given.system == System.US
    return ToLine(key="ballast", label="Ballast", quantity=ballast / (POUND if us else 1),
                  unit="lb" if us else "kg")  # fmt: skip


def on_a_wall(given: Given, found: Push) -> Held:
    pull = given.both(found.service, "force", toward="up")
    finding = Finding(
        standing=Standing.NOTE,
        says=f"It hangs on a wall: take {pull} as the pull away from the wall into the worksheet "
        "on anchors, where the anchors and not this sheet decide.",
    )
    side = drawn(given, found, "wall")
    return Held(end=" and has to be held by anchors", side=side, findings=(finding,))


def in_soil(given: Given, found: Push) -> Held:
    values = found.rules.values
    if "post_coefficient" not in values:
        raise Impossible(
            "stands",
            "The formula for a post in soil is from the US code (IBC 1807.3.2.1) and is kept apart "
            "from EN. Ask the engineer for the foundation, or choose how else it stands.",
        )
    depth = wind.embedment_in(
        found.service, found.arm, given["soil"], given["post"], deepest=values["post_depth_to"],
        coefficient=values["post_coefficient"], lever=values["post_arm"],
    )  # fmt: skip
    concrete = wind.round_weight(given["post"], depth, CONCRETE)
    side = replace(
        drawn(given, found, "post"), base=given["post"], depth=depth,
        depth_words=given.show(depth, "length", toward="up"),
    )  # fmt: skip
    figures = (
        Figure(key="depth", label="Depth of the post in the soil", value=depth, of="length",
               toward="up", main=True, note=found.rules.clause("post")),
        Figure(key="concrete", label="Concrete in the hole", value=concrete, of="mass",
               toward="up", note="as if the post took no room"),
    )  # fmt: skip
    line = ToLine(key="concrete", label="Concrete for the post", unit="ft³",
                  quantity=concrete / CONCRETE / FOOT**3)  # fmt: skip
    end = f" and a post goes {given.both(depth, 'length', toward='up')} into the soil"
    finding = Finding(
        standing=Standing.NOTE, rule=found.rules.clause("post"),
        says="The soil’s pressure is that of a table or report, not doubled for short loads; the "
        "ground must be level and not paved over on one side.",
    )  # fmt: skip
    return Held(end=end, side=side, figures=figures, findings=(finding,), hands=(line,))


def drawn(given: Given, found: Push, stands: str) -> Side:
    return Side(
        faces=found.tops,
        arm=found.arm,
        stands=stands,
        force=given.show(found.service, "force", toward="up"),
        arm_words=given.show(found.arm, "length"),
    )


def from_example(given: Given) -> tuple[Finding, ...]:
    if not is_example(given.words("speed_from")):
        return ()
    says = (
        "The code, its edition, the exposure and the wind speed are those of an example. Choose "
        "the code that governs, and write where the speed was read."
    )
    return (still_example(says),)


def aside(given: Given, found: Push) -> tuple[Finding, ...]:
    off = found.rules.values["aside"] * given["width"]
    twist = given.both(off * found.service, "moment", toward="up")
    says = (
        f"The wind may also push {given.both(off, 'length')} to either side of the middle and "
        f"twist it with {twist}."
    )
    return (Finding(standing=Standing.NOTE, says=says, rule=found.rules.clause("aside")),)


def carrying(given: Given) -> tuple[Figure, ...]:
    gust = given.maybe("carry")
    if gust is None:
        return ()
    force = carry_force(given, gust)
    return (
        Figure(key="carry", label="Push on whoever carries it as a panel", value=force, of="force",
               toward="up", note=f"in a gust of {given.both(gust, 'speed')}"),
    )  # fmt: skip


def carry_force(given: Given, gust: float) -> float:
    shape = rule_set("drag", "panels").values[given.choice("panel")]
    return wind.drag(shape, given["width"] * given["height"], gust)


def carried(given: Given) -> tuple[Finding, ...]:
    gust, most = given.maybe("carry"), given.maybe("push")
    if gust is None or most is None:
        return ()
    force = carry_force(given, gust)
    side = "within" if force <= most else "over"
    says = (
        f"Carried in that gust it pushes with {given.both(force, 'force', toward='up')}: {side} "
        f"the entered limit of {given.both(most, 'force', toward='down')}."
    )
    return (Finding(standing=WITHIN_OR_OVER[force <= most], says=says),)


def assumptions(given: Given, found: Push) -> tuple[str, ...]:
    speed = given.both(given["speed"], "speed")
    return (
        f"{found.rules.title}: {speed}, from {given.words('speed_from')}.",
        *found.notes,
        f"Pressure is taken at {given.both(found.height, 'length')} above the ground; the wind "
        "comes square to the face.",
        *GROUND[given.choice("stands")],
        "Not covered: gusts between buildings, shaking by vortices, fatigue, ice, snow, lift of "
        "canopies, porous cloth, people climbing.",
    )


GROUND = {
    "free": (
        "Friction and the required factor are as entered; the weight stands over the middle of "
        "the base, on firm level ground.",
    ),
    "wall": ("The wind pulls it from the wall as hard as it pushes.",),
    "post": ("The soil’s pressure is as entered, the same all round the post.",),
}
HOLDING: Mapping[str, Callable[[Given, Push], Held]] = {
    "free": standing_free,
    "wall": on_a_wall,
    "post": in_soil,
}
