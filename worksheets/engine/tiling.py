"""A tiled area from what was typed: tiles, boxes, and grout."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.engine import filling
from worksheets.engine.given import Given
from worksheets.engine.rules import rule_set


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiled:
    """Areas in m², masses in kg; ``order`` and ``net`` are None for broken pieces."""

    area: float
    waste: float
    net: float | None
    order: int | None
    cover: float
    boxes: int | None
    per_area: float
    exact: float
    grout: float
    bags: int
    per_bag: float
    tile_cents: int | None
    grout_cents: int | None

    @property
    def cents(self) -> int | None:
        if self.tile_cents is None or self.grout_cents is None:
            return None
        return self.tile_cents + self.grout_cents


def tiled(given: Given) -> Tiled:
    area = given.maybe("area") or given["width"] * given["height"]
    waste = waste_of(given)
    broken = given.choice("laid") == "pieces"
    net = None if broken else filling.tiles(area, given["long"], given["short"], given["joint"])
    order = None if net is None else filling.whole(net * (1 + waste), 1)
    boxes = None if order is None else boxes_of(given, order)
    per_area, exact = grout_of(given)
    grout = area * per_area * (1 + given["spilt"])
    bags = filling.whole(grout, given["bag"])
    return Tiled(
        area=area, waste=waste, net=net, order=order, boxes=boxes,
        cover=area * (1 - given["share"] if broken else 1) * (1 + waste),
        per_area=per_area, exact=exact, grout=grout, bags=bags,
        per_bag=given["bag"] / per_area,
        tile_cents=priced(given.cents("box_price"), order if boxes is None else boxes),
        grout_cents=priced(given.cents("bag_price"), bags),
    )  # fmt: skip


def waste_of(given: Given) -> float:
    typed = given.maybe("waste")
    if typed is not None:
        return typed
    return float(rule_set("filling", "trade").values["tile_waste"][given.choice("laid")])


def boxes_of(given: Given, order: int) -> int | None:
    box = given.maybe("box")
    return None if box is None else filling.whole(order, box)


def grout_of(given: Given) -> tuple[float, float]:
    """By the trade’s rule, and what fits, in kg/m²; the same for broken pieces."""
    depth, density = given["depth"], given["density"]
    if given.choice("laid") == "pieces":
        mass = filling.joint_share(given["share"], depth) * density
        return mass, mass
    sizes = (given["long"], given["short"], given["joint"], depth)
    return filling.joint_rule(*sizes) * density, filling.joint_exact(*sizes) * density


def priced(cents: int | None, count: int | None) -> int | None:
    return None if cents is None or count is None else cents * count
