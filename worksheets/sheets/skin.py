"""Sewn skin: flat panels between columns, their layout on the bolt, and a pattern to cut by."""

from __future__ import annotations

from collections.abc import Callable

from worksheets.drawings.bolt import draw_bolt
from worksheets.drawings.skin import draw_panel, draw_skin
from worksheets.drawings.skin_files import FILES
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Flag, Number, Price, Quantity, Table
from worksheets.engine.packing.laying import Plan
from worksheets.engine.packing.laying import improve as shorter
from worksheets.engine.result import Picture, Result
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status
from worksheets.engine.skin_answer import (
    bought_words,
    cut_grid,
    figures,
    findings,
    hands,
    sewn_grid,
)
from worksheets.engine.skin_case import Case, case, laid

SECONDS = 10.0
ASSUMPTIONS = (
    "Columns are straight and stand in a regular ring, so every panel is flat.",
    "The height of a panel lies along the bolt; each has its straight grain down its middle.",
    "Thread is taken for lockstitch; yardage holds for one length without flaws.",
)


def compute(given: Given) -> Result:
    return answer(case(given))


def answer(found: Case) -> Result:
    skin = found.skin
    says = (
        f"{skin.count} panels of {len(skin.panels)} sizes from {bought_words(found)} of cloth "
        f"{found.given.both(found.given['bolt'], 'small_length')} wide."
    )
    kept = {"layout": found.plan.keep()} if found.searched else {}
    return Result(
        licensed=found.given.flag("overhead"),
        says=says,
        figures=figures(found),
        findings=findings(found),
        grids=(sewn_grid(found), cut_grid(found)),
        pictures=pictures(found),
        hands=hands(found),
        assumptions=ASSUMPTIONS,
        kept=kept,
        can_improve=not (found.plan.shortest or found.searched),
    )


def pictures(found: Case) -> tuple[Picture, ...]:
    return (
        Picture(key="skin", svg=draw_skin(found), caption="The skin from the side, to scale."),
        Picture(
            key="panel",
            svg=draw_panel(found),
            caption="A panel with its hem, flat: the line to sew inside, the line to cut outside.",
        ),
        Picture(key="bolt", svg=draw_bolt(found), caption="The layout on the bolt, to scale."),
    )


def improve(given: Given, tell: Callable[[float, Result], bool]) -> Result:
    """Look longer for a shorter layout."""
    start = case(given)

    def of(plan: Plan) -> Result:
        return answer(laid(given, start.skin, start.patterns, plan, searched=True))

    found = shorter(
        start.plan, seconds=SECONDS, tell=lambda share, plan: tell(share, of(plan)) is not False
    )
    return of(found)


RINGS = Table(
    name="rings",
    label="Rings, from the top down",
    help="Radius from the middle to the columns; height above the lowest ring or the ground.",
    row_name="ring",
    most=24,
    columns=(
        Quantity(name="radius", label="Radius", of="length", least=0, most=15),
        Quantity(name="height", label="Height", of="length", least=0, most=60),
    ),
    rows=(
        {"radius": "10 in", "height": "60 in"},
        {"radius": "24 in", "height": "44 in"},
        {"radius": "24 in", "height": "16 in"},
        {"radius": "14 in", "height": "0 in"},
    ),
    metric_rows=(
        {"radius": "250 mm", "height": "1520 mm"},
        {"radius": "610 mm", "height": "1120 mm"},
        {"radius": "610 mm", "height": "400 mm"},
        {"radius": "350 mm", "height": "0 mm"},
    ),
)
DIRECTIONS = (
    ("any", "Either way up"),
    ("one", "One way only: nap, print or shine"),
)
SOLD = (("yd", "By the yard, in eighths"), ("m", "By the metre, in tenths"))


def allowance(name: str, label: str, us: str, metric: str, words: str = "") -> Quantity:
    return Quantity(name=name, label=label, of="small_length", us=us, metric=metric, least=0,
                    most=0.5, help=words)  # fmt: skip


