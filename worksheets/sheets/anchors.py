"""A group of anchors: which one is worst, and how far the entered allowables are used up."""

from __future__ import annotations

import math

from worksheets.drawings.anchors import corners, elevation
from worksheets.engine.anchors import core_area
from worksheets.engine.anchors_case import WALLS, Anchor, Shared, assumptions, shared
from worksheets.engine.example import is_example, still_example
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Day, Number, Quantity, Table, Words
from worksheets.engine.result import (
    Figure,
    Finding,
    Grid,
    Picture,
    Result,
    Standing,
    ToCare,
    ToRequest,
)
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status


def compute(given: Given) -> Result:
    found = shared(given)
    worst = found.worst
    start = "Example only, not for a wall. " if is_example(given.words("report")) else ""
    used = given.show(worst.used, "fraction", toward="up")
    return Result(
        says=f"{start}Screening estimate: anchor {worst.number} of {len(found.anchors)} is worst "
        f"and uses {used}: {side_words(worst)}.",
        figures=figures(given, found),
        findings=(*from_example(given), limit_finding(given, found), *on_old_walls(given)),
        grids=(grid(given, found),),
        pictures=(picture(given, found),),
        hands=(question(given, found), care(found)),
        assumptions=assumptions(given, found),
    )


def side_words(worst: Anchor) -> str:
    return f"{'within' if worst.used <= 1 else 'over'} the entered limit"


def standing_of(worst: Anchor) -> Standing:
    return Standing.WITHIN if worst.used <= 1 else Standing.OVER


def figures(given: Given, found: Shared) -> tuple[Figure, ...]:
    worst = found.worst
    across = [each.across for each in found.anchors]
    return (
        Figure(key="used", label=f"Used of the entered limit, anchor {worst.number}",
               value=worst.used, of="fraction", toward="up", main=True,
               standing=standing_of(worst),
               note=found.rules.clause("interaction")),
        Figure(key="pull", label="Greatest pull on one anchor", toward="up", of="force",
               value=max(each.pull for each in found.anchors), main=True),
        Figure(key="shear", label="Greatest force along the wall on one anchor",
               value=max(across), of="force", toward="up", main=True),
        Figure(key="shear_least", label="Least force along the wall on one anchor",
               value=min(across), of="force", toward="up"),
        Figure(key="load", label="Load along the wall on the group",
               value=math.hypot(*found.load), of="force", toward="up"),
        *core_figure(given, found),
    )  # fmt: skip


def core_figure(given: Given, found: Shared) -> tuple[Figure, ...]:
    allowed = given.maybe("steel")
    if allowed is None:
        return ()
    area = max(core_area(each.pull, each.across, allowed) for each in found.anchors)
    return (
        Figure(key="core", label="Smallest core area of a bolt", value=area, of="small_area",
               toward="up", note="steel alone, by the largest principal stress"),
    )  # fmt: skip


def from_example(given: Given) -> tuple[Finding, ...]:
    if not is_example(given.words("report")):
        return ()
    says = (
        "The allowables are those of an example. Enter the ones of your anchor’s own report for "
        "this wall, depth, edge distance and spacing, with its number and date."
    )
    return (still_example(says),)


def limit_finding(given: Given, found: Shared) -> Finding:
    worst = found.worst
    pull = given.show(worst.pull_share, "fraction", toward="up")
    shear = given.show(worst.shear_share, "fraction", toward="up")
    return Finding(
        standing=standing_of(worst),
        says=f"Anchor {worst.number} takes {pull} of the entered pull and {shear} of the entered "
        f"force along the wall; pull and force together are {side_words(worst)}.",
        rule=found.rules.clause("interaction"),
    )


def on_old_walls(given: Given) -> tuple[Finding, ...]:
    if given.choice("wall") != "old":
        return ()
    says = "Old wall: a qualified firm tests anchors on it, and the tests bind, not this sheet."
    return (Finding(standing=Standing.NEAR, says=says),)


def grid(given: Given, found: Shared) -> Grid:
    return Grid(
        title="Each anchor",
        head=("Anchor", "Across", "Up", "Pull", "Along the wall", "Used"),
        rows=tuple(row(given, each) for each in found.anchors),
        numeric=(0, 1, 2, 3, 4, 5),
        note="Across and up are measured from the same point as the load.",
    )


