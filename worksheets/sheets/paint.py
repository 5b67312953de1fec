"""Paint: how much of each layer a wall takes, in which packs, and how thick the film gets."""

from __future__ import annotations

from worksheets.drawings.mural_field import elevation
from worksheets.engine.coating import Job, bands
from worksheets.engine.coating_answer import figures, findings, grids, says
from worksheets.engine.coating_case import job
from worksheets.engine.coating_hands import hands
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Number, Price, Quantity, Table, Words
from worksheets.engine.result import Picture, Result
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status


def compute(given: Given) -> Result:
    found = job(given)
    return Result(
        says=says(found),
        figures=figures(found),
        findings=tuple(findings(found)),
        grids=grids(found),
        pictures=(picture(found),),
        hands=tuple(hands(found)),
        assumptions=(
            "Loss divides: the rate on this job is the sheet’s rate times what is not lost.",
            "Every coat is spread evenly at its rate; the first coat on a thirsty wall takes more.",
            "Thinner is added to the paint and covers no more wall by itself.",
        ),
    )


def picture(found: Job) -> Picture:
    svg = elevation(
        found.field, list(bands(found.layers)), lambda length: found.given.show(length, "length")
    )
    loose = any(not each.placed for each in found.field.openings)
    tail = " Openings with dashed edges have no place yet." if loose else ""
    if any(layer.up_to is not None for layer in found.layers):
        tail += " The tinted band is where a layer stops at a height."
    return Picture(svg=svg, caption=f"The wall to paint, to scale; openings are crossed out.{tail}")


KINDS = (
    ("primer", "Primer"),
    ("colour", "Colour"),
    ("clear", "Clear coat"),
    ("permanent", "Anti-graffiti, stays on"),
    ("sacrificial", "Anti-graffiti, comes off with the tag"),
)
SURFACES = (
    ("smooth", "Smooth and sealed"),
    ("board", "Board or sheet"),
    ("stucco", "Rough render or stucco"),
    ("brick", "Brick or block"),
)
TOOLS = (
    ("brush", "Brush and roller"),
    ("spray", "Spray"),
    ("wind", "Spray in wind"),
)


def place(name: str, label: str, **more: object) -> Quantity:
    return Quantity(**{"name": name, "label": label, "of": "length", "optional": True, "least": 0.0,
                       "most": 200.0, **more})  # type: ignore[arg-type]  # fmt: skip


