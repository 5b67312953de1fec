"""Adhesive for anchors: cartridges to buy, by how far the empty hole is filled."""

from __future__ import annotations

from functools import partial

from worksheets.drawings.holes import Anchored, anchored
from worksheets.engine import filling
from worksheets.engine.amounts import counted
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Number, Price, Quantity, small_length
from worksheets.engine.result import (
    Figure,
    Finding,
    Hand,
    Impossible,
    Picture,
    Result,
    Standing,
    ToLine,
    ToRequest,
)
from worksheets.engine.rules import rule_set
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status

RULES = rule_set("filling", "trade")


def compute(given: Given) -> Result:
    one, gap = amounts(given)
    count = given.count("count")
    total = one * count * (1 + given["waste"])
    cartridges = filling.whole(total, usable(given))
    price = given.cents("price")
    cents = None if price is None else price * cartridges
    return Result(
        says=f"{counted(cartridges, 'cartridge')} for {counted(count, 'hole')}: "
        f"{given.both(total, 'adhesive', toward='up')} of adhesive.",
        figures=(
            Figure(key="cartridges", label="Cartridges to buy", value=cartridges, places=0,
                   main=True),
            Figure(key="dispense", label="Adhesive, all holes", value=total, of="adhesive",
                   toward="up", main=True),
            *(() if cents is None else
              (Figure(key="cost", label="Cost", value=cents, of="money", main=True),)),
            Figure(key="one", label="Into one hole", value=one, of="adhesive", toward="up"),
            Figure(key="annulus", label="Gap round one rod, the least possible", value=gap,
                   of="adhesive", note="not enough to buy by"),
            Figure(key="times", label="Into one hole, as a multiple of the gap", value=one / gap,
                   places=1),
        ),
        findings=findings(given),
        pictures=(picture(given),),
        hands=hands(given, cartridges, cents),
        assumptions=(
            "Holes are drilled to size, cleaned and dry, in a solid wall.",
            f"{sentence('fill')}.",
            f"{sentence('first_strokes')}.",
        ),
    )  # fmt: skip


def sentence(clause: str) -> str:
    words = RULES.clause(clause)
    return words[0].upper() + words[1:]


def amounts(given: Given) -> tuple[float, float]:
    """Into one hole, and the gap round its rod, in m³."""
    hole, rod, depth = given["hole"], given["rod"], given["depth"]
    if rod >= hole:
        says = f"The rod does not go into a hole {given.both(hole, 'small_length')} wide."
        raise Impossible("rod", says)
    one, gap = filling.dispensed(hole, depth, given["share"]), filling.annulus(hole, rod, depth)
    if one < gap:
        says = (
            f"The hole is too wide for this rod: {given.show(given['share'], 'fraction')} of it "
            "does not fill the gap. Drill the hole that the maker’s sheet gives."
        )
        raise Impossible("hole", says)
    return one, gap


def usable(given: Given) -> float:
    """What a cartridge gives after its first strokes."""
    left = given["cartridge"] - given["strokes"]
    if left <= 0:
        raise Impossible("strokes", "Nothing is left in the cartridge after its first strokes.")
    return left


def findings(given: Given) -> tuple[Finding, ...]:
    here = Finding(
        standing=Standing.NOTE,
        says="This counts cartridges. Whether an anchor holds is for the worksheet on anchors and "
        "an engineer.",
    )
    if given.choice("wall") == "solid":
        return (here,)
    says = (
        "Hollow block or brick: it needs screens and far more adhesive than this. Take the amount "
        "for each screen from the maker’s sheet."
    )
    return (Finding(standing=Standing.NEAR, says=says), here)


def picture(given: Given) -> Picture:
    svg = anchored(
        Anchored(
            hole=given["hole"], rod=given["rod"], depth=given["depth"], filled=given["share"],
            hole_words=given.show(given["hole"], "small_length"),
            rod_words=given.show(given["rod"], "small_length"),
            depth_words=given.show(given["depth"], "small_length"),
            filled_words=given.show(given["share"], "fraction"),
        )
    )  # fmt: skip
    caption = "The hole cut through, to scale: filled from its bottom, then with the rod pushed in."
    return Picture(svg=svg, caption=caption)


