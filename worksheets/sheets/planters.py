"""Planters: the soil to buy, and what they weigh when the soil is wet."""

from __future__ import annotations

import math

from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Number, Quantity
from worksheets.engine.result import Figure, Finding, Impossible, Result, Standing, ToLine, ToPart
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status

WATER = 1000.0  # kg/m³


def box(length: float, width: float, depth: float) -> float:
    """Volume in m³ of a box with inside measures in m.

    >>> box(1.2, 0.6, 0.5)
    0.36
    """
    return length * width * depth


def round_pot(diameter: float, depth: float) -> float:
    """Volume in m³ of a cylinder with inside measures in m."""
    return math.pi / 4 * diameter**2 * depth


def tapered(top: float, bottom: float, depth: float) -> float:
    """Volume in m³ between two parallel areas in m²: the frustum, h/3 (A₁ + A₂ + √(A₁A₂)).

    Source: CRC Concise Encyclopedia of Mathematics, “Pyramidal frustum”.

    >>> round(tapered(4.0, 1.0, 3.0), 6)
    7.0
    """
    return depth / 3 * (top + bottom + math.sqrt(top * bottom))


def porosity(dry: float, gravity: float) -> float:
    """Share of pores from dry density in kg/m³ and specific gravity of the grains.

    >>> round(porosity(1300.0, 2.6), 3)
    0.5
    """
    return 1 - dry / (gravity * WATER)


def saturated(dry: float, gravity: float) -> float:
    """Density in kg/m³ with every pore full of water."""
    return dry + porosity(dry, gravity) * WATER


def volume(given: Given) -> float:
    shape, length, depth = given.choice("shape"), given["length"], given["depth"]
    if shape == "round":
        return round_pot(length, depth)
    width = given.maybe("width")
    if width is None:
        raise Impossible("width", "A box needs a width. Write it, or choose “round”.")
    if shape == "box":
        return box(length, width, depth)
    share = given["taper"]
    return tapered(length * width, length * width * share**2, depth)


def wet_density(given: Given) -> float:
    known = given.maybe("wet")
    if known is None:
        return saturated(given["dry"], given["gravity"])
    if known < given["dry"]:
        raise Impossible("wet", "Soaked soil cannot weigh less than dry soil. Change one of them.")
    return known


def compute(given: Given) -> Result:
    soil = volume(given) * given["fill"]
    count = given.count("count")
    wet = soil * wet_density(given)
    each = wet + given["container"] + given["plants"] + given["reservoir"] * WATER
    water = soil * (wet_density(given) - given["dry"]) + given["reservoir"] * WATER
    raised = given.choice("stands") != "ground"
    finding = Finding(
        standing=Standing.NEAR if raised else Standing.NOTE,
        says="It does not stand on the ground: an engineer must check what carries it."
        if raised
        else "It stands on the ground: the ground must be firm and drained.",
    )
    says = (
        f"{count} to fill with {given.both(soil * count, 'bulk', toward='up')} of soil; "
        f"each weighs {given.both(each, 'mass', toward='up')} wet."
    )
    return Result(
        says=says,
        figures=(
            Figure(key="soil", label="Soil to buy", value=soil * count, of="bulk", toward="up",
                   main=True),
            Figure(key="wet", label="Wet mass of one", value=each, of="mass", toward="up",
                   main=True),
            Figure(key="soil_dry", label="Soil of one, dry", value=soil * given["dry"], of="mass"),
            Figure(key="soil_wet", label="Soil of one, soaked", value=wet, of="mass", toward="up"),
            Figure(key="water", label="Water of one, soaked", value=water, of="mass", toward="up"),
            Figure(key="load", label="Load on its footprint", value=each / footprint(given),
                   of="area_mass", toward="up"),
        ),
        findings=(finding,),
        hands=(
            ToLine(key="soil", label="Soil", quantity=soil * count / 0.028316846592, unit="ft³"),
            ToPart(key="mass", label="Wet mass", mass=each * count),
        ),
        assumptions=("Soaked and not yet drained; snow and people leaning on it come on top.",),
    )  # fmt: skip


def footprint(given: Given) -> float:
    if given.choice("shape") == "round":
        return math.pi / 4 * given["length"] ** 2
    return given["length"] * float(given.values["width"])


