"""Wind on a piece: how hard it pushes, whether the piece tips or slides, how deep a post goes."""

from __future__ import annotations

from worksheets.drawings.wind import side_view
from worksheets.engine.example import is_example
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Number, Quantity, Table, Words
from worksheets.engine.result import Picture, Result
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status
from worksheets.engine.wind_answer import (
    HOLDING,
    aside,
    assumptions,
    carried,
    carrying,
    from_example,
    push_figures,
)
from worksheets.engine.wind_case import push


def compute(given: Given) -> Result:
    found = push(given)
    held = HOLDING[given.choice("stands")](given, found)
    force = given.both(found.force, "force", toward="up")
    start = "Example only, not for a site. " if is_example(given.words("speed_from")) else ""
    caption = (
        "Side view, to scale; the wind comes from the left. Force of the level of allowable loads."
    )
    return Result(
        says=f"{start}Screening estimate: the wind pushes with {force} at "
        f"{given.both(found.arm, 'length')} above the ground{held.end}.",
        figures=(*push_figures(given, found), *held.figures, *carrying(given)),
        findings=(
            *from_example(given),
            *held.findings,
            *aside(given, found),
            *carried(given),
        ),
        pictures=(Picture(svg=side_view(held.side), caption=caption),),
        hands=held.hands,
        assumptions=assumptions(given, found),
    )


CODES = (
    ("asce-7-16", "ASCE 7-16 (US)"),
    ("asce-7-10", "ASCE 7-10 (US)"),
    ("asce-7-05", "ASCE 7-05 (US)"),
    ("asce-7-22", "ASCE 7-22 (US)"),
    ("en-1991-1-4", "EN 1991-1-4 (Europe)"),
)
EXPOSURES = (
    ("B", "B: town, woods, many low buildings"),
    ("C", "C: open country, few obstacles"),
    ("D", "D: flat, along open water"),
)
TERRAINS = (
    ("0", "0: open sea, coast"),
    ("I", "I: lakes, flat without obstacles"),
    ("II", "II: low plants, single trees or houses"),
    ("III", "III: villages, suburbs, woods"),
    ("IV", "IV: town centre"),
)
STANDS = (
    ("free", "Stands on a base, held by its weight"),
    ("wall", "Hangs on a wall, held by anchors"),
    ("post", "On a post in the soil"),
)
PANELS = (("flat", "Flat plate (1.28)"), ("square", "Square plate (1.17)"),
          ("long", "Long plate (1.98)"))  # fmt: skip
LENGTH = {"of": "length", "least": 0.01}


def length(name: str, label: str, us: str, metric: str, most: float, **more: object) -> Quantity:
    return Quantity(**{**LENGTH, "name": name, "label": label, "us": us, "metric": metric,
                       "most": most, **more})  # type: ignore[arg-type]  # fmt: skip