def hands(given: Given, cartridges: int, cents: int | None) -> tuple[Hand, ...]:
    size = given.both(given["cartridge"], "adhesive")
    rod, depth = given.both(given["rod"], "small_length"), given.both(given["depth"],
                                                                      "small_length")  # fmt: skip
    items = (
        f"Anchor adhesive, {counted(cartridges, 'cartridge')} of {size} with a mixing nozzle each",
        f"{counted(given.count('count'), 'rod')} {rod}, set {depth} deep; brush and blow-out "
        "pump for the holes",
    )
    return (
        ToLine(key="cartridges", label="Anchor adhesive", quantity=cartridges, unit="cartridges",
               cents=cents),
        ToRequest(key="list", label="The purchase list", title="Anchor adhesive", items=items),
    )  # fmt: skip


WALLS = (("solid", "Solid concrete, brick or stone"), ("hollow", "Hollow block or brick"))


small = partial(small_length, least=0.003, most=0.2)


def liquid(name: str, label: str, us: str, metric: str, **more: object) -> Quantity:
    return Quantity(**{"name": name, "label": label, "of": "adhesive", "us": us, "metric": metric,
                       **more})  # type: ignore[arg-type]  # fmt: skip


SHEET = Sheet(
    key="adhesive",
    title="Adhesive for anchors: cartridges",
    purpose="How many cartridges the holes take, which is far more than the gap round the rods.",
    group=Group.QUANTITIES,
    place=60,
    caution=Caution.DATA_SHEET,
    kinds=("frame",),
    compute=compute,
    rules=(("filling", ""),),
    blocks=(
        Block(
            title="The holes",
            note="From the maker’s printed instructions for this rod and this wall.",
            inputs=(
                Number(name="count", label="How many", start="4", least=1, most=2000, whole=True),
                small("hole", "Diameter of the hole", "3/4 in", "18 mm"),
                small("rod", "Diameter of the rod", "5/8 in", "16 mm", least=0.002),
                small("depth", "Depth", "5 in", "125 mm", least=0.01, most=2.0),
                Quantity(name="share", label="Filled before the rod", of="fraction", us="67 %",
                         least=RULES.values["fill_least"], most=RULES.values["fill_most"],
                         help="One half to two thirds of the empty hole."),
                Choice(name="wall", label="The wall is", options=WALLS),
            ),
        ),
        Block(
            title="Cartridges",
            inputs=(
                Quantity(name="waste", label="More for waste", of="fraction", us="10 %", least=0,
                         most=1),
                liquid("cartridge", "One holds", "9.5 fl oz", "280 mL", least=1e-5, most=0.005),
                liquid("strokes", "First strokes thrown away, of each", "0.34 fl oz", "10 mL",
                       least=0.0, most=0.001),
                Price(name="price", label="Price of one", optional=True),
            ),
        ),
    ),
    formula=(
        "into one hole = π/4 · D² · h · share filled",
        "all holes = one · n · (1 + waste); cartridges = all / (cartridge − first strokes), "
        "rounded up",
        "gap round the rod = π/4 · (D² − d²) · h",
    ),
    sources=(
        Source("Volume of the gap and of the hole, 18 mm and 16 mm, 125 mm deep", Status.DERIVED),
        Source("Anchor maker’s submittal sheet: fill the hole one half to two thirds",
               Status.MEMORY),
    ),
    cautions=(
        "The maker’s printed instructions and evaluation report rule: cleaning, temperature, "
        "curing time, and the wall it is for.",
        "Hollow block needs screens and far more adhesive.",
        "Overhead, certified installers set adhesive anchors. An engineer decides whether they "
        "may be used.",
        "Drilling makes fine stone dust: drill with water or suction, and wear a mask.",
    ),
    recipe=Recipe(
        title="Twelve holes of 18 mm, 125 mm deep, for rods of 16 mm",
        source="Gap and hole as geometry, two thirds filled, 10 % waste",
        typed={"count": "12", "hole": "18 mm", "rod": "16 mm", "depth": "125 mm",
               "share": "66.67 %", "waste": "10 %"},
        finds="6.68 mL round each rod, 280 mL in all",
        expects={"annulus": 6.676e-6, "dispense": 279.92e-6},
        within=1e-4,
    ),
)  # fmt: skip
