"""Concrete for holes: bags for footings and posts, and when to order it ready-mixed."""

from __future__ import annotations

from functools import partial

from worksheets.drawings.holes import Footing, footing
from worksheets.engine.amounts import show
from worksheets.engine.concrete import Filled, filled
from worksheets.engine.dimensions import System
from worksheets.engine.given import Given
from worksheets.engine.inputs import (
    Block,
    Choice,
    Number,
    Price,
    Quantity,
    Table,
    Words,
    small_length,
)
from worksheets.engine.result import (
    Figure,
    Finding,
    Grid,
    Hand,
    Picture,
    Result,
    Standing,
    ToLine,
    ToRequest,
)
from worksheets.engine.rules import rule_set
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status


def compute(given: Given) -> Result:
    found = filled(given)
    return Result(
        says=f"{given.both(found.need, 'bulk', toward='up')} of concrete: "
        + " or ".join(f"{bag.count} × {bag.name}" for bag in found.bags)
        + ".",
        figures=figures(found),
        findings=findings(found),
        grids=(grid(found),),
        pictures=(picture(given),),
        hands=hands(found),
        assumptions=(
            "The size of the footing is taken as entered: nothing here says that it holds.",
            "A bag makes what its label says, mixed with the water that its label says.",
        ),
    )


def figures(found: Filled) -> tuple[Figure, ...]:
    cost = () if found.best is None else (
        Figure(key="cost", label="Bags, at least cost", value=found.best.cents, of="money",
               main=True, note=mixed(found)),
    )  # fmt: skip
    return (
        Figure(key="volume", label="Concrete in place", value=found.volume, of="bulk",
               toward="up", main=True),
        *cost,
        Figure(key="need", label="Concrete to mix", value=found.need, of="bulk", toward="up"),
        Figure(key="mass", label="Mass in place", value=found.mass, of="mass", toward="up",
               note=found.rules.clause("concrete")),
        *(Figure(key=f"bags-{place + 1}", label=f"Bags of {bag.name} alone", value=bag.count,
                 unit="bags", places=0)
          for place, bag in enumerate(found.bags)),
    )  # fmt: skip


def mixed(found: Filled) -> str:
    """“4 × 80 lb, 1 × 40 lb”."""
    if found.best is None:
        return ""
    names = [bag.name for bag in found.bags if bag.cents is not None]
    pairs = zip(found.best.counts, names, strict=True)
    return ", ".join(f"{count} × {name}" for count, name in pairs if count)


def findings(found: Filled) -> tuple[Finding, ...]:
    size = Finding(
        standing=Standing.NOTE,
        says="Size of the footing and depth below frost come from the authority or an engineer.",
    )
    most = float(found.rules.values["ready_mix"])
    if found.need <= most:
        return (size,)
    says = f"This is over {found.given.both(most, 'bulk')}: ask for ready-mixed concrete."
    clause = found.rules.clause("ready_mix")
    return (Finding(standing=Standing.NEAR, says=says, rule=clause), size)


def grid(found: Filled) -> Grid:
    given = found.given
    return Grid(
        title="Bags, each size alone",
        head=("Bag", "Makes", "Bags", "Cost"),
        rows=tuple(
            (bag.name, given.both(bag.makes, "bulk"), f"{bag.count:,}",
             "" if bag.cost is None else given.money(bag.cost))
            for bag in found.bags
        ),
        numeric=(1, 2, 3),
        note=f"With {given.show(given['waste'], 'fraction')} more for spilling and uneven sides.",
    )  # fmt: skip


def picture(given: Given) -> Picture:
    post = 0.0 if given.choice("post") == "none" else given["post_size"]
    svg = footing(
        Footing(
            width=given["across"], depth=given["depth"], gravel=given["gravel"], post=post,
            post_depth=given.maybe("post_depth") or given["depth"],
            width_words=given.show(given["across"], "small_length"),
            depth_words=given.show(given["depth"], "small_length"),
            gravel_words=given.show(given["gravel"], "small_length"),
        )
    )  # fmt: skip
    return Picture(svg=svg, caption="One hole, cut through its middle, to scale.")


def hands(found: Filled) -> tuple[Hand, ...]:
    bag = found.bags[-1]
    count, words = bag.count, f"{bag.count} bags of {bag.name}"
    if found.best is not None:
        count, words = sum(found.best.counts), mixed(found)
    cents = None if found.best is None else found.best.cents
    need = found.given.both(found.need, "bulk", toward="up")
    return (
        ToLine(key="bags", label="Bags of concrete", quantity=count, unit="bags", cents=cents),
        ToRequest(key="list", label="The purchase list", title="Concrete",
                  items=(f"Dry concrete mix: {words}, for {need} of concrete",)),
    )  # fmt: skip