SHEET = Sheet(
    key="skin",
    title="Sewn skin: panels, layout and pattern",
    purpose="True flat panels for cloth on straight columns, the cloth to buy, and a pattern.",
    group=Group.QUANTITIES,
    place=30,
    caution=Caution.AUTHORITY,
    kinds=("skin",),
    compute=compute,
    improve=improve,
    files=FILES,
    rules=(("cloth", ""),),
    blocks=(
        Block(
            title="The frame it goes on",
            inputs=(
                Number(name="columns", label="Columns", start="6", least=3, most=48, whole=True),
                RINGS,
                Flag(name="overhead", label="It hangs over people, outdoors"),
                Quantity(name="part_across", label="The part’s width, to compare", of="length",
                         takes="part.width", optional=True, least=0.01, most=60),
                Quantity(name="part_tall", label="The part’s height, to compare", of="length",
                         takes="part.height", optional=True, least=0.01, most=60),
            ),
        ),
        Block(
            title="Allowances, beyond the line to sew",
            inputs=(
                allowance("seam", "Seam along the columns", "5/8 in", "15 mm",
                          "On each of the two panels that meet."),
                allowance("overlap", "Overlap at a ring", "5/8 in", "15 mm",
                          "On each of the two panels that meet at a ring between."),
                allowance("top_hem", "Top hem", "2 in", "50 mm"),
                allowance("bottom_hem", "Bottom hem", "2 in", "50 mm"),
                Quantity(name="smaller", label="Cut smaller, to sit taut", of="fraction",
                         us="0 %", least=0, most=0.15,
                         help="For cloth that stretches; every sewn size shrinks by this share."),
                Number(name="stitching", label="Rows of stitching in a seam", start="2", least=1,
                       most=6, whole=True),
            ),
        ),
        Block(
            title="The cloth",
            inputs=(
                Quantity(name="bolt", label="Width of the bolt", of="small_length", us="58 in",
                         metric="1480 mm", least=0.1, most=6),
                Quantity(name="selvage", label="Selvage, on each side", of="small_length",
                         us="1/2 in", metric="12 mm", least=0, most=0.2),
                Choice(name="direction", label="Which way up it may lie", options=DIRECTIONS),
                Quantity(name="repeat", label="Pattern repeat to match", of="small_length",
                         optional=True, least=0, most=3, help="Empty where nothing is matched."),
                Quantity(name="shrink", label="Shrinks before it is cut", of="fraction", us="0 %",
                         least=0, most=0.3, help="Of length and width, in the wash or by steam."),
                Quantity(name="spare", label="Spare for mistakes", of="fraction", us="10 %",
                         least=0, most=1),
                Quantity(name="cloth_mass", label="Mass of the cloth", of="cloth_mass",
                         us="5 oz/yd²", metric="170 g/m²", least=0.005, most=5),
                Quantity(name="trims", label="Webbing, rings and cord", of="mass", us="1 lb",
                         metric="0.5 kg", least=0, most=500),
                Choice(name="sold", label="Sold", options=SOLD),
                Price(name="price", label="Price of a yard, or a metre", optional=True),
            ),
        ),
    ),
    formula=(
        "chord = 2·r·sin(π/N); run = (r₂ − r₁)·cos(π/N)",
        "down the middle = √(run² + Δh²); along the column = √((r₂ − r₁)² + Δh²)",
        "diagonal = √(middle² + ((a + b)/2)²); area = (a + b)/2·middle",
        "cut outline: each edge moved out by its allowance, neighbours meet in a mitre; a corner "
        "under 30° is cut off square",
        "n panels head to tail: n·(a + b)/2 + |b − a|/2 wide",
        "to buy = (layout + repeat·panels)·(1 + spare)/(1 − shrinking)",
        "thread = seams·rows·2.5·1.15; mass = cut cloth·mass per area + trims",
    ),
    sources=(
        Source("CRC Concise Encyclopedia of Mathematics, Pyramidal frustum", Status.RECOMPUTED,
               "https://archive.lib.msu.edu/crcmath/math/math/p/p738.htm"),
        Source("Table of chord factors for pitch circles", Status.PUBLISHED,
               "http://shopswarf.orcon.net.nz/spacing.html"),
        Source("Hopper & Turton, European Journal of Operational Research 128 (2001): layouts "
               "that are met", Status.PUBLISHED, "https://github.com/Oscar-Oliveira/OR-Datasets"),
        Source("Burke, Kendall & Whitwell, Operations Research 52 (2004): filling gaps",
               Status.MEMORY),
        Source("Sewing page: lockstitch takes 2.5 times the seam", Status.PUBLISHED,
               "https://melgeecrafts.com/needlework/"
               "you-asked-how-do-you-calculate-embroidery-thread-consumption.html"),
        Source("Spare for mistakes, 10 %", Status.PRACTICE),
    ),
    cautions=(
        "Cloth stretches and a ring gives way: sew one full-size panel in cheap cloth and try it "
        "on the frame before the dear cloth is cut.",
        "Cloth over people outdoors collects wind and rain. Screening estimate: do not build "
        "from this number; a licensed engineer must check the skin, the frame and what holds it.",
        "For a place of public assembly the authority asks for flame resistance papers, commonly "
        "NFPA 701 or EN 13501-1 (from memory).",
    ),
    recipe=Recipe(
        title="A six-sided pyramid, side 6 and slant height 8, here in inches",
        source="School geometry text: regular hexagonal pyramid, "
        "https://preprod.turito.com/learn/math/pyramids-and-cones-surface-area-grade-9",
        typed={
            "columns": "6",
            "rings": [
                {"radius": "0 in", "height": "6.082763 in"},
                {"radius": "6 in", "height": "0 in"},
            ],
        },
        finds="slant height 8 in, sides together 144 in²",
        expects={"slant": 0.2032, "net_area": 144 * 0.0254**2},
        within=1e-6,
    ),
)  # fmt: skip
