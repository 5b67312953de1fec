"""Reach, projection and clear width: who can use a thing, and who walks into it."""

from __future__ import annotations

from collections.abc import Iterator

from worksheets.drawings.reach_marks import crowd, marks_of, shared_of, zone_of
from worksheets.drawings.scene import Piece, Scene
from worksheets.drawings.section import section
from worksheets.engine import reach
from worksheets.engine.amounts import counted
from worksheets.engine.dimensions import System
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Flag, Quantity, Table, Words
from worksheets.engine.reach_case import (
    floor,
    limits,
    not_known,
    path_itself,
    path_left,
    setting_of,
    things_of,
)
from worksheets.engine.result import Figure, Finding, Picture, Result, Standing
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status
from worksheets.engine.things import Setting, Thing, Told, has_figures, judge

ORDER = (Standing.OVER, Standing.NEAR, Standing.NOTE, Standing.WITHIN)


def compute(given: Given) -> Result:
    setting, things = setting_of(given), tuple(things_of(given))
    told = judge(things, setting)
    extra = (*path_itself(given, setting), *floor(given, setting.rules), *not_known(given))
    findings = (*(each.finding for each in told), *extra)
    return Result(
        says=summary(things, findings),
        figures=tuple(figures(given, setting, findings)),
        findings=tuple(sorted(findings, key=lambda f: ORDER.index(f.standing))),
        grids=(limits(given, setting),),
        pictures=pictures(given, setting, things, told),
        assumptions=assumptions(setting),
    )


def summary(things: tuple[Thing, ...], findings: tuple[Finding, ...]) -> str:
    over = [f for f in findings if f.standing == Standing.OVER]
    near = [f for f in findings if f.standing == Standing.NEAR]
    if over:
        names = list(dict.fromkeys(f.part for f in over if f.part))
        who = f" ({', '.join(names)})" if names else ""
        return f"{counted(len(over), 'thing')} to change before the drawing goes out{who}."
    if near:
        return f"Nothing is over a limit; {counted(len(near), 'thing')} at the very edge of one."
    if not things:
        return "Nothing is in the table yet, and no part has its heights written."
    return f"Nothing is over a limit of this rule set, for {counted(len(things), 'thing')}."


def figures(given: Given, setting: Setting, findings: tuple[Finding, ...]) -> Iterator[Figure]:
    over = sum(f.standing == Standing.OVER for f in findings)
    yield Figure(key="over", label="Over a limit", value=float(over), places=0, main=True,
                 standing=Standing.OVER if over else Standing.NOTE)  # fmt: skip
    known = [who for who in setting.users if has_figures(setting.rules, who)]
    shared = reach.common_band(setting.rules, known) if known else None
    if shared:
        low, high = shared
        yield Figure(key="low", label="Lowest height that all reach", value=low, of="small_length",
                     toward="up", main=True)  # fmt: skip
        yield Figure(key="high", label="Highest height that all reach", value=high,
                     of="small_length", toward="down", main=True)  # fmt: skip
    width = given.maybe("path_width")
    if width is not None:
        left = path_left(given, setting)
        label = "Path left at its narrowest"
        yield Figure(key="path", label=label, value=left, of="length")


def pictures(
    given: Given, setting: Setting, things: tuple[Thing, ...], told: list[Told]
) -> tuple[Picture, ...]:
    scene = Scene(
        title="the things in the table",
        show=setting.brief,
        pieces=tuple(piece(thing, told) for thing in things),
        people=tuple(crowd(setting)),
        path_from=setting.path_from if setting.path_width is not None else None,
        path_width=setting.path_width,
        kerb=given.maybe("kerb"),
        zone=zone_of(setting.rules),
        shared=shared_of(setting),
        feet=given.system == System.US,
    )
    caption = f"Section with the heights that hands reach, by {setting.rules.title}."
    return (Picture(key="section", svg=section(scene), caption=caption),)


def piece(thing: Thing, told: list[Told]) -> Piece:
    """A thing of the table has no height of its own: it is drawn as high as hands use it."""
    bottom = thing.edge if thing.edge is not None else max(0.0, (thing.used or 1.0) - 0.15)
    top = max(bottom + 0.2, (thing.used or 0.0) + 0.1)
    return Piece(
        name=thing.name,
        kind="other",
        mounting=thing.mounting,
        bottom=bottom,
        height=top - bottom,
        out=thing.out or 0.1,
        used=thing.used,
        marks=marks_of(thing.name, told),
    )


def assumptions(setting: Setting) -> tuple[str, ...]:
    rules = setting.rules
    return (
        f"{rules.title} ({rules.jurisdiction}); {rules.status}.",
        "Heights are above the finished ground where somebody stands, level and firm.",
        "People walk right up to the wall."
        if setting.walked
        else "Nobody walks between the path "
        "and the wall: only what reaches over the path counts as sticking out.",
        "Closer than an inch (25 mm) to a limit is marked: that much is lost in building.",
        "Touch, low sight, hearing and quiet are not covered by these numbers.",
    )


RULES = (
    ("us-2010", "2010 ADA Standards (US)"),
    ("iso-21542", "ISO 21542 and EN 17210 (Europe, from memory)"),
)
WHAT = (("both", "Used by hand and sticks out"), ("used", "Used by hand"), ("sticks", "Sticks out"))
MOUNTED = (
    ("wall", "On the wall"), ("post", "On a post"), ("hung", "Hangs over the path"),
    ("ground", "Stands on the ground"),
)  # fmt: skip
APPROACH = (("forward", "Forward"), ("side", "From the side"))


def small(name: str, label: str, most: float = 10.0, **more: object) -> Quantity:
    told = {"of": "small_length", "least": 0.0, "most": most, "optional": True} | more
    return Quantity(name=name, label=label, **told)  # type: ignore[arg-type]


