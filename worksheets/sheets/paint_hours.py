"""Paint hours: which hours of a forecast, or of readings on site, can be painted."""

from __future__ import annotations

from worksheets.drawings.paint_hours import curves, strip
from worksheets.engine.dimensions import DIMENSIONS
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Day, Flag, Number, Quantity, Table, Words
from worksheets.engine.paint_asked import judged
from worksheets.engine.paint_told import (
    assumptions,
    enough,
    figures,
    hands,
    log_note,
    plan_findings,
    says,
)
from worksheets.engine.paint_words import coats_grid, days_grid, log_grid
from worksheets.engine.result import Picture, Result
from worksheets.engine.rules import rule_set, rule_sets
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status


def compute(given: Given) -> Result:
    rules = rule_set("paint-hours", given.choice("limits"))
    found = judged(given, rules)
    unit = DIMENSIONS["temperature"].unit(given.system)
    return Result(
        says=says(found),
        figures=figures(found),
        findings=(enough(found), *found.gaps, *plan_findings(found)),
        grids=(
            days_grid(found.hours, found.planned_days),
            *((coats_grid(found.coats),) if found.coats else ()),
            log_grid(found.hours, given.system, log_note(given, rules)),
        ),
        pictures=(
            Picture(svg=strip(found.hours, found.planned_days), key="strip",
                    caption="Hours of work. A dot: can be painted; a cross: outside a limit. Where "
                            "nothing stands, nobody paints."),
            Picture(svg=curves(found.hours, found.limits.spread,
                               lambda c: (c / unit.factor - unit.shift, unit.symbol)),
                    key="curves",
                    caption="The surface must stay above the dashed line until the paint is dry."),
        ),
        hands=hands(found),
        assumptions=assumptions(given, rules),
    )  # fmt: skip


LIMITS = tuple((key, rules.title) for key, rules in rule_sets("paint-hours").items())
TOOLS = (("brush", "Brush or roller"), ("spray", "Spray"))
SURFACES = (
    ("open", "Leave the hour open"),
    ("air", "Take the air, with the difference below"),
)
WEEKDAYS = (
    ("every", "Every day"),
    ("week", "Monday to Friday"),
    ("six", "Monday to Saturday"),
    ("end", "Saturday and Sunday"),
)
YES_NO = (("no", "No"), ("yes", "Yes"))
EXAMPLE = """\
time, air °F, humidity %, surface °F, wind mph, rain
2031-06-14 06:00, 56, 92, 54, 3, no
2031-06-14 08:00, 61, 84, 58, 4, no
2031-06-14 10:00, 67, 68, 65, 6, no
2031-06-14 12:00, 72, 56, 74, 8, no
2031-06-14 14:00, 75, 50, 79, 9, no
2031-06-14 16:00, 75, 50, 78, 9, no
2031-06-14 18:00, 71, 58, 72, 7, no
2031-06-14 20:00, 65, 72, 65, 4, no
2031-06-14 22:00, 61, 82, 60, 3, no
2031-06-15 00:00, 59, 88, 57, 2, no
2031-06-15 02:00, 58, 91, 56, 2, no
2031-06-15 04:00, 57, 93, 55, 2, no
2031-06-15 06:00, 58, 92, 56, 3, no
2031-06-15 08:00, 62, 84, 60, 5, no
2031-06-15 10:00, 66, 74, 65, 8, no
2031-06-15 12:00, 68, 72, 69, 11, no
2031-06-15 14:00, 66, 84, 67, 13, yes
2031-06-15 16:00, 64, 92, 64, 12, yes
2031-06-15 18:00, 63, 90, 63, 9, no
2031-06-15 20:00, 61, 90, 61, 6, no
2031-06-15 22:00, 60, 92, 59, 4, no"""

