"""The mass of a work made of parts, its centre, and whether one person may lift a piece."""

from __future__ import annotations

from worksheets.drawings.lifting import centre_of_mass
from worksheets.engine import lifting
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Number, Quantity, Table, Words
from worksheets.engine.lifting import Limit, Piece, Place
from worksheets.engine.lifting_case import (
    RULES,
    hoists,
    left_out,
    lift_words,
    limit_of,
    load_of,
    pieces_of,
    team_words,
)
from worksheets.engine.result import Figure, Grid, Picture, Result, Standing, ToPart
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status


def compute(given: Given) -> Result:
    pieces, unknown = pieces_of(given)
    total = lifting.total_mass(pieces) * (1 + given["allowance"])
    load = load_of(given, pieces)
    alone = given.count("people") == 1
    limit, counted = limit_of(given)
    known = [piece for piece in pieces if piece.at is not None and piece.mass > 0]
    centre = lifting.centre(known) if known else None
    says, finding = lift_words(given, load, limit) if alone else team_words(given)
    return Result(
        says=f"All of it weighs {given.both(total, 'mass', toward='up')} with the allowance; "
        f"{says}.",
        figures=(
            *mass_figures(given, total, load),
            *centre_figures(centre),
            *(lift_figures(load, limit) if alone else ()),
        ),
        findings=(finding, *hoists(given, total, load), *left_out(pieces, unknown)),
        grids=(multipliers(limit, counted),) if alone else (),
        pictures=(picture(given, known, centre),) if centre else (),
        hands=(ToPart(key="mass", label="Mass of the whole", mass=total),),
        assumptions=assumptions(given, known, pieces),
    )


def mass_figures(given: Given, total: float, load: float) -> tuple[Figure, ...]:
    return (
        Figure(key="total", label="Mass of the whole", value=total, of="mass", toward="up",
               main=True, note=f"with {given.show(given['allowance'], 'fraction')} for weld and "
               "paint"),
        Figure(key="bare", label="Mass of the pieces", value=total / (1 + given["allowance"]),
               of="mass", toward="up"),
        Figure(key="load", label="Lifted at once", value=load, of="mass", toward="up"),
    )  # fmt: skip


def centre_figures(centre: Place | None) -> tuple[Figure, ...]:
    if centre is None:
        return ()
    labels = ("across", "deep", "up")
    return tuple(
        Figure(key=f"centre_{axis}", label=f"Centre of mass, {label}", value=value, of="length")
        for axis, label, value in zip("xyz", labels, centre, strict=True)
    )


def lift_figures(load: float, limit: Limit) -> tuple[Figure, ...]:
    index = lifting.index(load, limit.mass)
    over = index is None or index > RULES.values["index_goal"]
    return (
        Figure(key="limit", label="Recommended limit for one person", value=limit.mass, of="mass",
               toward="down", main=True, note=RULES.clause("equation")),
        Figure(key="index", label="Lifting index", value=index, places=2, toward="up",
               text="none: do not lift this way" if index is None else "",
               standing=Standing.OVER if over else Standing.WITHIN, note="load over limit"),
    )  # fmt: skip


def multipliers(limit: Limit, counted: float) -> Grid:
    named = (
        ("Reach", limit.reach),
        ("Height of the hands", limit.height),
        ("Travel up or down", limit.travel),
        ("Turn of the body", limit.turn),
        (f"Lifts a minute, row {counted:g} of the table", limit.frequency),
        ("Grip", limit.coupling),
    )
    return Grid(title="Multipliers of the equation", head=("Of", "Multiplier"), numeric=(1,),
                rows=tuple((name, f"{value:.3f}") for name, value in named))  # fmt: skip


def picture(given: Given, known: list[Piece], centre: Place) -> Picture:
    across, deep, up = (given.show(value, "length") for value in centre)
    return Picture(
        svg=centre_of_mass(known, centre, across=across, deep=deep, up=up),
        caption="The pieces by their centres, each view to its own scale; the quartered circle is "
        "the centre of mass.",
    )


def assumptions(given: Given, known: list[Piece], pieces: list[Piece]) -> tuple[str, ...]:
    return (
        f"{RULES.title}: two hands, standing, smooth lift, firm floor, not hot, not on a ladder.",
        "Lifts a minute count in the next row of the table that is not slower.",
        f"The centre of mass is of {len(known)} of {len(pieces)} pieces whose place is known; the "
        "allowance lies where they lie.",
        f"A hoist is planned above {given.both(given['hoist'], 'mass')}, as set here.",
    )


HOURS = (("1", "Up to 1 hour"), ("2", "Up to 2 hours"), ("8", "Up to 8 hours"))
GRIPS = (("good", "Good: handles or cut-outs"), ("fair", "Fair: fingers bend under it"),
         ("poor", "Poor: bulky, no edge to hold"))  # fmt: skip
