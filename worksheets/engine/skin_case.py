"""From the inputs of a sewn skin to its panels, their layout and the cloth to buy."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from worksheets.engine.given import Given
from worksheets.engine.outline import OutlineError
from worksheets.engine.packing.laying import Plan, Shape, kept_plan, lay
from worksheets.engine.result import Impossible
from worksheets.engine.rules import RuleSet, rule_set
from worksheets.engine.sewing import (
    Allowances,
    Pattern,
    PatternError,
    fewest_columns,
    metres,
    patterns,
    thread,
    to_buy,
    yards,
)
from worksheets.engine.skin import Ring, RingError, Skin, skin

HEMS = {"side": "seam", "top": "top_hem", "bottom": "bottom_hem"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """Everything that is reckoned before it is told; lengths in m, mass in kg."""

    given: Given
    skin: Skin
    patterns: tuple[Pattern, ...]
    plan: Plan
    bought: float
    searched: bool = False

    @property
    def rules(self) -> RuleSet:
        return rule_set("cloth", "sewing")

    @property
    def cut_area(self) -> float:
        return sum(each.cut.area * each.count for each in self.patterns)

    @property
    def seams(self) -> float:
        """Length of all seams and hems."""
        return self.skin.column_seams + self.skin.ring_seams + self.skin.hems

    @property
    def thread(self) -> float:
        values = self.rules.values
        return thread(
            self.seams,
            self.given.count("stitching"),
            per_seam=values["thread_per_seam"],
            spare=values["thread_spare"],
        )

    @property
    def mass(self) -> float:
        return self.cut_area * self.given["cloth_mass"] + self.given["trims"]

    @property
    def sold(self) -> tuple[float, str]:
        """How much cloth is paid for, in the unit it is sold by."""
        if self.given.choice("sold") == "m":
            return metres(self.bought), "m"
        return yards(self.bought), "yd"

    @property
    def cents(self) -> int | None:
        price = self.given.cents("price")
        return None if price is None else round(price * self.sold[0])

    @property
    def across(self) -> float:
        """From corner to opposite corner of the widest ring, twice its radius."""
        return 2 * max(ring.radius for ring in self.skin.rings)

    @property
    def tall(self) -> float:
        return self.skin.rings[0].height - self.skin.rings[-1].height


def case(given: Given) -> Case:
    """Raises Impossible beside the input that cannot be."""
    shape = built(given)
    pieces = with_allowances(given, shape)
    shapes = [each.shape() for each in pieces]
    strip, turned = strip_of(given), given.choice("direction") == "any"
    fits(given, shape, pieces, shapes, strip)
    kept = kept_plan(given.kept.get("layout", {}), shapes, strip, turned=turned)
    plan = lay(shapes, strip, turned=turned)
    if kept is not None and kept.length <= plan.length * (1 + 1e-9):
        plan = kept
    return laid(given, shape, pieces, plan, searched=kept is not None)


def laid(
    given: Given, shape: Skin, pieces: tuple[Pattern, ...], plan: Plan, *, searched: bool
) -> Case:
    """A case with the cloth that its plan takes."""
    bought = to_buy(
        plan.length,
        repeat=given.maybe("repeat") or 0.0,
        panels=shape.count,
        shrink=given["shrink"],
        spare=given["spare"],
    )
    return Case(
        given=given, skin=shape, patterns=pieces, plan=plan, bought=bought, searched=searched
    )


def built(given: Given) -> Skin:
    rows = given.rows("rings")
    rings = [Ring(row["radius"], row["height"]) for row in rows]
    try:
        return skin(given.count("columns"), rings)
    except RingError as wrong:
        row = int(rows[wrong.row].values.get("row", wrong.row)) if rows else 0
        raise Impossible("rings", str(wrong), row=row, column=wrong.column) from None


def with_allowances(given: Given, shape: Skin) -> tuple[Pattern, ...]:
    shares = Allowances(
        seam=given["seam"],
        overlap=given["overlap"],
        top=given["top_hem"],
        bottom=given["bottom_hem"],
    )
    try:
        return patterns(shape, shares, given["smaller"])
    except PatternError as wrong:
        last = len(shape.panels) - 1
        at_hem = (wrong.edge, wrong.number) in (("top", 0), ("bottom", last))
        name = HEMS[wrong.edge] if at_hem or wrong.edge == "side" else "overlap"
        raise Impossible(name, str(wrong)) from None
    except OutlineError as wrong:
        raise Impossible("rings", str(wrong)) from None


def strip_of(given: Given) -> float:
    """Width of cloth that can be cut, in m: less what shrinks, less both selvages."""
    strip = given["bolt"] * (1 - given["shrink"]) - 2 * given["selvage"]
    if strip <= 0:
        raise Impossible("selvage", "The two selvages take the whole bolt. Make them narrower.")
    return strip


def fits(
    given: Given, shape: Skin, pieces: Sequence[Pattern], shapes: Sequence[Shape], strip: float
) -> None:
    """Refuse a panel wider than the cloth, and say what would do."""
    widest = max(range(len(shapes)), key=lambda at: shapes[at].width)
    wide = shapes[widest].width
    if wide <= strip * (1 + 1e-9):
        return
    more = wide - pieces[widest].panel.width
    halves = wide / 2 + given["seam"]
    ways = [f"cloth at least {given.both(bolt_for(given, wide), 'small_length', toward='up')} wide"]
    if (columns := fewest_columns([r.radius for r in shape.rings], more, strip)) > shape.columns:
        ways.append(f"{columns} columns")
    if halves <= strip:
        half = given.both(halves, "small_length", toward="up")
        ways.append(f"each panel pieced of two halves {half} wide, with a seam down the middle")
    raise Impossible(
        "bolt",
        f"Panel {pieces[widest].letter} is {given.both(wide, 'small_length', toward='up')} wide "
        f"when cut; only {given.both(strip, 'small_length', toward='down')} of the bolt can be "
        f"used. What would do: {'; or '.join(ways)}.",
    )


def bolt_for(given: Given, wide: float) -> float:
    return (wide + 2 * given["selvage"]) / (1 - given["shrink"])
