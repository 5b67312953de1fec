"""Tiles and grout: pieces, boxes and bags for a mosaic or a tiled wall."""

from __future__ import annotations

from functools import partial

from worksheets.drawings.tiling import Tiling, pieces, tiling
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Number, Price, Quantity, small_length
from worksheets.engine.result import (
    Figure,
    Finding,
    Hand,
    Picture,
    Result,
    Standing,
    ToLine,
    ToRequest,
)
from worksheets.engine.rules import rule_set
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status
from worksheets.engine.tiling import Tiled, tiled

RULES = rule_set("filling", "trade")


def compute(given: Given) -> Result:
    found = tiled(given)
    return Result(
        says=f"{covering_words(given, found)} and {bags_words(found)} of grout for "
        f"{given.both(found.area, 'area')}.",
        figures=figures(given, found),
        findings=findings(given, found),
        pictures=(picture(given),),
        hands=hands(given, found),
        assumptions=(
            "Joints are even and filled to the depth that is entered.",
            f"{given.show(found.waste, 'fraction')} more tiles: "
            f"{RULES.clause('tile_waste-' + given.choice('laid'))}.",
        ),
    )


def bags_words(found: Tiled) -> str:
    return f"{found.bags} bag{'' if found.bags == 1 else 's'}"


def covering_words(given: Given, found: Tiled) -> str:
    if found.order is None:
        return f"{given.both(found.cover, 'area', toward='up')} of pieces"
    boxes = "" if found.boxes is None else f" in {found.boxes} boxes"
    return f"{found.order:,} tiles{boxes}"


def figures(given: Given, found: Tiled) -> tuple[Figure, ...]:
    return (
        *tile_figures(found),
        Figure(key="bags", label="Bags of grout", value=found.bags, places=0, main=True),
        *(() if found.cents is None else
          (Figure(key="cost", label="Cost", value=found.cents, of="money", main=True),)),
        Figure(key="grout", label="Grout, with waste", value=found.grout, of="mass", toward="up"),
        Figure(key="per_area", label="Grout by the trade’s rule", value=found.per_area,
               of="area_mass", note="what packs promise; a little more than fits"),
        Figure(key="exact", label="Grout that fits the joints", value=found.exact,
               of="area_mass"),
        Figure(key="per_bag", label="One bag covers", value=found.per_bag, of="area",
               toward="down"),
        Figure(key="area", label="Area", value=found.area, of="area"),
    )  # fmt: skip


def tile_figures(found: Tiled) -> tuple[Figure, ...]:
    if found.order is None:
        return (Figure(key="cover", label="Pieces to buy, by area", value=found.cover, of="area",
                       toward="up", main=True),)  # fmt: skip
    boxes = () if found.boxes is None else (
        Figure(key="boxes", label="Boxes", value=found.boxes, places=0),
    )  # fmt: skip
    return (
        Figure(key="tiles", label="Tiles to buy", value=found.order, places=0, main=True),
        Figure(key="net", label="Tiles on the wall", value=found.net, places=1),
        *boxes,
    )


def findings(given: Given, found: Tiled) -> tuple[Finding, ...]:
    if given["joint"] < given["long"] and given["joint"] < given["short"]:
        return ()
    says = "The joint is wider than a tile: check that both are in the right unit."
    return (Finding(standing=Standing.NEAR, says=says),)


def picture(given: Given) -> Picture:
    depth = given.show(given["depth"], "small_length")
    if given.choice("laid") == "pieces":
        words = given.show(given["share"], "fraction")
        svg = pieces(given["share"], given["depth"], words, depth)
        return Picture(svg=svg, caption="Measure the joints’ share on a photograph of your work.")
    svg = tiling(
        Tiling(
            long=given["long"], short=given["short"], joint=given["joint"], depth=given["depth"],
            long_words=given.show(given["long"], "small_length"),
            short_words=given.show(given["short"], "small_length"),
            joint_words=given.show(given["joint"], "small_length"), depth_words=depth,
        )
    )  # fmt: skip
    return Picture(
        svg=svg, caption="Four tiles from the front and one joint cut through, to scale."
    )


def hands(given: Given, found: Tiled) -> tuple[Hand, ...]:
    bag = given.both(given["bag"], "mass")
    items = (f"{covering_words(given, found)}, from one batch",
             f"Grout: {bags_words(found)} of {bag}, one colour and batch")  # fmt: skip
    tiles = ToLine(key="tiles", label="Tiles", quantity=found.order or 0, unit="tiles",
                   cents=found.tile_cents)  # fmt: skip
    if found.order is None:
        pieces_line = given.system == "us"
        unit, size = ("ft²", 0.3048**2) if pieces_line else ("m²", 1.0)
        tiles = ToLine(key="tiles", label="Pieces", quantity=found.cover / size, unit=unit)
    return (
        tiles,
        ToLine(key="grout", label="Grout", quantity=found.bags, unit="bags",
               cents=found.grout_cents),
        ToRequest(key="list", label="The purchase list", title="Tiles and grout", items=items),
    )  # fmt: skip


