"""Planters: the soil to buy, and what they weigh when the soil is wet."""

from __future__ import annotations

from worksheets.drawings.planter import Inside, section
from worksheets.engine.dimensions import DIMENSIONS
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Number, Quantity
from worksheets.engine.planter import Planter, lower_share, planter
from worksheets.engine.result import (
    Figure,
    Finding,
    Hand,
    Picture,
    Result,
    Standing,
    ToLine,
    ToPart,
)
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status


def compute(given: Given) -> Result:
    found = planter(given)
    start = "Screening estimate, not to be built from: " if found.raised else ""
    return Result(
        licensed=found.raised,
        says=f"{start}{found.count} to fill with "
        f"{given.both(found.volume * found.count, 'bulk', toward='up')} of soil; each weighs "
        f"{given.both(found.mass, 'mass', toward='up')} wet.",
        figures=figures(found),
        findings=findings(found),
        pictures=(picture(found),),
        hands=hands(found),
        assumptions=(
            "Soaked and not yet drained; snow and people leaning on it come on top.",
            "The mass is spread over the footprint; on feet or bearers it acts in a few points.",
            density_words(found),
        ),
    )


def density_words(found: Planter) -> str:
    given, mix = found.given, found.given.choice("mix")
    wet = given.both(found.wet_density, "density")
    if mix == "typed":
        how = "as entered" if given.maybe("wet") is not None else "worked out from its pores"
        return f"Soaked soil of {wet}, {how}."
    return f"Soaked soil of {wet}: {found.rules.clause(mix)}."


def figures(found: Planter) -> tuple[Figure, ...]:
    dry = () if found.dry is None else (
        Figure(key="soil_dry", label="Soil of one, dry", value=found.volume * found.dry,
               of="mass"),
        Figure(key="water", label="Water of one, soaked", of="mass", toward="up",
               value=found.wet - found.volume * found.dry + found.reservoir),
    )  # fmt: skip
    return (
        Figure(key="soil", label="Soil to buy", value=found.volume * found.count, of="bulk",
               toward="up", main=True),
        Figure(key="wet", label="Wet mass of one", value=found.mass, of="mass", toward="up",
               main=True),
        Figure(key="all", label="Wet mass of all", value=found.mass * found.count, of="mass",
               toward="up"),
        Figure(key="soil_wet", label="Soil of one, soaked", value=found.wet, of="mass",
               toward="up"),
        *dry,
        Figure(key="load", label="Load on its footprint", value=found.mass / found.footprint,
               of="area_mass", toward="up", standing=standing(found)),
    )  # fmt: skip


def standing(found: Planter) -> Standing:
    """Off the ground nothing is ever shown as holding."""
    if not found.raised:
        return Standing.NOTE
    limit = found.says_limit
    return Standing.OVER if limit is not None and found.pressure > limit else Standing.NEAR


def findings(found: Planter) -> tuple[Finding, ...]:
    if not found.raised:
        says = "It stands on the ground: the ground must be firm and drained."
        return (Finding(standing=Standing.NOTE, says=says),)
    strong = Finding(
        standing=Standing.NEAR,
        says="Off the ground this is a screening estimate. Do not set it up by this number: a "
        "licensed engineer must check what carries it, wet and with snow and people, and sign.",
        rule=found.rules.clause("old_roof"),
    )
    return (*against_limit(found), strong)


def against_limit(found: Planter) -> tuple[Finding, ...]:
    limit, show = found.says_limit, found.given.both
    if limit is None:
        return ()
    over = found.pressure > limit
    says = (
        f"Its footprint presses with {show(found.pressure, 'pressure', toward='up')}, "
        f"{'over' if over else 'within'} the entered limit of "
        f"{show(limit, 'pressure', toward='down')}; the engineer decides."
    )
    return (Finding(standing=standing(found), says=says),)


def picture(found: Planter) -> Picture:
    given = found.given
    narrow = lower_share(given) ** 0.5
    tank = given["reservoir"] / (found.footprint * lower_share(given))
    svg = section(
        Inside(
            upper=given["length"], lower=given["length"] * narrow, soil=given["depth"],
            drain=given["drain"], reservoir=tank, raised=found.raised,
            upper_words=given.show(given["length"], "length"),
            soil_words=given.show(given["depth"], "small_length"),
            drain_words=given.show(given["drain"], "small_length"),
        )
    )  # fmt: skip
    return Picture(svg=svg, caption="One planter, cut along its length, inside sizes to scale.")


def hands(found: Planter) -> tuple[Hand, ...]:
    unit = DIMENSIONS["bulk"].unit(found.given.system)
    quantity = found.volume * found.count / unit.factor
    return (
        ToLine(key="soil", label="Soil", quantity=quantity, unit=unit.symbol),
        ToPart(key="mass", label="Wet mass", mass=found.mass * found.count),
    )


SHAPES = (("box", "Box"), ("round", "Round"), ("taper", "Box, narrower below"))
MIXES = (
    ("typed", "As written below"),
    ("bark", "Light bark mix, in place of the densities below"),
    ("heavy", "Heavier planter mix, in place of the densities below"),
)
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
    rules=(("soil", ""),),
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
                Quantity(name="carries", label="Limit that was given for the support",
                         of="pressure", optional=True, least=100, most=100_000,
                         help="Off the ground only: from the engineer, for all that stands there."),
            ),
        ),
        Block(
            title="What is in it",
            note="The supplier’s test report gives both densities; a bag’s label does not.",
            inputs=(
                Choice(name="mix", label="Soil", options=MIXES),
                Quantity(name="dry", label="Density dry", of="density", optional=True,
                         us="75 lb/ft³",
                         metric="1200 kg/m³", least=50, most=2200),
                Quantity(name="wet", label="Density soaked", of="density", optional=True,
                         least=100, most=2600, help="Left empty, it is worked out from the pores."),
                Number(name="gravity", label="Specific gravity of the grains", start="2.6",
                       least=0.5, most=3.2),
                Quantity(name="drain", label="Drain layer of gravel", of="small_length",
                         us="0 in", metric="0 mm", least=0, most=1,
                         help="Below the soil, on top of its depth."),
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
        "mass = V·fill·ρsoaked + drain layer + container + plants + reservoir",
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
        "Use the soaked mass, not the bag’s: a bark mix weighs up to 2.7 times as much.",
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