SHAPES = (("box", "Box"), ("round", "Round"), ("taper", "Box, narrower below"))
STANDS = (
    ("ground", "On the ground"),
    ("raised", "On a roof, deck, balcony, bridge or bracket"),
)

SHEET = Sheet(
    key="planters",
    title="Planters: soil and wet mass",
    purpose="How much soil to buy, and what a planter weighs once rain has filled it.",
    group=Group.QUANTITIES,
    place=40,
    caution=Caution.DATA_SHEET,
    kinds=("planter",),
    compute=compute,
    blocks=(
        Block(
            title="The planter, inside",
            inputs=(
                Number(name="count", label="How many", start="2", least=1, most=500, whole=True),
                Choice(name="shape", label="Shape", options=SHAPES),
                Quantity(name="length", label="Length, or diameter", of="length",
                         takes="part.width",
                         us="4 ft", metric="1.2 m", least=0.05, most=20),
                Quantity(name="width", label="Width", of="length", takes="part.depth",
                         optional=True,
                         us="2 ft", metric="0.6 m", least=0.05, most=20),
                Quantity(name="depth", label="Depth of the soil", of="length", takes="part.height",
                         us="18 in", metric="450 mm", least=0.02, most=5),
                Quantity(name="taper", label="Lower side as a share of the upper", of="fraction",
                         us="75 %", least=0.1, most=1),
                Quantity(name="fill", label="Filled", of="fraction", us="100 %", least=0.05,
                         most=1),
                Choice(name="stands", label="Stands", options=STANDS),
            ),
        ),
        Block(
            title="What is in it",
            note="The supplier’s test report gives both densities; a bag’s label does not.",
            inputs=(
                Quantity(name="dry", label="Density dry", of="density", us="75 lb/ft³",
                         metric="1200 kg/m³", least=50, most=2200),
                Quantity(name="wet", label="Density soaked", of="density", optional=True,
                         least=100, most=2600, help="Left empty, it is reckoned from the pores."),
                Number(name="gravity", label="Specific gravity of the grains", start="2.6",
                       least=0.5, most=3.2),
                Quantity(name="container", label="The empty container", of="mass", us="30 lb",
                         metric="14 kg", least=0, most=5000),
                Quantity(name="plants", label="Plants", of="mass", us="10 lb", metric="5 kg",
                         least=0, most=5000),
                Quantity(name="reservoir", label="Water kept below the soil", of="volume",
                         us="0 gal",
                         metric="0 L", least=0, most=5),
            ),
        ),
    ),
    formula=(
        "box V = L·W·D; round V = π·d²·D/4; tapered V = D/3·(A₁ + A₂ + √(A₁·A₂))",
        "pores n = 1 − ρdry/(Gs·ρwater); soaked density = ρdry + n·ρwater",
        "mass = V·fill·ρsoaked + container + plants + reservoir",
    ),
    sources=(
        Source("ASTM E2397 (dead load of planted roofs: with retained water)", Status.PUBLISHED,
               "https://www.astm.org/Standards/E2397.htm"),
        Source("CRC Concise Encyclopedia of Mathematics, Pyramidal frustum", Status.PUBLISHED,
               "https://archive.lib.msu.edu/crcmath/math/math/p/p738.htm"),
        Source("Planter supplier’s soil page: bark mix 14 lb/ft³ dry, 38 lb/ft³ soaked",
               Status.PUBLISHED, "http://shop.greentopllc.com/index.php/planters-soils"),
    ),
    cautions=(
        "Reckon with the soaked mass, not the bag’s: a bark mix weighs up to 2.7 times as much.",
        "On a roof, deck, balcony, bridge or bracket a licensed engineer must check the support.",
        "Wind on a tree in a pot can tip it: see the worksheet on wind.",
    ),
    recipe=Recipe(
        title="A 4 ft × 2 ft × 18 in box of bark mix",
        source="Planter supplier’s soil page: 14 lb/ft³ dry, 38 lb/ft³ soaked",
        typed={"count": "1", "length": "4 ft", "width": "2 ft", "depth": "18 in",
               "dry": "14 lb/ft³", "wet": "38 lb/ft³", "container": "0 lb", "plants": "0 lb"},
        finds="168 lb dry, 456 lb soaked",
        expects={"soil_dry": 76.2035, "soil_wet": 206.8381},
        within=1e-4,
    ),
)  # fmt: skip
