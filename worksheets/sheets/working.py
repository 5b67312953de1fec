"""Working on site: what a day at height asks for, and when to stop."""

from __future__ import annotations

from dataclasses import replace

from worksheets.drawings.ladder import Climb, ladder_view
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Flag, Quantity
from worksheets.engine.result import Figure, Hand, Picture, Result, ToRequest
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status
from worksheets.engine.working import Ladder, ladder_angle
from worksheets.engine.working_air import PLATFORMS, aloft
from worksheets.engine.working_answer import HELD, asked_ladder, method, prompts, to_sign
from worksheets.engine.working_prompt import Prompt, rules_of

RULES = (
    ("us-osha", "US: OSHA construction rules"),
    ("en-280", "Europe: EN 280 (wind on platforms only)"),
)
PLACES = (
    ("edge", "Roof, deck or other open edge"),
    ("ladder", "Ladder"),
    ("scaffold", "Scaffold"),
    ("boom", "Boom platform"),
    ("scissor", "Scissor platform"),
    ("hoisted", "Platform hung from a crane"),
    ("ground", "Ground"),
)
TOOLS = (
    ("none", "No drilling or cutting"),
    ("hammer_drill", "Hammer drill, hand-held"),
    ("rotary_drill", "Rotary drill, hand-held"),
    ("other", "Grinder, saw or other cutting tool"),
)
MATERIALS = (
    ("brick", "Brick"),
    ("mortar", "Mortar"),
    ("concrete", "Concrete"),
    ("stone", "Stone"),
    ("tile", "Tile"),
    ("plaster", "Plaster or render"),
    ("wood", "Wood"),
    ("metal", "Metal"),
)
MEASURED = (
    ("platform", "Measured at the platform"),
    ("ground", "Measured at the ground"),
    ("forecast", "From a forecast"),
)


def compute(given: Given) -> Result:
    found, rungs = prompts(given), asked_ladder(given)
    return Result(
        says=answer(found),
        figures=(*ladder_figures(given, rungs), *wind_figures(given)),
        findings=tuple(prompt.finding() for prompt in found),
        grids=(method(found), to_sign()),
        pictures=(
            Picture(
                svg=ladder_view(climb(given, rungs)),
                caption="Side view; heights and the ladder are to scale.",
            ),
        ),
        hands=hire(given, rungs),
        assumptions=(
            "Only what was entered was looked at: traffic, power lines, hot work and lifting are "
            "matters of their own.",
            "Self-employed artists and volunteers may stand outside these rules; sites usually "
            "impose them all the same.",
        ),
    )


def answer(found: tuple[Prompt, ...]) -> str:
    stops = [prompt for prompt in found if prompt.stops]
    if not stops:
        return "Nothing entered here says stop; a competent person on site decides."
    about = ", ".join(dict.fromkeys(prompt.about.lower() for prompt in stops))
    count = "One thing stops" if len(stops) == 1 else f"{len(stops)} things stop"
    return f"Stop: {count} the work as entered ({about})."


def ladder_figures(given: Given, rungs: Ladder | None) -> tuple[Figure, ...]:
    if rungs is None:
        return ()
    rules = rules_of(given)
    return (
        Figure(key="base", label="Foot of the ladder out", value=rungs.base, of="length",
               main=True, note=rules.clause("base_share")),
        Figure(key="length", label="Ladder needed, at least", value=rungs.length, of="length",
               toward="up", main=True, note="The overlap of its sections comes on top."),
        Figure(key="top", label="Top of its rails above the ground", value=rungs.top,
               of="length"),
        Figure(key="along", label="Working length, along the rails", value=rungs.working,
               of="length"),
        Figure(key="angle", label="Angle to the ground",
               value=ladder_angle(float(rules.values["base_share"])), of="angle",
               note="A quarter of the length; a quarter of the height would be 76°."),
    )  # fmt: skip


def wind_figures(given: Given) -> tuple[Figure, ...]:
    if given.choice("place") == "ground":
        return ()
    note = "" if aloft(given) == given["gust"] else "Raised from what was measured lower down."
    return (
        Figure(key="gust", label="Gust at the height of work", value=aloft(given), of="speed",
               places=1, toward="up", note=note),
    )  # fmt: skip


def climb(given: Given, rungs: Ladder | None) -> Climb:
    rules, place = rules_of(given), given.choice("place")
    limit = rules.values.get("falls", {}).get(place)
    height = 0.0 if place == "ground" else given["height"]
    found = Climb(
        height=height,
        height_words=given.show(height, "length"),
        place=dict(PLACES)[place],
        stands=place,
        threshold=float(limit["height"]) if limit else None,
        threshold_words=threshold(given, limit) if limit else "",
    )
    return found if rungs is None else with_ladder(given, found, rungs)


def threshold(given: Given, limit: dict[str, float]) -> str:
    start = "from" if limit["at"] else "above"
    return f"Fall protection; {start} {given.show(limit['height'], 'length')}"


def with_ladder(given: Given, found: Climb, rungs: Ladder) -> Climb:
    return replace(
        found,
        support=rungs.support,
        support_words=given.show(rungs.support, "length"),
        base=rungs.base,
        base_words=given.show(rungs.base, "length"),
        top=rungs.top,
        length_words=given.show(rungs.length, "length", toward="up"),
        extension_words=given.show(given["extension"], "length"),
        angle_words=given.show(rungs.angle, "angle"),
    )


