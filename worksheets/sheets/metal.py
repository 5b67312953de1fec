"""A metal frame: what it weighs, the bars to buy, and how to cut them."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from worksheets.drawings.bars import MOST, DrawnBar, DrawnPiece, drawn_bars
from worksheets.engine.cutting import NANOMETRES
from worksheets.engine.frame import METALS, SHAPES, exact_words, frame_of
from worksheets.engine.frame_answer import answer, exact_length
from worksheets.engine.frame_cuts import CutList, cut_lists, improved, marked
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Number, Price, Quantity, Table, Words
from worksheets.engine.result import Picture, Result
from worksheets.engine.rules import rule_sets
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status

TABLES = tuple((key, rules.title) for key, rules in rule_sets("metal").items())
AIMS = (("cost", "Least cost"), ("bars", "Fewest bars"))
TUBE = {"name": "Tube", "shape": "tube", "metal": "steel"}


def compute(given: Given) -> Result:
    return result(given, cut_lists(given, frame_of(given)))


def improve(given: Given, tell: Callable[[float, Result], bool]) -> Result:
    """Search on for every section that is open; at most ten seconds in all."""
    lists = cut_lists(given, frame_of(given))
    return result(given, improved(lists, lambda share, now: tell(share, result(given, now))))


def result(given: Given, lists: Sequence[CutList]) -> Result:
    return answer(given, lists, [picture(given, each, n) for n, each in enumerate(lists)])


def picture(given: Given, each: CutList, number: int) -> Picture:
    bars = [
        DrawnBar(
            times=bar.times,
            length=each.problem.stocks[bar.stock].length,
            says=bar_words(given, each, bar.stock, bar.pieces),
            pieces=tuple(drawn_piece(given, each, *piece) for piece in bar.pieces),
            kerf=each.problem.kerf,
            trim=each.problem.trim,
            rest=(rest := each.problem.rest(bar.stock, [piece[0] for piece in bar.pieces])),
            kept=rest > 0 and rest >= each.problem.useful,
            rest_says=exact_words(given, rest / NANOMETRES),
        )
        for bar in marked(each)
    ]
    more = f" {len(bars) - MOST} more stand in the cut list." if len(bars) > MOST else ""
    caption = (
        f"{each.name}, {each.profile.says}: each bar to scale, bars alike drawn once. Filled: "
        f"pieces; tinted: off-cuts to keep; dashed: waste.{more}"
    )
    title = f"Cut list of {each.name} drawn to scale"
    return Picture(svg=drawn_bars(bars, title), caption=caption, key=f"bars-{number}")


def bar_words(
    given: Given, each: CutList, stock: int, pieces: Sequence[tuple[int, str, str]]
) -> str:
    """“20 ft bar, off-cut 14 in”."""
    rest = each.problem.rest(stock, [place for place, *_ in pieces])
    length = exact_length(given, each.profile.bars[stock][0])
    tail = f", off-cut {exact_words(given, rest / NANOMETRES)}" if rest else ", no off-cut"
    return f"{length} bar{tail}"


def drawn_piece(given: Given, each: CutList, place: int, mark: str, ends: str) -> DrawnPiece:
    length = each.problem.lengths[place]
    words = exact_words(given, length / NANOMETRES)
    return DrawnPiece(length=length, words=(f"{mark} {words}".strip(), mark, words))


SECTIONS = Table(
    name="sections", label="Sections", row_name="section", most=12,
    help="What is bought: the wall is the thickness of a flat bar or an angle too.",
    columns=(
        Words(name="name", label="Name", most=40),
        Choice(name="shape", label="Shape", options=tuple(SHAPES.items())),
        Quantity(name="width", label="Side or diameter", of="small_length", least=0.002, most=0.6),
        Quantity(name="height", label="Other side or leg", of="small_length", optional=True,
                 least=0.002, most=0.6),
        Quantity(name="wall", label="Wall", of="small_length", optional=True, least=0.0003,
                 most=0.1),
        Quantity(name="radius", label="Corner radius", of="small_length", optional=True, least=0,
                 most=0.1),
        Choice(name="metal", label="Metal", options=tuple(METALS.items())),
    ),
    rows=({**TUBE, "width": "1 in", "wall": "0.065 in"},),
    metric_rows=({**TUBE, "width": "25 mm", "wall": "2 mm"},),
)  # fmt: skip

STOCK = Table(
    name="stock", label="Bars that can be bought", row_name="length of bar", most=40,
    help="One row for each length. A row without a section counts for every section.",
    columns=(
        Quantity(name="length", label="Length", of="length", least=0.2, most=30),
        Price(name="price", label="Price of one", optional=True),
        Words(name="section", label="Section", optional=True, most=40),
    ),
    rows=({"length": "20 ft", "price": "31"}, {"length": "24 ft", "price": "38.50"}),
    metric_rows=({"length": "6 m", "price": "31"}, {"length": "7.5 m", "price": "40"}),
)  # fmt: skip

PIECES = Table(
    name="pieces", label="Pieces", row_name="piece", most=60, optional=True,
    help="The length of a mitred piece is that at its long point.",
    columns=(
        Number(name="count", label="Quantity", least=1, most=1000, whole=True),
        Quantity(name="length", label="Length", of="small_length", least=0.001, most=30),
        Words(name="mark", label="Mark", optional=True, most=20),
        Words(name="section", label="Section", optional=True, most=40),
        Words(name="ends", label="End cuts", optional=True, most=40),
    ),
    rows=(
        {"count": "6", "length": "60 in", "mark": "P1", "ends": "square"},
        {"count": "12", "length": "24 in", "mark": "R1", "ends": "mitre 30° both"},
        {"count": "12", "length": "18 1/2 in", "mark": "R2", "ends": "mitre 30° both"},
    ),
    metric_rows=(
        {"count": "6", "length": "1520 mm", "mark": "P1", "ends": "square"},
        {"count": "12", "length": "610 mm", "mark": "R1", "ends": "mitre 30° both"},
        {"count": "12", "length": "470 mm", "mark": "R2", "ends": "mitre 30° both"},
    ),
)  # fmt: skip

SHEET = Sheet(
    key="metal",
    title="Metal frame: weight and cut list",
    purpose="What a frame weighs, the bars to buy for the least money, and how to cut them.",
    group=Group.QUANTITIES,
    place=2,
    caution=Caution.DATA_SHEET,
    kinds=("frame", "sculpture"),
    blocks=(
        Block(title="What it is made of", inputs=(SECTIONS, STOCK)),
        Block(
            title="Pieces",
            inputs=(
                PIECES,
                Words(name="pasted", label="A long list, pasted", lines=5, most=20_000,
                      optional=True,
                      help="One piece a line from a spreadsheet: quantity, length, mark, section, "
                      "end cuts. Only the first two are needed."),
            ),
        ),
        Block(
            title="Saw and off-cuts",
            inputs=(
                Quantity(name="kerf", label="Width of the saw cut", of="small_length",
                         us="1/8 in", metric="3 mm", least=0, most=0.005),
                Quantity(name="trim", label="Cut from each end of a bar", of="small_length",
                         us="1/4 in", metric="6 mm", least=0, most=0.3),
                Quantity(name="useful", label="Shortest off-cut worth keeping",
                         of="small_length", us="12 in", metric="300 mm", least=0, most=6),
                Choice(name="aim", label="Look for", options=AIMS),
                Quantity(name="allowance", label="Weld, zinc and paint", of="fraction", us="4 %",
                         least=0, most=0.2, help="A share of the mass: 3 to 5 % is usual."),
                Choice(name="tables", label="Densities and corners of", options=TABLES),
            ),
        ),
    ),
    compute=compute,
    improve=improve,
    formula=(
        "square tube A = B·H − (4 − π)·Ro² − [(B − 2t)(H − 2t) − (4 − π)·Ri²], Ri = Ro − t",
        "round tube A = π·t·(D − t); flat A = w·t; angle A = t·(a + b − t); round bar A = π·d²/4",
        "mass = A · density · length · (1 + weld, zinc and paint)",
        "n pieces fit a bar when their lengths and n − 1 saw cuts are at most bar − 2 · trim",
        "least Σ price of bars, every piece cut once; bound by the linear programme over cuts",
    ),
    sources=(
        Source("Steel supplier’s table, commercial-quality square tube: lb per foot",
               Status.PUBLISHED,
               "https://www.aciercentury-vente.com/en/metal-classification/tubes/commercial-quality-tubes/"),
        Source("Weight formulas for steel bar, pipe and tube (piping reference page), equations "
               "1, 7 and 10", Status.PUBLISHED,
               "http://pipingdesigner.us/index.php/disciplines/mechanical/stationary-equipment/pipe/2538-weight-for-carbon-stainless-steel-bars-pipe-and-tubing"),
        Source("Construction material density table: aluminium 170 lb/ft³", Status.PUBLISHED,
               "https://civilengineeringbible.com/article.php?i=65"),
        Source("Gilmore and Gomory 1961 and 1963, a linear programme over cuts; Farley 1990, its "
               "bound", Status.MEMORY),
    ),
    cautions=(
        "A cut list is no strength check: the size of a member is a designer’s decision, and an "
        "engineer’s where it carries anything over people.",
        "Tube may be delivered under its nominal wall and mass: weigh a bar before lifting counts "
        "on it.",
        "Mitred pieces are laid end to end at their long points; turning them to share a cut "
        "would save a little more.",
        "Cutting and grinding: eye and hearing protection; zinc and paint fumes when welding.",
    ),
    recipe=Recipe(
        title="Boards of 17 for 25 of 3, 20 of 5 and 15 of 9, cut from 2 in tube",
        source="Lecture notes on column generation (boards of 17 m, a classic example; optimum "
        "proven by solver); steel supplier’s table, tube 2 in × 1/8 in: 3.06 lb/ft",
        typed={
            "sections": [{**TUBE, "width": "2 in", "wall": "1/8 in"}],
            "stock": [{"length": "17 m"}],
            "pieces": [
                {"count": "25", "length": "3 m"},
                {"count": "20", "length": "5 m"},
                {"count": "15", "length": "9 m"},
            ],
            "pasted": "", "kerf": "0 in", "trim": "0 in", "allowance": "0 %", "aim": "bars",
        },
        finds="19 boards; 3.06 lb/ft",
        expects={"bars": 19, "line_mass": 4.5538},
        within=0.004,
    ),
    rules=(("metal", "tables"),),
)  # fmt: skip