def row(given: Given, each: Anchor) -> tuple[str, ...]:
    return (
        str(each.number),
        given.show(each.at[0], "small_length"),
        given.show(each.at[1], "small_length"),
        given.show(each.pull, "force", toward="up"),
        given.show(each.across, "force", toward="up"),
        given.show(each.used, "fraction", toward="up"),
    )


def picture(given: Given, found: Shared) -> Picture:
    left, right, low, high = corners(found)
    svg = elevation(
        found,
        load=given.show(math.hypot(*found.load), "force", toward="up"),
        greatest=given.show(max(a.across for a in found.anchors), "force", toward="up"),
        width=given.show(right - left, "small_length"),
        height=given.show(high - low, "small_length"),
    )
    return Picture(
        svg=svg,
        caption="The wall from the front, to scale; each arrow is the force along the wall. The "
        "pull away from it is in the table.",
    )


def question(given: Given, found: Shared) -> ToRequest:
    """What a licensed engineer is asked to check."""
    worst = found.worst
    items = (
        f"{len(found.anchors)} anchors in {WALLS[given.choice('wall')]}; positions as in the "
        "worksheet.",
        f"Piece of {given.both(given['mass'], 'mass', toward='up')}, its centre "
        f"{given.both(given['overhang'], 'length')} off the wall.",
        f"Anchor {worst.number}: pull {given.both(worst.pull, 'force', toward='up')}, along the "
        f"wall {given.both(worst.across, 'force', toward='up')} (screening estimate).",
        f"Entered report: {given.words('report')} of {given.day('report_day').isoformat()}.",
        "Please check breakout, edges, the wall itself and the load, and say what is to be tested "
        "on site.",
    )
    return ToRequest(key="question", label="The question for the engineer",
                     title="Check of wall anchors", items=items)  # fmt: skip


def care(found: Shared) -> ToCare:
    text = (
        f"Each year and after a storm: look at the {len(found.anchors)} anchors for rust, cracks "
        "in the wall and movement. Close the place and call the engineer if one is loose."
    )
    return ToCare(key="care", label="Looking after the anchors", text=text)


ROWS = ({"x": "0 in", "y": "0 in"}, {"x": "8 in", "y": "0 in"}, {"x": "8 in", "y": "12 in"},
        {"x": "0 in", "y": "12 in"})  # fmt: skip
METRIC_ROWS = ({"x": "0 mm", "y": "0 mm"}, {"x": "200 mm", "y": "0 mm"},
               {"x": "200 mm", "y": "300 mm"}, {"x": "0 mm", "y": "300 mm"})  # fmt: skip
CHOICES = tuple((key, f"{words[0].upper()}{words[1:]}") for key, words in WALLS.items())
WALL_OPTIONS = tuple(pair for pair in CHOICES if pair[0] != "tested")
REPORT_OPTIONS = tuple(pair for pair in CHOICES if pair[0] != "old")
RULES = (("linear", "Straight line, sum up to 1.2"), ("power", "5/3 power, sum up to 1"))


def place(name: str, label: str, us: str = "", metric: str = "", **more: object) -> Quantity:
    return Quantity(**{"name": name, "label": label, "of": "small_length", "us": us,
                       "metric": metric, "least": -20.0, "most": 20.0,
                       **more})  # type: ignore[arg-type]  # fmt: skip


def force(name: str, label: str, us: str = "", metric: str = "", **more: object) -> Quantity:
    return Quantity(**{"name": name, "label": label, "of": "force", "us": us, "metric": metric,
                       "least": 0.0, "most": 500_000.0, **more})  # type: ignore[arg-type]  # fmt: skip