ROWS = (
    {"name": "Post", "count": "2", "mass": "24.8 lb", "x": "2 ft", "y": "0 ft", "z": "3 ft 3 in"},
    {"name": "Arm", "count": "1", "mass": "12 lb", "x": "3 ft", "y": "0 ft", "z": "6 ft 11 in"},
    {"name": "Plate", "count": "1", "mass": "31 lb", "x": "20 in", "y": "0 ft", "z": "1 in"},
)
METRIC_ROWS = (
    {"name": "Post", "count": "2", "mass": "11.25 kg", "x": "0.6 m", "y": "0 m", "z": "1 m"},
    {"name": "Arm", "count": "1", "mass": "5.5 kg", "x": "0.9 m", "y": "0 m", "z": "2.1 m"},
    {"name": "Plate", "count": "1", "mass": "14 kg", "x": "0.5 m", "y": "0 m", "z": "10 mm"},
)


def centre_input(name: str, label: str) -> Quantity:
    return Quantity(name=name, label=label, of="length", optional=True, least=-100, most=1000)


def hand(name: str, label: str, us: str, metric: str, least: float, help: str) -> Quantity:
    return Quantity(name=name, label=label, of="small_length", us=us, metric=metric, least=least,
                    most=2.54, help=help)  # fmt: skip


SHEET = Sheet(
    key="lifting",
    title="Mass, centre and lifting",
    purpose="What the whole weighs, where its centre is, and who may lift which piece.",
    group=Group.LOADS,
    place=30,
    caution=Caution.AUTHORITY,
    compute=compute,
    rules=(("lifting", "set"),),
    blocks=(
        Block(
            title="The pieces",
            note="Left empty, the parts of the project stand here. A centre is measured across, "
            "deep and up from one point.",
            inputs=(
                Table(name="pieces", label="Pieces", takes="parts", rows=ROWS,
                      metric_rows=METRIC_ROWS, most=60, row_name="piece",
                      columns=(
                          Words(name="name", label="Piece", optional=True),
                          Number(name="count", label="How many", start="1", least=1, most=1000,
                                 whole=True, optional=True),
                          Quantity(name="mass", label="Mass of one", of="mass", least=0,
                                   most=100_000),
                          centre_input("x", "Across"), centre_input("y", "Deep"),
                          centre_input("z", "Up"))),
                Quantity(name="allowance", label="Allowance for weld and paint", of="fraction",
                         us="4 %", least=0, most=0.5, help="3 to 5 %: common practice, no "
                         "source."),
            ),
        ),
        Block(
            title="The lift",
            inputs=(
                Quantity(name="load", label="Lifted at once", of="mass", optional=True,
                         least=0.01, most=10_000, help="Left empty: the heaviest single piece."),
                Number(name="people", label="People who lift together", start="1", least=1,
                       most=20, whole=True),
                Quantity(name="hoist", label="Plan a hoist above", of="mass", us="110 lb",
                         metric="50 kg", least=1, most=5000, help="Set by whoever leads the "
                         "work."),
                hand("reach", "Reach from the ankles to the hands", "12 in", "30 cm", 0.254,
                     "A reach under 10 in (25.4 cm) counts as 10 in: write that."),
                hand("height", "Height of the hands at the start", "30 in", "76 cm", 0.0,
                     "Above the floor. Work out the end of the lift as well, and take the worse."),
                hand("travel", "Travel up or down", "20 in", "50 cm", 0.254,
                     "A travel under 10 in (25.4 cm) counts as 10 in: write that."),
                Quantity(name="turn", label="Turn of the body", of="angle", us="0°", least=0,
                         most=180),
                Number(name="rate", label="Lifts a minute", start="0.2", least=0.01, most=30,
                       help="0.2 is one in five minutes."),
                Choice(name="hours", label="For how long", options=HOURS),
                Choice(name="grip", label="Grip", options=GRIPS, start="fair"),
            ),
        ),
    ),
    formula=(
        "total = Σ(count·mass)·(1 + allowance); centre x = Σ(count·mass·x)/Σ(count·mass)",
        "limit = 51 lb × 10/H × (1 − 0.0075·|V − 30|) × (0.82 + 1.8/D) × (1 − 0.0032·A) × "
        "frequency × grip, in inches and degrees; 0 outside its range",
        "lifting index = load/limit",
    ),
    sources=(
        Source("NIOSH 94-110 (rev. 9/2021), Applications Manual for the Revised NIOSH Lifting "
               "Equation: pages 7 to 20", Status.PUBLISHED,
               "https://doi.org/10.26616/NIOSHPUB94110revised092021"),
        Source("The same, values of Tables 5 and 7", Status.MEMORY),
        Source("Mass and centre: sums and moments", Status.DERIVED),
    ),
    cautions=(
        "Not for lifting with one hand, seated, kneeling, in a team, in great heat, on a slippery "
        "floor or on a ladder.",
        "Hoists, cranes and slings: a qualified rigger.",
    ),
    recipe=Recipe(
        title="Package inspection, start of the lift",
        source="NIOSH 94-110 (rev. 9/2021), example 4, Fig. 14 (p. 46)",
        typed={"pieces": [{"name": "Package", "mass": "26 lb"}], "allowance": "0 %",
               "reach": "10 in", "height": "22 in", "travel": "37 in", "turn": "0°", "rate": "3",
               "hours": "1", "grip": "fair"},
        finds="34.8 lb at full precision (the manual prints 34.9 from rounded multipliers)",
        expects={"limit": 15.785},
        within=1e-3,
    ),
)  # fmt: skip
