"""Small pump and siphon: the head that is asked for, and what the pump then delivers."""

from __future__ import annotations

from worksheets.drawings.pump import Axis, Curves, Lift, curves_view, lift_view
from worksheets.engine.dimensions import DIMENSIONS
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Number, Quantity, Table, Words
from worksheets.engine.pump_answer import (
    Answer,
    answer,
    figures,
    findings,
    hands,
    says,
    siphon_figures,
)
from worksheets.engine.pump_case import FITTINGS, MATERIALS, pipe_of, refuse_outside
from worksheets.engine.result import Picture, Result
from worksheets.engine.rules import rule_set
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status

FAMILIES = (("plastic-40", "Schedule 40 plastic"), ("steel-40", "Schedule 40 nominal"))


def sizes() -> tuple[tuple[str, str], ...]:
    listed = [
        (f"{key}:{size}", f"{size} in, {name}")
        for key, name in FAMILIES
        for size in rule_set("pipes", key).values["inside"]
    ]
    return (*listed, ("other", "Another bore, written below"))


def compute(given: Given) -> Result:
    pipe = pipe_of(given)
    refuse_outside(pipe, given["flow"], given["temperature"])
    found = answer(given, pipe)
    return Result(
        says=says(given, found),
        figures=(*figures(given, found), *siphon_figures(given)),
        findings=findings(given, found),
        pictures=(
            Picture(
                svg=curves_view(curves(given, found)),
                caption="What the pipe asks for rises with the flow, what the pump makes falls: "
                "the real flow is where they meet.",
            ),
            Picture(svg=lift_view(sketch(given, found)), caption="Sketch, not to scale.",
                    key="lift"),
        ),
        hands=hands(given, found),
        assumptions=(
            "Fresh water in a full round pipe; between the points of its sheet the pump’s curve is "
            "taken as straight.",
            "The head of the water’s speed at the outlet is left out: it is small beside the rest.",
        ),
    )  # fmt: skip


def curves(given: Given, found: Answer) -> Curves:
    flow, head = (DIMENSIONS[name].unit(given.system) for name in ("flow", "length"))
    return Curves(
        system=found.pipe.head,
        pump=found.curve,
        wanted=(found.wanted, found.head),
        meets=found.meeting,
        flow=Axis(name="Flow", symbol=flow.symbol, per=flow.factor),
        head=Axis(name="Head", symbol=head.symbol, per=head.factor),
    )


def sketch(given: Given, found: Answer) -> Lift:
    pipe, kinds = found.pipe, len(given.rows("fittings"))
    fitted = " with fittings" if kinds else ""
    return Lift(
        lift=pipe.lift,
        words=given.show(abs(pipe.lift), "length"),
        length_words=f"{given.show(pipe.length, 'length')} of pipe{fitted}",
        outlet_words="Outlet"
        if not pipe.outlet
        else f"Outlet, {given.show(pipe.outlet, 'length')} of head",
    )


EXAMPLE_CURVE = (
    {"flow": "0 gal/min", "head": "12 ft"},
    {"flow": "5 gal/min", "head": "10.5 ft"},
    {"flow": "10 gal/min", "head": "7.5 ft"},
    {"flow": "15 gal/min", "head": "2 ft"},
)
EXAMPLE_METRIC = (
    {"flow": "0 L/min", "head": "3.7 m"},
    {"flow": "20 L/min", "head": "3.2 m"},
    {"flow": "40 L/min", "head": "2.2 m"},
    {"flow": "55 L/min", "head": "0.7 m"},
)

