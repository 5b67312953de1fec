"""Heat on site: how hot it feels, and how much of an hour may be worked."""

from __future__ import annotations

from worksheets.drawings.heat import bands_view
from worksheets.engine.dimensions import System
from worksheets.engine.given import Given
from worksheets.engine.heat import (
    HeatError,
    band,
    fahrenheit,
    heat_index,
    wbgt_outdoor,
    work_allowed,
)
from worksheets.engine.inputs import Block, Choice, Flag, Quantity
from worksheets.engine.result import Figure, Finding, Grid, Impossible, Picture, Result, Standing
from worksheets.engine.rules import rule_set
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status

HOTTEST = 93 / 1.8  # °C, 125 °F
THERMOMETERS = ("wet", "globe", "dry")
WORK = (
    ("light", "Light: sitting, standing, small brush"),
    ("moderate", "Moderate: roller, ladder work, carrying a little"),
    ("heavy", "Heavy: shovelling, drilling overhead, carrying panels"),
    ("very heavy", "Very heavy: digging fast, running with loads"),
)


def compute(given: Given) -> Result:
    rules = rule_set("heat", "us-nws")
    index = heat_index(given["air"], given["humidity"])
    sun = index + float(rules.values["full_sun"]) * 5 / 9
    felt = sun if given.flag("sun") else index
    found, measured = band(felt, rules), wbgt(given)
    where = "In full sun it can feel" if given.flag("sun") else "In the shade it feels"
    shown = given.both(felt, "temperature")
    says = f"{where} like {shown}: {(found or ('below the bands',))[0].lower()}."
    return Result(
        says=says,
        figures=(*index_figures(given, index, sun), *wbgt_figures(measured)),
        findings=(*band_findings(given, felt, found), *wbgt_findings(given, measured)),
        grids=(table(given),),
        pictures=(drawn(given, index, sun),),
        assumptions=(
            "Light clothing, a little wind, and a person in good health.",
            "The table is for cotton work clothes: overalls, respirators and rain gear ask for "
            "more rest.",
        ),
    )


def index_figures(given: Given, index: float, sun: float) -> tuple[Figure, ...]:
    clause = rule_set("heat", "us-nws").clause("full_sun")
    return (
        Figure(key="index", label="Heat index in the shade", value=index, of="temperature",
               places=1, main=True),
        Figure(key="sun", label="In full sun, up to", value=sun, of="temperature", places=1,
               main=given.flag("sun"), note=clause),
    )  # fmt: skip


def wbgt(given: Given) -> float | None:
    """From the three thermometers; none where none is entered."""
    read = {name: given.maybe(name) for name in THERMOMETERS}
    missing = [name for name, value in read.items() if value is None]
    if len(missing) == len(THERMOMETERS):
        return None
    if missing:
        raise Impossible(missing[0], "All three thermometers are needed. Write them, or none.")
    weights = rule_set("heat", "us-otm").values["weights"]
    try:
        return wbgt_outdoor(given["wet"], given["globe"], given["dry"], weights)
    except HeatError as error:
        raise Impossible("wet", str(error)) from None


def wbgt_figures(measured: float | None) -> tuple[Figure, ...]:
    if measured is None:
        return ()
    note = rule_set("heat", "us-otm").clause("weights")
    return (
        Figure(key="wbgt", label="Wet bulb globe temperature", value=measured, of="temperature",
               places=1, toward="up", note=note),
    )  # fmt: skip


def band_findings(given: Given, felt: float, found: tuple[str, str] | None) -> tuple[Finding, ...]:
    rules = rule_set("heat", "us-nws")
    if found is None:
        first = float(rules.values["bands"][0][0])
        return (
            Finding(
                standing=Standing.NOTE,
                says=f"Below the first band of the chart, {first:g} °F; heavy work in warm clothes "
                "can still overheat somebody.",
                rule=rules.clause("bands"),
            ),
        )
    stop = fahrenheit(felt) >= float(rules.values["stop_from"])
    return (
        Finding(
            standing=Standing.OVER if stop else Standing.NEAR,
            says=f"{'Stop: ' if stop else ''}{found[0].lower() if stop else found[0]}. {found[1]}",
            rule=rules.clause("bands"),
        ),
    )


def limits(given: Given) -> tuple[tuple[float | None, ...], ...]:
    key = "used" if given.choice("used") == "used" else "new"
    return tuple(tuple(row) for row in rule_set("heat", "us-otm").values[key])


def wbgt_findings(given: Given, measured: float | None) -> tuple[Finding, ...]:
    if measured is None:
        return ()
    rules = rule_set("heat", "us-otm")
    row = work_allowed(measured, given.choice("work"), limits(given), rules.values["work"])
    at = f"At {given.both(measured, 'temperature', places=1, toward='up')} WBGT"
    says = (
        f"Stop: {at.lower().replace('wbgt', 'WBGT').replace('°f', '°F').replace('°c', '°C')} the "
        f"table gives no {given.choice('work')} work at all."
        if row is None
        else f"{at} the table gives {given.choice('work')} work for "
        f"{rules.values['shares'][row]} of each hour, rest for the remainder."
    )
    full = row == 0
    standing = Standing.OVER if row is None else Standing.WITHIN if full else Standing.NEAR
    return (Finding(standing=standing, says=says, rule=rules.clause("table")),)