WALL = Block(
    title="The wall",
    inputs=(
        Quantity(name="width", label="Width", of="length", takes="part.width site.width",
                 us="24 ft", metric="7.5 m", least=0.1, most=200),
        Quantity(name="height", label="Height", of="length", takes="part.height site.height",
                 us="12 ft", metric="3.6 m", least=0.1, most=100),
        Quantity(name="bottom", label="Lower edge above the ground", of="length",
                 takes="part.bottom", us="0 in", metric="0 mm", least=0, most=100),
        Choice(name="surface", label="Surface", options=SURFACES,
               help="For a layer without a rate of its own."),
        Choice(name="tool", label="Put on with", options=TOOLS,
               help="For a layer without a loss of its own."),
        Number(name="factor", label="Surface factor", start="1", least=1, most=1.6,
               help="1 where the rate was measured on this wall; up to 1.6 for deep texture."),
        Table(name="openings", label="Openings", optional=True, row_name="opening", most=40,
              columns=(
                  Words(name="name", label="Opening", optional=True, most=40),
                  Quantity(name="width", label="Width", of="length", least=0.01, most=200),
                  Quantity(name="height", label="Height", of="length", least=0.01, most=100),
                  place("left", "From the left edge"),
                  place("low", "Above the ground"),
              )),
    ),
)  # fmt: skip
LAYERS = Table(
    name="layers", label="Layers, from the wall outwards", row_name="layer", most=24,
    help="Without a rate, the one of its film or a common one for the surface stands in.",
    columns=(
        Words(name="name", label="Layer", most=40),
        Choice(name="kind", label="Kind", options=KINDS),
        Number(name="coats", label="Coats", start="2", least=1, most=6, whole=True),
        Quantity(name="rate", label="Spreading rate", of="spread", optional=True, least=100,
                 most=60_000),
        Quantity(name="loss", label="Loss", of="fraction", optional=True, least=0, most=0.6),
    ),
    rows=(
        {"name": "Primer", "kind": "primer", "coats": "1", "rate": "250 ft²/gal"},
        {"name": "Colours", "kind": "colour", "coats": "2", "rate": "350 ft²/gal"},
        {"name": "Anti-graffiti", "kind": "sacrificial", "coats": "2", "rate": "300 ft²/gal"},
    ),
    metric_rows=(
        {"name": "Primer", "kind": "primer", "coats": "1", "rate": "6 m²/L"},
        {"name": "Colours", "kind": "colour", "coats": "2", "rate": "8 m²/L"},
        {"name": "Anti-graffiti", "kind": "sacrificial", "coats": "2", "rate": "7 m²/L"},
    ),
)  # fmt: skip
AREAS = Table(
    name="areas", label="Layers that do not cover everything", optional=True, row_name="layer",
    most=24, help="An area of its own, or up to a height above the ground.",
    columns=(
        Words(name="layer", label="Layer", most=40),
        Quantity(name="area", label="Own area", of="area", optional=True, least=0.001,
                 most=20_000),
        place("up_to", "Up to a height", least=0.01),
        Number(name="factor", label="Surface factor", optional=True, least=1, most=1.6),
    ),
    rows=({"layer": "Anti-graffiti", "up_to": "9 ft"},),
    metric_rows=({"layer": "Anti-graffiti", "up_to": "2.7 m"},),
)  # fmt: skip
FILMS = Table(
    name="films", label="Film, from the data sheet", optional=True, row_name="layer", most=24,
    help="With a dry film and no spreading rate above, the rate follows from the film.",
    columns=(
        Words(name="layer", label="Layer", most=40),
        Quantity(name="solids", label="Solids by volume", of="fraction", least=0.1, most=1),
        Quantity(name="dry", label="Dry film, one coat", of="film", optional=True, least=1e-6,
                 most=0.005),
        Quantity(name="thinner", label="Thinner", of="fraction", optional=True, least=0, most=0.3),
    ),
    rows=({"layer": "Colours", "solids": "38 %", "dry": "1.6 mil", "thinner": "5 %"},),
    metric_rows=({"layer": "Colours", "solids": "38 %", "dry": "45 µm", "thinner": "5 %"},),
)  # fmt: skip
PACKS = Table(
    name="packs", label="Packs", optional=True, row_name="pack", most=60,
    help="Without a layer’s name a pack is offered for every layer. Write your shop’s own prices.",
    columns=(
        Words(name="layer", label="Layer", optional=True, most=40),
        Quantity(name="size", label="Size", of="volume", least=1e-5, most=1.2),
        Price(name="price", label="Price of one"),
    ),
    rows=(
        {"layer": "Primer", "size": "1 gal", "price": "34"},
        {"layer": "Primer", "size": "5 gal", "price": "150"},
        {"layer": "Colours", "size": "1 gal", "price": "58"},
        {"layer": "Colours", "size": "1 qt", "price": "21"},
        {"layer": "Anti-graffiti", "size": "1 gal", "price": "72"},
    ),
    metric_rows=(
        {"layer": "Primer", "size": "2.5 L", "price": "24"},
        {"layer": "Primer", "size": "10 L", "price": "82"},
        {"layer": "Colours", "size": "2.5 L", "price": "42"},
        {"layer": "Colours", "size": "1 L", "price": "19"},
        {"layer": "Anti-graffiti", "size": "5 L", "price": "85"},
    ),
)  # fmt: skip