LAID = (
    ("grid", "Whole tiles in a grid"),
    ("mosaic", "Mosaic of equal tiles"),
    ("pieces", "Broken pieces of any shape"),
)


small = partial(small_length, least=0.002, most=2.0)


SHEET = Sheet(
    key="tiles",
    title="Tiles and grout",
    purpose="How many tiles or how much of broken pieces, and how many bags of grout.",
    group=Group.QUANTITIES,
    place=55,
    caution=Caution.DATA_SHEET,
    kinds=("tile",),
    compute=compute,
    rules=(("filling", ""),),
    blocks=(
        Block(
            title="The area",
            inputs=(
                Quantity(name="width", label="Width", of="length", takes="part.width",
                         us="6 ft", metric="2 m", least=0.01, most=200),
                Quantity(name="height", label="Height", of="length",
                         takes="part.height", us="4 ft", metric="1.2 m", least=0.01,
                         most=200),
                Quantity(name="area", label="Area, where it is no rectangle", of="area",
                         optional=True, least=0.0001, most=40_000),
            ),
        ),
        Block(
            title="Tiles and joints",
            inputs=(
                Choice(name="laid", label="Laid as", options=LAID),
                small("long", "One side", "3/4 in", "20 mm"),
                small("short", "Other side", "3/4 in", "20 mm"),
                small("joint", "Joint", "1/8 in", "2 mm", least=0.0005, most=0.1),
                small("depth", "Depth of the joint", "3/16 in", "4 mm", least=0.001, most=0.2),
                Quantity(name="share", label="Joints’ share of broken pieces", of="fraction",
                         us="20 %", least=0.01, most=0.6,
                         help="Measured on a photograph; for broken pieces only."),
                Quantity(name="waste", label="More tiles for cuts", of="fraction", optional=True,
                         least=0, most=1, help="Left empty, the usual share for how it is laid."),
            ),
        ),
        Block(
            title="What to buy",
            inputs=(
                Number(name="box", label="Tiles in a box", optional=True, least=1, most=10_000,
                       whole=True),
                Price(name="box_price", label="Price of a box, or of a tile without a box",
                      optional=True),
                Quantity(name="density", label="Density of the grout", of="density",
                         us="1.6 kg/L", least=800, most=2500),
                Quantity(name="bag", label="Bag of grout", of="mass", us="10 lb", metric="5 kg",
                         least=0.05, most=50),
                Price(name="bag_price", label="Price of a bag", optional=True),
                Quantity(name="spilt", label="More grout for waste", of="fraction", us="10 %",
                         least=0, most=1),
            ),
        ),
    ),
    formula=(
        "tiles = area / ((A + C) · (B + C)) · (1 + waste), rounded up",
        "grout by the trade’s rule = (A + B) / (A · B) · C · depth · density",
        "grout that fits = (A + B + C) / ((A + C) · (B + C)) · C · depth · density",
        "broken pieces: grout = area · joints’ share · depth · density",
    ),
    sources=(
        Source("Tile grout page: (A + B) / (A · B) · C · D · 1.6 kg/m²", Status.PUBLISHED,
               "http://asg-foto.ru/info/grout/en/kak-grout-consumption-for-tile-joints.html"),
        Source("Grout coverage statements: 5 kg for 23 to 24 m² of tiles 300 × 300 × 10 mm with "
               "joints of 2 mm", Status.PUBLISHED,
               "https://www.sweatlodgeradio.com/how-do-you-calculate-epoxy-grout/"),
        Source("Area of one tile with its joints", Status.DERIVED),
    ),
    cautions=(
        "Coverage printed on packs assumes square, even joints of one depth.",
        "Outdoors, adhesive and grout must stand frost and the wall’s movement: see their sheets.",
        "Cutting tile makes fine dust and sharp edges: cut wet, with glasses and a mask.",
    ),
    recipe=Recipe(
        title="Mosaic of 20 mm, joints 2 mm wide and 4 mm deep",
        source="Tile grout page’s rule, 1.6 kg/L, bag of 5 kg",
        typed={"laid": "mosaic", "long": "20 mm", "short": "20 mm", "joint": "2 mm",
               "depth": "4 mm", "density": "1.6 kg/L", "bag": "5 kg"},
        finds="1.28 kg/m²; a bag covers 3.906 m²",
        expects={"per_area": 1.28, "per_bag": 3.90625},
        within=1e-4,
    ),
)  # fmt: skip