def hire(given: Given, rungs: Ladder | None) -> tuple[Hand, ...]:
    items = []
    if rungs is not None:
        items.append(
            f"Ladder, at least {given.both(rungs.length, 'length', toward='up')} in use, "
            "with feet and ties"
        )
    if given.choice("place") in PLATFORMS:
        items.append(
            f"{dict(PLACES)[given.choice('place')]} rated for outdoors, feet at "
            f"{given.both(given['height'], 'length', toward='up')}; the wind of its plate told"
        )
    if given.choice("tool").endswith("drill"):
        items.append("Drill shroud and vacuum with a HEPA filter")
    if not items:
        return ()
    title = "Access and dust control for work on site"
    return (ToRequest(key="hire", label="Ask a hire firm for it", title=title, items=tuple(items)),)


SHEET = Sheet(
    key="working",
    title="Working on site: ladders, falls, dust, wind",
    purpose="What a day at height asks for, and when to stop; prints as a method statement.",
    group=Group.ACCESS,
    place=20,
    caution=Caution.COMPETENT,
    compute=compute,
    blocks=(
        Block(
            title="Today’s work",
            inputs=(
                Choice(name="rules", label="Rules", options=RULES,
                       help="Sets are kept apart; state and local rules may ask for more."),
                Choice(name="place", label="Where the worker stands", options=PLACES,
                       start="scaffold"),
                Quantity(name="height", label="Feet above the lower level", of="length",
                         us="9 ft", metric="2.8 m", least=0, most=60),
                Choice(name="held", label="What stops a fall", options=tuple(HELD.items()),
                       start="rails"),
                Quantity(name="scaffold_base", label="Least width of the scaffold’s base",
                         of="length", optional=True, least=0.3, most=10,
                         help="Only for a scaffold that stands free."),
            ),
        ),
        Block(
            title="Ladder",
            inputs=(
                Flag(name="ladder", label="A ladder is used to get up", start=True),
                Quantity(name="landing", label="Height of the landing", of="length", us="9 ft",
                         metric="2.8 m", least=0.3, most=15),
                Quantity(name="extension", label="Rails above the landing", of="length",
                         us="3 ft", metric="0.92 m", least=0, most=2),
                Quantity(name="working", label="Working length, if it is known", of="length",
                         optional=True, least=0.5, most=15,
                         help="From the foot to where it rests, along the rails; then the "
                         "landing’s height is not used."),
                Quantity(name="owned", label="Length of your ladder, opened", of="length",
                         optional=True, least=0.5, most=20),
            ),
        ),
        Block(
            title="Wind and the platform",
            note="No number of a rule stands in for the plate on the machine.",
            inputs=(
                Quantity(name="gust", label="Strongest gust", of="speed", us="12 mph",
                         metric="5 m/s", least=0, most=60),
                Choice(name="gust_from", label="How it is known", options=MEASURED),
                Quantity(name="plate", label="Wind on the machine’s own plate", of="speed",
                         optional=True, least=0, most=30,
                         help="Needed for every platform: read it off the machine."),
                Flag(name="indoor", label="The platform is rated for indoors only"),
                Flag(name="sheets", label="Panels or sheets are carried"),
                Flag(name="painting", label="Paint is applied outdoors"),
            ),
        ),
        Block(
            title="Dust",
            inputs=(
                Choice(name="tool", label="Tool", options=TOOLS),
                Choice(name="material", label="Material", options=MATERIALS),
                Flag(name="shroud", label="Shroud with dust collection on the drill"),
                Flag(name="vacuum", label="HEPA vacuum for the holes"),
            ),
        ),
        Block(
            title="Heat",
            note="For a day in full sun, or thermometers on site, use the worksheet on heat.",
            inputs=(
                Quantity(name="air", label="Air", of="temperature", optional=True,
                         least=10, most=93 / 1.8),
                Quantity(name="humidity", label="Humidity", of="fraction", optional=True,
                         least=0, most=1),
            ),
        ),
    ),
    formula=(
        "ladder: base = working length / 4; length = (landing + rails above it) / sin 75.5°",
        "fall: duty where height ≥ 6 ft at an open edge, > 10 ft on a scaffold, any height in a "
        "boom platform (US)",
        "wind: gust against the machine’s plate; a gust measured at the ground is raised by up to "
        "half at 20 m",
    ),
    sources=(
        Source("29 CFR 1926.1053(b)(5)(i), ladders; rails 3 ft above the landing from memory",
               Status.PUBLISHED,
               "http://edocket.access.gpo.gov/cfr_2003/julqtr/29cfr1926.1053.htm"),
        Source("29 CFR 1926.501(b)(1), open edges; 1926.451, 453 and 1431 from memory",
               Status.MEMORY),
        Source("29 CFR 1926.1153 Table 1 (vii), hand-held drills", Status.PUBLISHED,
               "https://docslib.org/doc/3131736/handheld-and-stand-mounted-drills-fact-sheet"),
        Source("EN 280 as quoted by a hire firm: 12.5 m/s outdoors", Status.PUBLISHED,
               "http://blog.proliftaccess.co.uk/news/warning-over-using-mewps-in-high-winds-during-october-storm-forecast/"),
    ),
    cautions=(
        "Thresholds start duties; below them falls still kill.",
        "Rules change by state and country; a competent person on site decides.",
        "Wind from a phone forecast is not wind at the platform: measure.",
        "A carried panel is a sail: see the worksheet on wind.",
    ),
    recipe=Recipe(
        title="A ladder that touches the wall 16 ft along its rails",
        source="4-to-1 rule as worked on a page on ladders (hotelsabruzzo.com)",
        typed={"working": "16 ft"},
        finds="Its foot stands 4 ft out",
        expects={"base": 1.2192, "angle": 75.5},
        within=1e-3,
    ),
    rules=(("working", "rules"),),
)  # fmt: skip