SHEET = Sheet(
    key="wind",
    title="Wind: push, tipping and sliding",
    purpose="A first estimate of what the wind does to a piece, to brief the engineer with.",
    group=Group.LOADS,
    place=10,
    caution=Caution.LICENSED,
    kinds=("frame", "sculpture", "skin", "light", "other"),
    compute=compute,
    rules=(("wind", "code"),),
    blocks=(
        Block(
            title="Code and wind speed",
            note="The building office says which code and edition governs. The speed is read from "
            "that edition’s map for the site and its risk category, never from a weather report.",
            inputs=(
                Choice(name="code", label="Code and edition", options=CODES, metric="en-1991-1-4"),
                Quantity(name="speed", label="Basic wind speed", of="speed", us="115 mph",
                         metric="26 m/s", least=1, most=120),
                Words(name="speed_from", label="Where the speed was read",
                      start="Example, no site",
                      help="Map or table, place and risk category."),
                Choice(name="exposure", label="Exposure (ASCE 7)", options=EXPOSURES, start="C"),
                Choice(name="terrain", label="Terrain (EN 1991-1-4)", options=TERRAINS,
                       start="II"),
                Number(name="hills", label="Hill factor (Kzt, or co in EN)", start="1", least=1,
                       most=3, help="1 on flat ground; more near a ridge or scarp."),
                Number(name="direction", label="Direction factor Kd (ASCE 7)", start="0.85",
                       least=0.8, most=1),
                Number(name="importance", label="Importance factor (ASCE 7-05 only)", start="1",
                       least=0.77, most=1.15),
            ),
        ),
        Block(
            title="What meets the wind",
            inputs=(
                length("width", "Width of the face", "4 ft", "1.2 m", 60, takes="part.width"),
                length("height", "Height of the face", "5 ft", "1.5 m", 60, takes="part.height"),
                length("bottom", "Its lower edge above the ground", "3 ft", "0.9 m", 100,
                       takes="part.bottom", least=0.0),
                Table(name="more", label="Further faces", optional=True, most=12,
                      row_name="face", columns=(
                          Words(name="name", label="Face", optional=True),
                          length("width", "Width", "", "", 60),
                          length("height", "Height", "", "", 60),
                          length("bottom", "Lower edge", "", "", 100, least=0.0))),
                Quantity(name="solidity", label="Solid share of the face", of="fraction",
                         us="100 %", least=0.01, most=1, help="Openings counted as holes."),
                Number(name="shape", label="Force coefficient (Cf; cf in EN)", start="1.8",
                       least=0.3, most=2.5, help="From the code’s figure for the shape: 1.8 is "
                       "usual for a plate clear of the ground."),
                Number(name="gust", label="Gust factor G (ASCE 7)", start="0.85", least=0.85,
                       most=2),
                Number(name="cscd", label="Structural factor cs·cd (EN)", start="1", least=0.85,
                       most=2),
            ),
        ),
        Block(
            title="What holds it",
            inputs=(
                Choice(name="stands", label="How it stands", options=STANDS),
                Quantity(name="mass", label="Mass with base", of="mass", us="2000 lb",
                         metric="900 kg", takes="part.mass", least=0.1, most=200_000),
                length("base", "Base, along the wind", "4 ft", "1.2 m", 30),
                length("base_length", "Base, across the wind", "4 ft", "1.2 m", 60),
                Number(name="friction", label="Friction on the ground", start="0.3", least=0.05,
                       most=0.8, help="0.2 to 0.5: common practice, no source."),
                Number(name="factor", label="Required factor", start="1.5", least=1, most=5),
                Quantity(name="soil", label="Soil’s sideways pressure per depth",
                         of="depth_pressure", us="100 psf/ft", metric="15.7 kPa/m", least=1000,
                         most=200_000, help="For a post: from the soil report, or the code’s "
                         "table."),
                length("post", "Width of the post or its hole", "12 in", "0.3 m", 5),
            ),
        ),
        Block(
            title="While it is carried as a panel",
            note="Here a gust measured on the day counts. Leave it empty if nobody carries it.",
            inputs=(
                Quantity(name="carry", label="Gust while it is carried", of="speed",
                         optional=True, least=0.5, most=40),
                Choice(name="panel", label="Shape of the panel", options=PANELS),
                Quantity(name="push", label="Push that the carriers may take", of="force",
                         optional=True, least=1, most=5000, help="Set by whoever leads the work."),
            ),
        ),
    ),
    formula=(
        "ASCE 7: q = 0.613 Kz·Kzt·Kd·V² (Pa, m/s), the same as 0.00256 in psf and mph; "
        "Kz = 2.01 (z/zg)^(2/α); F = q·G·Cf·A; with openings × [1 − (1 − ε)^1.5]",
        "EN 1991-1-4: qp = (1 + 7·Iv)·½ρ·vm²; vm = cr·co·vb; F = cs·cd·cf·qp·A",
        "tipping = W·(B/2)/(F·arm); sliding = µ·W/F; off the middle e = F·arm/W",
        "pressure under the edge = W/(B·L)·(1 + 6e/B), beyond B/6: 2W/(3L·(B/2 − e))",
        "post: A = 2.34 P/(S₁·b), d = A/2·[1 + √(1 + 4.36 h/A)], S₁ at d/3, sought until it fits",
        "carried panel: F = ½·1.225·V²·Cd·A",
    ),
    sources=(
        Source("ASCE 7-10 Section 29.4 as in a published sign calculation sheet",
               Status.PUBLISHED, "https://ro.scribd.com/document/391952847/SIGN-CALCULATOR-xls"),
        Source("Constants of Kz: published explanatory page on ASCE 7-05; table rows of ASCE 7-16",
               Status.MEMORY,
               "http://3.104.224.100/wandering-beacon/wind-load-calculation-as-per-asce-7-05"),
        Source("EN 1991-1-4 signboard example, 5 × 7 m", Status.PUBLISHED,
               "https://www.scribd.com/doc/179494512/In-this-design-example-we-will-try-to-present"
               "-how-to-calculate-the-wind-loads-subjected-to-signboards-according-to-Eurocode-1-"
               "docx"),
        Source("Tipping, toe pressure and posts: city permit file for a sign (public record)",
               Status.PUBLISHED,
               "https://archives.ci.zephyrhills.fl.us/WebLink/0/doc/166215/Page9.aspx"),
        Source("Openings: note to the ASCE 7-16 figure for solid signs", Status.PUBLISHED,
               "https://www.mecaenterprises.com/wind-loads-on-solid-signs/"),
    ),
    cautions=(
        "Screening only. A licensed engineer signs; the engineer’s number replaces this one.",
        "A weather report’s speed is never a design speed.",
        "Temporary events have their own rules and wind action plans: ask the authority.",
        "Canopies are lifted as well as pushed: that is left out here.",
    ),
    recipe=Recipe(
        title="A sign of 7.48 ft² at 20 ft, 155 mph, exposure D",
        source="Published sign calculation sheet (ASCE 7-10 Section 29.4)",
        typed={"code": "asce-7-10", "speed": "155 mph", "speed_from": "the published sheet",
               "exposure": "D", "width": "2 ft", "height": "3.74 ft", "bottom": "16.26 ft",
               "stands": "wall"},
        finds="Kz 1.083, 56.62 psf, 648 lbf, of which 389 lbf for allowable stress",
        expects={"kz": 1.083, "pressure": 2710.98, "force": 2882.45, "service": 1730.36},
        within=1.2e-3,
    ),
)  # fmt: skip
