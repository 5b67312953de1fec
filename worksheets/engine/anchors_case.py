"""From the inputs of the worksheet on anchors to the force on each one and what it uses up."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from worksheets.engine import anchors
from worksheets.engine.amounts import figure
from worksheets.engine.anchors import Point
from worksheets.engine.dimensions import GRAVITY
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.result import Impossible
from worksheets.engine.rules import RuleSet, rule_set

APART = 0.01  # m: nearer than this two anchors cannot be set
WALLS = {
    "concrete": "concrete",
    "block": "concrete block, filled",
    "brick": "sound solid brick",
    "old": "old brick, stone or loose render",
    "timber": "timber",
    "tested": "tests on this very wall",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchor:
    """One anchor: its place in m, what it gets in N, and how much of its limit that uses up."""

    number: int
    at: Point
    shear: Point
    pull: float
    pull_share: float
    shear_share: float
    used: float

    @property
    def across(self) -> float:
        return math.hypot(*self.shear)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    anchors: tuple[Anchor, ...]
    load: Point  # N along the wall, to the right and up
    at: Point
    edge: float
    rules: RuleSet

    @property
    def worst(self) -> Anchor:
        return max(self.anchors, key=lambda each: each.used)


def shared(given: Given) -> Shared:
    """Raises Impossible where the wall, the report or the anchors cannot go together."""
    check_wall(given)
    bolts = bolts_of(given)
    load = load_of(given)
    middle = anchors.centroid(bolts)
    at = (here(given, "load_x", middle[0]), here(given, "load_y", middle[1]))
    forces = anchors.in_plane(bolts, load, at)
    pulls = pulls_of(given, bolts, load)
    rules = rule_set("anchors", given.choice("rule"))
    every = (
        one(given, rules, *row) for row in zip(range(1, 99), bolts, forces, pulls, strict=False)
    )
    return Shared(anchors=tuple(every), load=load, at=at, edge=given["edge"], rules=rules)


def one(
    given: Given, rules: RuleSet, number: int, at: Point, shear: Point, pull: float
) -> Anchor:  # fmt: skip
    pulled, sheared = pull / given["pull_allowed"], math.hypot(*shear) / given["shear_allowed"]
    return Anchor(
        number=number,
        at=at,
        shear=shear,
        pull=pull,
        pull_share=pulled,
        shear_share=sheared,
        used=anchors.interaction(pulled, sheared, rules.values).used,
    )


def here(given: Given, name: str, otherwise: float) -> float:
    found = given.maybe(name)
    return otherwise if found is None else found


def check_wall(given: Given) -> None:
    wall, report = given.choice("wall"), given.choice("report_for")
    if report == "tested" or (wall == report and wall != "old"):
        return
    if wall == "old":
        raise Impossible(
            "report_for",
            "No printed report holds for an old or loose wall: a qualified firm must test anchors "
            "on it. Enter what the tests allow, and choose “tests on this very wall”.",
        )
    raise Impossible(
        "report_for",
        f"The report is for {WALLS[report]}, the wall is {WALLS[wall]}: its values are void there. "
        "Enter those of a report for this wall.",
    )


def bolts_of(given: Given) -> list[Point]:
    rows = list(typed_rows(given.rows("bolts")))
    bolts = [(row["x"], row["y"]) for _, row in rows]
    if len(bolts) < 2:
        raise Impossible("bolts", "Write at least two anchors: one alone can turn.")
    for at, (row, _) in enumerate(rows):
        if any(math.dist(bolts[at], other) < APART for other in bolts[:at]):
            raise Impossible(
                "bolts", "Another anchor stands in this place already.", row=row, column="x"
            )
    if given["edge"] > min(y for _, y in bolts) - 1e-9:
        raise Impossible(
            "edge", "The lower edge of the bracket must lie below every anchor. Measure again."
        )
    return bolts


def load_of(given: Given) -> Point:
    weight = (given["mass"] * GRAVITY + (given.maybe("down") or 0.0)) * given["times"]
    sideways = (given.maybe("sideways") or 0.0) * given["times"]
    if weight <= 0 and sideways <= 0 and not given.maybe("pull"):
        raise Impossible("mass", "There is no load. Write the mass of the piece, or a force.")
    return sideways, -weight


def pulls_of(given: Given, bolts: Sequence[Point], load: Point) -> list[float]:
    """Pull away from the wall on each: the bracket tips down, is drawn off, and tips sideways."""
    heights = [y - given["edge"] for _, y in bolts]
    pull = (given.maybe("pull") or 0.0) * given["times"]
    middle = math.fsum(heights) / len(heights)
    moment = -load[1] * given["overhang"] + pull * middle
    down = anchors.tension(heights, moment, pull)
    aside = sideways_pulls([x for x, _ in bolts], load[0] * given["overhang"])
    return [one + other for one, other in zip(down, aside, strict=True)]


def sideways_pulls(places: Sequence[float], moment: float) -> list[float]:
    """A force along the wall, off the wall, tips the bracket about its outermost anchors; it may
    come from either side, so each anchor gets the worse of both.

    >>> sideways_pulls([0.0, 0.5], 100.0)
    [200.0, 200.0]
    """
    if moment == 0:
        return [0.0] * len(places)
    low, high = min(places), max(places)
    if high - low < APART:
        raise Impossible(
            "sideways",
            "Anchors in one upright line cannot hold a sideways force that acts off the wall.",
        )
    right = anchors.tension([x - low for x in places], moment)
    left = anchors.tension([high - x for x in places], moment)
    return [max(pair) for pair in zip(right, left, strict=True)]


def assumptions(given: Given, found: Shared) -> tuple[str, ...]:
    times = figure(given["times"], 2)
    return (
        f"Allowables from {given.words('report')}, {given.day('report_day').isoformat()}, for "
        f"{WALLS[given.choice('report_for')]}: pull "
        f"{given.both(given['pull_allowed'], 'force', toward='down')}, along the wall "
        f"{given.both(given['shear_allowed'], 'force', toward='down')}.",
        f"The loads are multiplied by {times}; they and the allowables must be of one kind: "
        "working loads with allowable loads, factored loads with design strengths.",
        "The plate is rigid, every anchor equally stiff; the bracket tips about its lower edge, "
        "and the wind’s pull acts at the middle of the group.",
        f"Tension and shear together: {found.rules.title.lower()}. The report’s own equation "
        "rules.",
        "Not covered: breakout, edge and group effects, pry-out, sticky anchors under lasting "
        "load, bending of thin plates, old brick, loose render, earthquake.",
    )
