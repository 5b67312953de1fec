"""Concrete for holes, from what was typed: volumes, bags, and the cheapest mix of bags."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.engine import filling
from worksheets.engine.filling import FillError
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.packs import Pack, PackError, Purchase, least_cost
from worksheets.engine.result import Impossible
from worksheets.engine.rules import RuleSet, rule_set


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    name: str
    makes: float
    count: int
    cents: int | None

    @property
    def cost(self) -> int | None:
        return None if self.cents is None else self.cents * self.count


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """Volumes in m³ of all holes; ``need`` with what is wasted."""

    given: Given
    volume: float
    need: float
    mass: float
    bags: tuple[Bag, ...]
    best: Purchase | None
    rules: RuleSet


def filled(given: Given) -> Filled:
    rules = rule_set("filling", "trade")
    hole, taken = hole_area(given), post_volume(given)
    try:
        one = filling.poured(hole, given["depth"], taken)
    except FillError as error:
        raise Impossible("post_size", f"{error} Make it smaller, or the hole larger.") from None
    volume = one * given.count("count")
    need = volume * (1 + given["waste"])
    bags = tuple(
        Bag(name=row.words("name") or f"bag {number + 1}", makes=row["makes"],
            count=filling.whole(need, row["makes"]), cents=row.cents("price"))
        for number, row in typed_rows(given.rows("bags"))
    )  # fmt: skip
    return Filled(given=given, volume=volume, need=need, mass=volume * rules.values["concrete"],
                  bags=bags, best=cheapest(need, bags), rules=rules)  # fmt: skip


def hole_area(given: Given) -> float:
    if given.choice("shape") == "round":
        return filling.disc(given["across"])
    return given["across"] * other_side(given)


def other_side(given: Given) -> float:
    return given.maybe("along") or given["across"]


def post_volume(given: Given) -> float:
    """What the post takes of the concrete."""
    if given.choice("post") == "none":
        return 0.0
    size, deep = given["post_size"], given.maybe("post_depth") or given["depth"]
    if deep > given["depth"] + filling.HAIR:
        says = f"The concrete is only {given.both(given['depth'], 'length')} deep."
        raise Impossible("post_depth", says)
    least = given["across"]
    if given.choice("shape") != "round":
        least = min(least, other_side(given))
    across = size
    if given.choice("post") == "square" and given.choice("shape") == "round":
        across = size * 2**0.5
    if across >= least:
        says = f"The post does not go into a hole {given.both(least, 'small_length')} wide."
        raise Impossible("post_size", says)
    area = filling.disc(size) if given.choice("post") == "round" else size**2
    return area * deep


def cheapest(need: float, bags: tuple[Bag, ...]) -> Purchase | None:
    priced = [Pack(bag.makes, bag.cents) for bag in bags if bag.cents is not None]
    try:
        return least_cost(need, priced) if priced else None
    except PackError as error:
        raise Impossible("bags", str(error)) from None