def known_bags(key: str, system: System) -> tuple[dict[str, str], ...]:
    """The usual sizes, as rows to start with."""
    rows = rule_set("filling", key).values["bags"]
    return tuple({"name": name, "makes": show(makes, "bulk", system)} for name, makes in rows)


SHAPES = (("round", "Round"), ("box", "Square or oblong"))
POSTS = (("none", "None"), ("round", "Round"), ("square", "Square"))


small = partial(small_length, least=0.01, most=10.0)


SHEET = Sheet(
    key="concrete",
    title="Concrete: bags for holes and footings",
    purpose="How many bags fill the holes, less the posts that stand in them.",
    group=Group.QUANTITIES,
    place=50,
    caution=Caution.COMPETENT,
    kinds=("footing", "sculpture"),
    compute=compute,
    rules=(("filling", ""),),
    blocks=(
        Block(
            title="The hole",
            inputs=(
                Number(name="count", label="How many", start="1", least=1, most=500, whole=True),
                Choice(name="shape", label="Shape", options=SHAPES),
                small("across", "Diameter, or width", "12 in", "300 mm"),
                small("along", "Length", "", "", optional=True,
                      help="Left empty, the hole is square."),
                small("depth", "Depth of the concrete", "33 in", "850 mm"),
                small("gravel", "Gravel below it", "0 in", "0 mm", least=0.0, most=2.0),
            ),
        ),
        Block(
            title="The post in it",
            inputs=(
                Choice(name="post", label="Post", options=POSTS),
                small("post_size", "Diameter, or side", "4 in", "100 mm", least=0.001),
                small("post_depth", "How far it stands in the concrete", "", "", optional=True,
                      help="Left empty, it stands on the gravel."),
            ),
        ),
        Block(
            title="Bags",
            inputs=(
                Quantity(name="waste", label="More for waste", of="fraction", us="10 %", least=0,
                         most=0.5),
                Table(name="bags", label="Bags", row_name="bag", most=8,
                      columns=(
                          Words(name="name", label="Bag", optional=True, most=30),
                          Quantity(name="makes", label="Makes", of="bulk", least=0.0005, most=1.5),
                          Price(name="price", label="Price of one", optional=True),
                      ),
                      rows=known_bags("bags-us", System.US),
                      metric_rows=known_bags("bags-metric", System.METRIC),
                      help="What the label says one bag makes, mixed."),
            ),
        ),
    ),
    formula=(
        "round hole V = π/4 · d² · depth; oblong hole V = width · length · depth; less the post",
        "bags = V · (1 + waste) / what a bag makes, rounded up",
        "mass = V · density",
    ),
    sources=(
        Source("Builders’ resource page, deck pier of 12 in × 33 in; bags of 40 and 80 lb",
               Status.PUBLISHED, "https://constructionwork.com/resource/columnsposts/"),
        Source("A town’s permit file, sign footing of 51.26 ft³ at 150 lb/ft³", Status.PUBLISHED,
               "https://archives.ci.zephyrhills.fl.us/WebLink/0/doc/178567/Page35.aspx"),
    ),
    cautions=(
        "This counts bags. Size of the footing and frost depth come from the authority or an "
        "engineer.",
        "Call before you dig: pipes and cables are marked by those who own them.",
        "Wet concrete burns skin and eyes, and its dust harms lungs: gloves, glasses and a mask.",
        "Over about 1 yd³ (0.76 m³) order ready-mixed concrete.",
    ),
    recipe=Recipe(
        title="A deck pier, 12 in across and 33 in deep",
        source="Builders’ resource page: bags of 40 lb make 0.30 ft³, of 80 lb 0.60 ft³",
        typed={"count": "1", "shape": "round", "across": "12 in", "depth": "33 in", "post": "none",
               "waste": "0 %", "bags": [{"name": "40 lb", "makes": "0.30 ft³"},
                                        {"name": "80 lb", "makes": "0.60 ft³"}]},
        finds="2.15 ft³: 8 bags of 40 lb, or 4 of 80 lb",
        expects={"volume": 0.060881, "bags-1": 8, "bags-2": 4},
        within=0.01,
    ),
)  # fmt: skip