SHEET = Sheet(
    key="paint",
    title="Paint: layers, packs and film",
    purpose="How much of each layer to buy, in which packs, and the film to check while it is wet.",
    group=Group.QUANTITIES,
    place=10,
    caution=Caution.DATA_SHEET,
    kinds=("mural",),
    compute=compute,
    rules=(("paint", ""),),
    blocks=(
        WALL,
        Block(title="The layers", inputs=(LAYERS, AREAS, FILMS)),
        Block(
            title="What to buy",
            inputs=(
                Quantity(name="keep_back", label="Kept back for touching up", of="fraction",
                         us="5 %", least=0, most=1),
                Number(name="cleanings", label="Cleanings expected in a year", start="2", least=0,
                       most=52, help="For a coat that comes off with the tags."),
                PACKS,
            ),
        ),
    ),
    formula=(
        "area = (wall − openings) · surface factor",
        "paint = area · coats / (rate · (1 − loss)), and the part kept back on top",
        "rate from the film: solids / dry film (10 · solids in % / µm in m²/L; "
        "1604 · solids / mil in ft²/gal)",
        "wet film = dry film · (1 + thinner) / solids; 1 m²/L = 40.746 ft²/gal",
        "packs: least Σ price · n with Σ size · n ≥ paint, n whole; then the least left over",
        "renewed each year = area · coats · cleanings / (rate · (1 − loss))",
    ),
    sources=(
        Source("Coating maker’s sheet “Spreading rate”: 1604 · solids / mil", Status.PUBLISHED,
               "https://www.scribd.com/document/343849341/Spreading-Rate-pdf"),
        Source("Instrument maker’s page on wet and dry film thickness", Status.PUBLISHED,
               "http://www.geionline.com/wet-film-formulae"),
        Source("Paints & Coatings Resource Center, questions of 2003 and 2009 on transfer "
               "efficiency", Status.PUBLISHED, "http://www.paintcenter.org/rj/dec09a.cfm"),
        Source("MIL-HDBK-1110 (UFC 3-190-06), §9.6.6: count the cans against the job",
               Status.PUBLISHED, "https://ufgscriteria.tpub.com/3_190_06/3_190_060170.htm"),
        Source("Painters’ training unit CPCCPD3029: coats that come off with the tags",
               Status.PUBLISHED,
               "https://painters.edu.au/Training-Resources/CPCCPD3029-Remove-graffiti-and-apply-"
               "anti-graffiti-coatings.htm"),
        Source("Least cost of packs: every count that could matter is tried", Status.DERIVED),
    ),
    cautions=(
        "The can’s rate is for a smooth sealed wall: paint a test patch of 1 m² (11 ft²) and enter "
        "its rate.",
        "Anti-graffiti over fresh paint: wait the sheet’s cure time, and try it on a patch first.",
        "Dark over light, and bright organic pigments, take more coats (common practice, no "
        "source).",
        "Tags are found up to about 20 ft (6 m): a height below that leaves wall unprotected.",
    ),
    recipe=Recipe(
        title="Walls 68 ft × 8 ft with two doors and two windows",
        source="House-painting page: 20 ft² a door, 15 ft² a window, 350 ft²/gal",
        typed={
            "width": "68 ft", "height": "8 ft", "keep_back": "0 %", "areas": [], "films": [],
            "packs": [],
            "openings": [
                {"name": "Door", "width": "30 in", "height": "8 ft"},
                {"name": "Door", "width": "30 in", "height": "8 ft"},
                {"name": "Window", "width": "5 ft", "height": "3 ft"},
                {"name": "Window", "width": "5 ft", "height": "3 ft"},
            ],
            "layers": [{"name": "Paint", "kind": "colour", "coats": "1", "rate": "350 ft²/gal",
                        "loss": "0 %"}],
        },
        finds="544 ft² of wall, 474 ft² to paint, 1.35 gal",
        expects={"gross": 50.53925, "net": 44.03604, "need": 0.00512658},
        within=1e-4,
    ),
)  # fmt: skip