SHEET = Sheet(
    key="paint-hours",
    title="Paint hours: dew point and weather",
    purpose="Which hours of a forecast, or of readings on site, a wall can be painted in.",
    group=Group.SITE,
    place=10,
    caution=Caution.DATA_SHEET,
    kinds=("mural",),
    rules=(("paint-hours", "limits"),),
    compute=compute,
    blocks=(
        Block(
            title="Forecast, or readings on site",
            note="Paste lines as they come: the first names the columns in any order (time, air, "
                 "humidity or wet bulb, surface, wind, rain), with units where they differ.",
            inputs=(
                Words(name="readings", label="Pasted lines", lines=12, most=24_000, start=EXAMPLE,
                      optional=True,
                      help="Commas, semicolons, tabs or spaces between. Rain is an amount, a "
                           "chance in %, or yes and no."),
                Table(name="measured", label="Measured on site", optional=True, row_name="reading",
                      columns=(
                          Words(name="time", label="Day and time"),
                          Quantity(name="air", label="Air", of="temperature", least=-40, most=50),
                          Quantity(name="humidity", label="Humidity", of="fraction", least=0.05,
                                   most=1),
                          Quantity(name="surface", label="Wall", of="temperature", least=-40,
                                   most=90, optional=True),
                          Quantity(name="wind", label="Wind", of="speed", least=0, most=60,
                                   optional=True),
                          Choice(name="rain", label="Rain", options=YES_NO),
                      )),
                Choice(name="unmeasured", label="Where the wall was not measured",
                       options=SURFACES),
                Quantity(name="offset", label="Wall warmer (or, with −, colder) than the air by",
                         of="warmth", us="-5 °F", metric="-3 °C", least=-15, most=25,
                         help="Shade and dawn: colder. A dark wall in sun: up to 36 °F (20 °C) "
                              "warmer."),
                Quantity(name="chance", label="Chance of rain that counts as rain", of="fraction",
                         us="30 %", least=0.01, most=1),
                Quantity(name="holds", label="A reading stands for at most", of="duration",
                         us="3 h", least=3600, most=21600),
                Words(name="zone", label="Time zone", takes="project.zone", optional=True,
                      help="Only needed for times that end in Z or +02:00."),
            ),
        ),
        Block(
            title="What the paint asks",
            note="Left empty, a limit is that of the chosen kind of paint. The product data sheet "
                 "goes before all of them.",
            inputs=(
                Choice(name="limits", label="Kind of paint", options=LIMITS),
                Choice(name="tool", label="Put on with", options=TOOLS),
                Quantity(name="spread", label="Surface above the dew point by", of="warmth",
                         optional=True, least=0, most=15),
                Quantity(name="humidity", label="Humidity at most", of="fraction", optional=True,
                         least=0.2, most=1),
                Quantity(name="surface_least", label="Surface at least", of="temperature",
                         optional=True, least=-20, most=40),
                Quantity(name="surface_most", label="Surface at most", of="temperature",
                         optional=True, least=5, most=80),
                Quantity(name="air_least", label="Air at least", of="temperature", optional=True,
                         least=-20, most=40),
                Quantity(name="air_most", label="Air at most", of="temperature", optional=True,
                         least=5, most=50),
                Quantity(name="wind", label="Wind at most", of="speed", optional=True, least=0,
                         most=25, help="Empty: 15 mph (6.7 m/s) for spray, none for a brush."),
                Quantity(name="rain_free", label="No rain after, for", of="duration",
                         optional=True, least=0, most=259200),
                Quantity(name="drying", label="Above the dew point after, for", of="duration",
                         optional=True, least=0, most=259200),
                Quantity(name="dry_least", label="Never colder while it dries than",
                         of="temperature", optional=True, least=-10, most=30),
                Quantity(name="recoat", label="Next coat after", of="duration", optional=True,
                         least=0, most=1209600),
                Flag(name="rising", label="Only while the surface is not cooling"),
            ),
        ),
        Block(
            title="The work",
            inputs=(
                Number(name="coats", label="Coats", start="2", least=1, most=8, whole=True),
                Quantity(name="work", label="Hours of work for each", of="duration", us="4 h",
                         least=900, most=720000),
                Number(name="opens", label="Work from (hour of the day)", start="7", least=0,
                       most=23, whole=True, takes="outdoor.opens"),
                Number(name="closes", label="until (hour of the day)", start="19", least=1,
                       most=24, whole=True, takes="outdoor.closes"),
                Choice(name="weekdays", label="On", options=WEEKDAYS, takes="outdoor.weekdays"),
                Table(name="planned", label="Outdoor tasks as planned", takes="outdoor",
                      optional=True, row_name="task",
                      columns=(
                          Words(name="name", label="Task"),
                          Day(name="first", label="First day"),
                          Day(name="last", label="Last day"),
                      )),
            ),
        ),
        Block(
            title="For the log",
            inputs=(
                Words(name="who", label="Measured by", optional=True, most=80),
                Words(name="instrument", label="Instrument, and when it was last checked",
                      optional=True, most=120),
            ),
        ),
    ),
    formula=(
        "γ = ln h + 17.625·T/(243.04 + T); dew point Td = 243.04·γ/(17.625 − γ), T in °C",
        "an hour counts when surface ≥ Td + margin, and humidity, surface, air and wind are "
        "within their limits, and no rain falls and no dew can form until the paint is dry",
    ),
    sources=(
        Source("MIL-HDBK-1110 section 9.6.6: surface 5 °F above the dew point and rising, measured "
               "about every 4 hours", Status.PUBLISHED,
               "https://ufgscriteria.tpub.com/3_190_06/3_190_060170.htm"),
        Source("Contract specification 09328: 5 °F or 3 °C above the dew point, 85 % humidity",
               Status.PUBLISHED, "https://www.yumpu.com/en/document/view/38514709/"
               "final-bid-specs-09328pdf-freese-and-nichols-inc/137"),
        Source("Dew point: Magnus form, coefficients of Alduchov and Eskridge 1996", Status.MEMORY),
        Source("Humidity from a wet bulb: ASHRAE Fundamentals 2017, chapter 1",
               Status.RECOMPUTED),
    ),
    cautions=(
        "A forecast gives the air, not the wall: at dawn a wall can be colder than the air, in sun "
        "a dark one 20 °C warmer. Measure it with a contact thermometer.",
        "In the evening the wall cools towards the dew point while the paint is still wet: keep "
        "the margin until it is dry.",
        "These are rules for coatings on steel; for wall paint the product data sheet rules.",
        "At a margin of only 5 °F the air at the wall already has about 82 to 86 % humidity.",
    ),
    recipe=Recipe(
        title="Air of 30 °C at 55 % humidity",
        source="Coatings maker’s glossary: 30 °C and 55 % give a dew point of 20 °C",
        typed={"readings": "2031-06-14 10:00, 30 °C, 55 %, 26 °C, 2 m/s, 0", "spread": "3 °C"},
        finds="a dew point of 20 °C, so a surface of at least 23 °C",
        expects={"dew": 20.0, "least_surface": 23.0},
        within=0.005,
    ),
)  # fmt: skip