def table(given: Given) -> Grid:
    rules = rule_set("heat", "us-otm")
    told = "people used to the heat" if given.choice("used") == "used" else "people new to the heat"
    rows = tuple(
        (share, *(cell(given, most) for most in row))
        for share, row in zip(rules.values["shares"], limits(given), strict=True)
    )
    return Grid(
        title=f"Highest wet bulb globe temperature (WBGT) by work, for {told}",
        head=("Work in an hour", *(name.capitalize() for name in rules.values["work"])),
        rows=rows,
        numeric=(1, 2, 3, 4),
        note=f"{rules.clause('table')}. A dash: no such work without watching each person’s pulse "
        "and temperature.",
    )


def cell(given: Given, most: float | None) -> str:
    return "–" if most is None else given.show(most, "temperature", places=1, toward="down")


def drawn(given: Given, index: float, sun: float) -> Picture:
    metric = given.system == System.METRIC
    bands = tuple(
        (row[0], row[1], given.show((row[0] - 32) * 5 / 9, "temperature") if metric
         else f"{row[0]:g} °F")
        for row in rule_set("heat", "us-nws").values["bands"]
    )  # fmt: skip
    words = (given.show(index, "temperature"), given.show(sun, "temperature"))
    return Picture(
        svg=bands_view(bands, fahrenheit(index), fahrenheit(sun), words),
        caption="Bands of the weather service’s chart, for the shade. Both marks on one scale.",
    )


SHEET = Sheet(
    key="heat",
    title="Heat on site",
    purpose="How hot it feels while you work, and how much of an hour may be worked.",
    group=Group.ACCESS,
    place=30,
    caution=Caution.COMPETENT,
    compute=compute,
    blocks=(
        Block(
            title="The air",
            inputs=(
                Quantity(name="air", label="Air, in the shade", of="temperature", us="88 °F",
                         metric="31 °C", least=10, most=HOTTEST,
                         help="From 50 to 125 °F (10 to 51.7 °C)."),
                Quantity(name="humidity", label="Humidity", of="fraction", us="60 %", least=0,
                         most=1),
                Flag(name="sun", label="The work is in full sun"),
            ),
        ),
        Block(
            title="The work",
            inputs=(
                Choice(name="work", label="How hard it is", options=WORK, start="moderate"),
                Choice(name="used", label="Who works",
                       options=(("new", "New to the heat, or back after a week away"),
                                ("used", "Used to the heat for two weeks"))),
            ),
        ),
        Block(
            title="Thermometers on site",
            note="From instruments that stand in the sun where the work is; all three or none.",
            inputs=(
                Quantity(name="wet", label="Natural wet bulb", of="temperature", optional=True,
                         least=0, most=45),
                Quantity(name="globe", label="Black globe", of="temperature", optional=True,
                         least=0, most=90),
                Quantity(name="dry", label="Dry bulb", of="temperature", optional=True, least=0,
                         most=60),
            ),
        ),
    ),
    formula=(
        "below 80 °F: half of T and 0.5·(T + 61 + 1.2·(T − 68) + 0.094·RH)",
        "else HI = −42.379 + 2.04901523·T + 10.14333127·RH − 0.22475541·T·RH − 0.00683783·T² "
        "− 0.05481717·RH² + 0.00122874·T²·RH + 0.00085282·T·RH² − 0.00000199·T²·RH²",
        "less (13 − RH)/4·√((17 − |T − 95|)/17) below 13 %, 80 to 112 °F; "
        "plus (RH − 85)/10·(87 − T)/5 above 85 %, 80 to 87 °F",
        "WBGT outdoors = 0.7·natural wet bulb + 0.2·globe + 0.1·dry bulb",
    ),
    sources=(
        Source("US National Weather Service, the heat index equation", Status.PUBLISHED,
               "https://www.wpc.ncep.noaa.gov/html/heatindex_equation.shtml"),
        Source("OSHA Technical Manual III:4, formula of the WBGT", Status.PUBLISHED,
               "https://webarchive.library.unt.edu/web/20201218010044/https://www.osha.gov/dts/osta/otm/otm_iii/otm_iii_4.html"),
        Source("The table of work and rest, after ACGIH", Status.MEMORY),
    ),
    cautions=(
        "The heat index is for the shade; full sun can add up to 15 °F (8 °C).",
        "The wet bulb globe temperature is no temperature of the air: never compare it with one.",
        "People who are new to the heat, ill or on some medicines are in danger earlier. Somebody "
        "who is confused, or stops sweating, needs an ambulance and cooling at once.",
        "State rules may ask for shade and water from lower temperatures.",
    ),
    recipe=Recipe(
        title="88 °F and 60 %",
        source="NOAA/NWS heat index chart as reprinted (rfcafe.com)",
        typed={"air": "88 °F", "humidity": "60 %"},
        finds="95 °F",
        expects={"index": 35.0},
        within=0.015,
    ),
)  # fmt: skip