COLUMNS = (
    Words(name="name", label="Thing", most=80),
    Choice(name="what", label="What it is", options=WHAT),
    small("used", "Height of use"),
    small("edge", "Lowest edge", 30.0),
    small("out", "Sticks out", 20.0),
    Choice(name="mounting", label="How it is fixed", options=MOUNTED),
    small("depth", "Reached over, depth", 2.0),
    small("obstruction", "Reached over, height", 3.0),
    Choice(name="approach", label="Approach", options=APPROACH),
    small("along", "Width along the path", 60.0),
    Quantity(name="force", label="Force to work it", of="force", least=0.0, most=500.0,
             optional=True),
)  # fmt: skip

SHEET = Sheet(
    key="reach",
    title="Reach, projection and clear width",
    purpose="Who can use each thing, who walks into it, and what is left of the path.",
    group=Group.ACCESS,
    place=10,
    caution=Caution.AUTHORITY,
    compute=compute,
    rules=(("reach", "rules"),),
    blocks=(
        Block(
            title="By which rules, and for whom",
            inputs=(
                Choice(name="rules", label="Rule set", options=RULES, start="us-2010",
                       metric="iso-21542"),
                Flag(name="adults", label="Adults, a wheelchair’s reach", start=True),
                Flag(name="small", label="Ages 3 to 4"),
                Flag(name="young", label="Ages 5 to 8", start=True),
                Flag(name="older", label="Ages 9 to 12", start=True),
            ),
        ),
        Block(
            title="Things people use or meet",
            note="Left empty, the project’s parts stand here: the height of use, the lowest edge "
            "and the depth of each.",
            inputs=(
                Table(name="things", label="Things", takes="parts", columns=COLUMNS, most=40,
                      row_name="thing",
                      rows=({"name": "Crank", "what": "both", "used": "36 in", "edge": "29 in",
                             "out": "8 in", "mounting": "wall"},),
                      metric_rows=({"name": "Crank", "what": "both", "used": "920 mm",
                                    "edge": "740 mm", "out": "200 mm", "mounting": "wall"},)),
            ),
        ),
        Block(
            title="The path",
            inputs=(
                Quantity(name="path_width", label="Width of the path", of="length", optional=True,
                         takes="site.path_width", us="6 ft", metric="1.8 m", least=0.1, most=60),
                Quantity(name="path_from", label="From the wall to the path", of="length",
                         optional=True, takes="site.path_from", us="0 ft", metric="0 m", least=0,
                         most=60),
                Quantity(name="kerb", label="Height of the kerb", of="small_length", optional=True,
                         takes="site.kerb", least=0, most=1),
                Flag(name="walked", label="People walk right up to the wall", start=True,
                     help="Untick it where a planted or fenced strip keeps them off."),
            ),
        ),
        Block(
            title="Clear ground in front of what is used",
            note="A chair needs level ground before what its user works by hand.",
            inputs=(
                small("floor_width", "Along the wall", 20.0),
                small("floor_length", "Out from the wall", 20.0),
                small("alcove", "Shut in at its sides, how deep", 20.0),
                Choice(name="floor_approach", label="Approach", options=APPROACH),
                small("below_height", "Room below for knees, height", 3.0),
                small("below_depth", "Room below, depth", 3.0),
                small("below_width", "Room below, width", 20.0),
            ),
        ),
    ),
    formula=(
        "reach: lowest ≤ height of use ≤ highest, where highest falls with the depth reached over",
        "all reach: the highest of the lowest, the lowest of the highest",
        "sticks out: limited only where a cane finds its lower edge too high and heads too low",
        "path left = width − (projection − distance from wall to path)",
    ),
    sources=(
        Source("2010 ADA Standards 305 to 309 and 403.5.1", Status.PUBLISHED,
               "https://www.ada.gov/law-and-regs/design-standards/2010-stds/"),
        Source("2010 ADA Standards 308.2, with figures", Status.PUBLISHED,
               "https://www.corada.com/documents/2010ADAStandards/308-2"),
        Source("Advisory 308.1, children’s reach", Status.PUBLISHED,
               "https://www.corada.com/documents/2012-tas/308-1-general"),
        Source("307.4, head room", Status.PUBLISHED,
               "https://corada.com/documents/2010ADAStandards/307-4"),
        Source("Wheelchair and seated adult: figure A3 of the 1991 ADA Standards",
               Status.PUBLISHED, "https://www.ada.gov/descript/reg3a/figA3ds.htm"),
        Source("ISO 21542:2021, EN 17210, CEN/TR 17621: read them before relying on these figures",
               Status.MEMORY, "https://www.iso.org/standard/71860.html"),
    ),
    cautions=(
        "The accessibility reviewer decides; state codes and local rules may be stricter.",
        "Children’s heights are guidance for things made mainly for them.",
        "A thing that sticks out may be guarded by one below it that a cane finds: ask.",
        "Measure again when it hangs: paving, kerb and posts move by more than an inch.",
    ),
    recipe=Recipe(
        title="A handle at 46 in, reached forward over 21 in",
        source="2010 ADA Standards 308.2.2",
        typed={"adults": "yes", "small": "yes", "young": "yes", "older": "yes",
               "path_width": "6 ft", "path_from": "0 ft",
               "things": [{"name": "Handle", "what": "used", "used": "46 in", "depth": "21 in",
                           "approach": "forward", "mounting": "wall"}]},
        finds="over 20 in deep the high forward reach is 44 in; all ages share 20 to 36 in",
        expects={"low": 0.508, "high": 0.9144, "over": 1},
        within=1e-6,
    ),
)  # fmt: skip