SHEET = Sheet(
    key="anchors",
    title="Wall anchors: sharing of the load",
    purpose="Which anchor is worst, and the question to put to the engineer.",
    group=Group.LOADS,
    place=20,
    caution=Caution.LICENSED,
    kinds=("frame", "sculpture", "light", "skin", "planter", "other"),
    compute=compute,
    rules=(("anchors", "rule"),),
    blocks=(
        Block(
            title="The anchors",
            note="Measured from any one point of the wall: across to the right, and up.",
            inputs=(
                Table(name="bolts", label="Anchors", rows=ROWS, metric_rows=METRIC_ROWS, most=20,
                      row_name="anchor",
                      columns=(place("x", "Across"), place("y", "Up"))),
                place("edge", "Lower edge of the bracket", "-1 in", "-25 mm",
                      help="The line on the wall that it tips about, below every anchor."),
            ),
        ),
        Block(
            title="The load",
            inputs=(
                Quantity(name="mass", label="Mass that hangs", of="mass", us="64 lb",
                         metric="29 kg", takes="part.mass", least=0, most=50_000),
                place("overhang", "Off the wall, to its centre", "24 in", "600 mm", least=0.0),
                place("load_x", "Where it acts, across", optional=True,
                      help="Left empty: the middle of the anchors."),
                place("load_y", "Where it acts, up", optional=True),
                force("down", "Further force downwards", optional=True,
                      help="Snow, ice, or somebody who hangs on it."),
                force("sideways", "Force sideways along the wall", optional=True),
                force("pull", "Pull away from the wall", optional=True,
                      help="From the worksheet on wind, of the same kind as the allowables."),
                Number(name="times", label="Multiply the loads by", start="1", least=1, most=4,
                       help="A load factor, or more for shaking."),
            ),
        ),
        Block(
            title="What one anchor may take",
            note="From the anchor’s own evaluation report, for this wall, depth, edge distance, "
            "spacing and temperature. No report, no result.",
            inputs=(
                force("pull_allowed", "Allowed pull", "500 lbf", "2.2 kN", least=1.0),
                force("shear_allowed", "Allowed force along the wall", "500 lbf", "2.2 kN",
                      least=1.0),
                Words(name="report", label="Number of the report",
                      start="Example, no report"),
                Day(name="report_day", label="Date of the report", start="2030-01-01"),
                Choice(name="report_for", label="The report is for", options=REPORT_OPTIONS),
                Choice(name="wall", label="The wall is", options=WALL_OPTIONS),
                Choice(name="rule", label="Pull and shear together", options=RULES),
                Quantity(name="steel", label="Allowed stress of the bolt’s steel", of="stress",
                         optional=True, least=1e6, most=2e9),
            ),
        ),
    ),
    formula=(
        "along the wall, each anchor: P/n and M·r/Σr² across the line to the middle, added",
        "pull: T = M·l/Σl², l from the lower edge; M = P·overhang + pull·height",
        "together: T/Ta + V/Va up to 1.2 (a term up to 0.2 may be left out), or "
        "(T/Ta)^(5/3) + (V/Va)^(5/3) up to 1",
        "core of a bolt: σ/2 + √((σ/2)² + τ²) up to the allowed stress",
    ),
    sources=(
        Source("Bhandari, Design of Machine Elements, chapter 7, examples 7.3 and 7.6",
               Status.PUBLISHED, "https://github.com/FOSSEE/Scilab-TBC-Uploads"),
        Source("Shigley’s Mechanical Engineering Design, chapter 8 (eq. 8-56 on)",
               Status.PUBLISHED,
               "https://digilib.universitaspertamina.ac.id/ebook/Shigley's%20Mechanical%20"
               "Engineering%20Design/files/basic-html/page480.html"),
        Source("ACI 318 anchor chapter, interaction of tension and shear", Status.MEMORY),
    ),
    cautions=(
        "Screening only. A licensed engineer signs for anchors above a place where people walk.",
        "Values for concrete are void in brick, and those of one anchor in another.",
        "Old walls: a qualified firm tests anchors on site.",
        "Adhesive anchors overhead need certified installers.",
    ),
    recipe=Recipe(
        title="Four bolts, 200 × 150 mm, 10 kN at 500 mm from the middle",
        source="Bhandari, Design of Machine Elements, example 7.3",
        typed={"bolts": [{"x": "-100 mm", "y": "-75 mm"}, {"x": "100 mm", "y": "-75 mm"},
                         {"x": "100 mm", "y": "75 mm"}, {"x": "-100 mm", "y": "75 mm"}],
               "edge": "-100 mm", "mass": "0 kg", "down": "10 kN", "overhang": "0 mm",
               "load_x": "500 mm", "load_y": "0 mm", "report": "none: forces only"},
        finds="12 093 N on the worst bolt, 8139 N on the least",
        expects={"shear": 12093.4, "shear_least": 8139.4},
        within=1e-4,
    ),
)  # fmt: skip