SHEET = Sheet(
    key="pump",
    title="Small pump and siphon",
    purpose="Which pump a small water piece or a watering line needs, and what it delivers.",
    group=Group.POWER,
    place=10,
    caution=Caution.COMPETENT,
    compute=compute,
    blocks=(
        Block(
            title="What is wanted",
            inputs=(
                Quantity(name="flow", label="Flow wanted", of="flow", us="6 gal/min",
                         metric="23 L/min", least=0, above=True, most=0.05),
                Quantity(name="lift", label="Lift, from the water to the outlet", of="length",
                         us="5 ft", metric="1.5 m", least=-30, most=100),
                Quantity(name="outlet", label="Pressure needed at the outlet", of="water_pressure",
                         us="0 psi", metric="0 kPa", least=0, most=1e6),
                Choice(name="supply", label="The pump runs on",
                       options=(("low", "Extra-low voltage"), ("mains", "The mains"))),
            ),
        ),
        Block(
            title="Pipe",
            inputs=(
                Choice(name="pipe", label="Size", options=sizes(), start="plastic-40:1"),
                Quantity(name="bore", label="Inside diameter, if another", of="small_length",
                         optional=True, least=0.002, most=0.3),
                Choice(name="material", label="Made of", options=MATERIALS),
                Quantity(name="length", label="Length of the pipe", of="length", us="30 ft",
                         metric="9 m", least=0.1, most=2000),
                Table(name="fittings", label="Fittings", optional=True, row_name="fitting",
                      columns=(
                          Choice(name="kind", label="Kind", options=FITTINGS),
                          Number(name="count", label="How many", least=0, most=200, whole=True),
                      ),
                      rows=({"kind": "elbow", "count": "4"}, {"kind": "ball_valve", "count": "1"})),
                Quantity(name="allowance", label="Added for barbs and small things",
                         of="fraction", us="30 %", least=0, most=2,
                         help="Hose barbs dominate in small pipe: 30 % is common practice."),
            ),
        ),
        Block(
            title="Friction",
            note="Left empty, roughness and C are those of the material, new and clean.",
            inputs=(
                Choice(name="method", label="Formula",
                       options=(("darcy", "Darcy-Weisbach with Colebrook"),
                                ("hazen", "Hazen-Williams"))),
                Quantity(name="roughness", label="Roughness", of="film", optional=True, least=0,
                         most=0.003),
                Number(name="smoothness", label="C, for Hazen-Williams", optional=True, least=60,
                       most=160),
                Quantity(name="temperature", label="Water", of="temperature", us="59 °F",
                         metric="15 °C", least=0.5, most=40),
            ),
        ),
        Block(
            title="The pump’s own curve",
            note="Type flow and head from its sheet, smallest flow first; clear it to see only "
            "what the pipe asks for.",
            inputs=(
                Words(name="pump_name", label="Pump, and the sheet it is from",
                      start="Example, no pump", optional=True),
                Table(name="curve", label="Points", optional=True, row_name="point", most=20,
                      columns=(
                          Quantity(name="flow", label="Flow", of="flow", least=0, most=0.05),
                          Quantity(name="head", label="Head", of="length", least=0, most=200),
                      ),
                      rows=EXAMPLE_CURVE, metric_rows=EXAMPLE_METRIC),
                Quantity(name="efficiency", label="Efficiency of pump and motor", of="fraction",
                         us="30 %", least=0.01, most=1,
                         help="Small pumps have 20 to 40 % (common practice, no source)."),
            ),
        ),
        Block(
            title="Siphon",
            inputs=(
                Quantity(name="crest", label="Crest above the water, if it is a siphon",
                         of="length", optional=True, least=0, most=20),
                Quantity(name="altitude", label="Altitude of the site", of="length", us="0 ft",
                         metric="0 m", least=-400, most=5000),
            ),
        ),
    ),
    formula=(
        "total dynamic head = lift + friction + head at the outlet; 1 psi = 2.31 ft of water",
        "Darcy-Weisbach h = f·L/D·v²/2g; f = 64/Re to 2300, else Colebrook "
        "1/√f = −2·log(k/3.7D + 2.51/(Re·√f))",
        "Hazen-Williams ft per 100 ft = 0.2083·(100/C)^1.852·Q^1.852/d^4.8655 (gal/min, in)",
        "fittings: as many bores of pipe as their table says; power = ρ·g·Q·H/η",
        "siphon: crest ≤ (pressure of the air − vapour)/(ρ·g), 10.33 m at sea level and cold",
    ),
    sources=(
        Source("Illinois Administrative Code, title 77, part 906, exhibit I: friction in Schedule "
               "40 plastic pipe, C = 150", Status.PUBLISHED,
               "https://d1tvxue8o4w0fl.cloudfront.net/regulation/illinois-administrative-code/title-77-public-health/part-906-private-sewage-mound-code/appendix-a-illustrations-and-exhibits/exhibit-i-friction-loss-in-schedule-40-plastic-pipe"),
        Source("Fluid mechanics textbook, example 8-3 (Colebrook)", Status.RECOMPUTED,
               "https://github.com/FOSSEE/Scilab-TBC-Uploads"),
        Source("Inside diameters: ASTM D1785 and ASME B36.10M as reprinted", Status.PUBLISHED,
               "http://ix23.com/workshop/schedule-40-pvc-pipe-dimensions/"),
        Source("Equivalent lengths in pipe diameters, as reprinted", Status.PUBLISHED,
               "https://www.scribd.com/doc/24752539/Fitting-Equivalent-Length"),
        Source("Siphon article, table by altitude", Status.PUBLISHED,
               "https://industrialmonitordirect.com/blogs/knowledgebase/sizing-a-water-siphon-for-600m-pipeline-with-10m-rise"),
        Source("Water’s viscosity and density; roughness; allowance for barbs", Status.MEMORY),
    ),
    cautions=(
        "Electricity at water: extra-low voltage where it can be had, a residual current device "
        "(ground-fault circuit interrupter), a licensed electrician.",
        "Standing water: rules of the authority on hygiene, drowning and mosquitoes.",
        "The largest head on a pump’s box is made at no flow at all: use its curve.",
        "Plastic pipe has a narrower bore than its nominal size says.",
    ),
    recipe=Recipe(
        title="20 gal/min through 100 ft of 1 1/2 in Schedule 40 plastic pipe, C = 150",
        source="Illinois Administrative Code, title 77, part 906, exhibit I",
        typed={"flow": "20 gal/min", "pipe": "steel-40:1 1/2", "length": "100 ft",
               "method": "hazen", "smoothness": "150", "fittings": [], "allowance": "0 %",
               "curve": [], "lift": "0 ft"},
        finds="2.46 ft lost in 100 ft",
        expects={"pipe": 0.7498},
        within=0.025,
    ),
    rules=(),
)  # fmt: skip
