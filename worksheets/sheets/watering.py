"""Watering: litres and cans a week for planters, month by month."""

from __future__ import annotations

from datetime import date

from worksheets.drawings.watering import WeekBar, weeks
from worksheets.engine import water
from worksheets.engine.dimensions import GALLON, System
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Number, Quantity, Table, Words
from worksheets.engine.result import Impossible, Picture, Result, ToCare
from worksheets.engine.rules import rule_set
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status
from worksheets.engine.water_asked import LITRE, climates, planters
from worksheets.engine.water_told import (
    can_words,
    cans_words,
    care,
    figures,
    findings,
    grid,
    unit_of,
)
from worksheets.engine.water_year import MonthNeed, month_need, peak, season_words


def compute(given: Given) -> Result:
    told = rule_set("plants", "landscape").values
    mine = planters(given, told)
    needs = [
        month_need(each, mine, given["latitude"], soil_share=given["soil_share"],
                   rest_below=told["rest_below"])
        for _, each in climates(given)
    ]  # fmt: skip
    if not needs:
        raise Impossible("climate", "Write the climate of at least one month.")
    top, size = peak(needs), given["can"] / LITRE
    return Result(
        says=f"To be watered: {season_words(needs)}. In {top.name} about "
             f"{cans_words(top.litres, size)} a week with the usual rain, "
             f"{cans_words(top.dry, size)} in a dry week.",
        figures=figures(given, needs, mine),
        findings=tuple(findings(given, needs, mine)),
        grids=(grid(given, needs),),
        pictures=(Picture(
            svg=weeks([bar(given, each) for each in needs], unit_of(given)), key="weeks",
            caption=f"About, for all planters together; cans of {can_words(given)}.",
        ),),
        hands=(ToCare(key="watering", label="Watering", text=care(given, needs)),),
        assumptions=(
            "About, within 30 % at best: pots in wind and against hot walls lose more.",
            "Evaporation is that of short grass, by the method that the inputs allow.",
            "Below a mean of 5 °C plants rest and nothing is brought (common practice, no source).",
        ),
    )  # fmt: skip


def bar(given: Given, need: MonthNeed) -> WeekBar:
    per = GALLON / LITRE if given.system == System.US else 1.0
    size = given["can"] / LITRE
    return WeekBar(name=need.name[:3], usual=need.litres / per, dry=need.dry / per,
                   cans=str(water.cans(need.dry, size)))  # fmt: skip


MONTHS = tuple((str(month), f"{date(2031, month, 1):%b}") for month in range(1, 13))
NEEDS = (
    ("moderate", "Moderate"),
    ("high", "High"),
    ("low", "Low"),
    ("very_low", "Very low"),
)
METHODS = (("can", "Watering can"), ("drip", "Drip pipe"), ("spray", "Spray"))
# An example: highest and lowest °F, rain in inches, of a place inland at 42° north.
CLIMATE = (
    (34, 17, 3.2), (37, 19, 2.9), (46, 27, 3.6), (58, 37, 3.9), (69, 47, 3.8), (77, 57, 4.1),
    (82, 62, 4.0), (80, 60, 3.9), (73, 53, 3.9), (61, 41, 4.4), (50, 33, 3.7), (39, 23, 3.6),
)  # fmt: skip
ROWS = tuple(
    {"month": str(n), "high": f"{high} °F", "low": f"{low} °F", "rain": f"{rain} in"}
    for n, (high, low, rain) in enumerate(CLIMATE, 1)
)
TROUGHS = {"name": "Trough", "count": "2", "area": "10 ft²", "need": "high", "soil": "9 ft³"}

SHEET = Sheet(
    key="watering",
    title="Watering: cans a week",
    purpose="How much water planters need in a week of each month, and what a drought asks.",
    group=Group.SITE,
    place=30,
    caution=Caution.NONE,
    kinds=("planter",),
    rules=(("plants", ""),),
    compute=compute,
    blocks=(
        Block(
            title="The climate",
            note="From the nearest weather station: the usual highest and lowest of a day, and "
                 "the rain of the month. What stands here is an example.",
            inputs=(
                Quantity(name="latitude", label="Latitude, south negative", of="angle",
                         takes="site.latitude", us="42°", least=-66, most=66),
                Table(name="climate", label="Month by month", rows=ROWS, most=12,
                      row_name="month",
                      columns=(
                          Choice(name="month", label="Month", options=MONTHS),
                          Quantity(name="high", label="Highest", of="temperature", optional=True,
                                   least=-40, most=50),
                          Quantity(name="low", label="Lowest", of="temperature", optional=True,
                                   least=-50, most=45),
                          Quantity(name="rain", label="Rain", of="small_length", optional=True,
                                   least=0, most=2),
                          Quantity(name="et0", label="Evaporation, if known", of="depth_rate",
                                   optional=True, least=0, most=0.02 / 86400),
                      )),
            ),
        ),
        Block(
            title="The planters",
            note="Thirst is high for ferns, lawn and annuals, moderate for most garden plants, low "
                 "for plants of dry ground, very low for stonecrops.",
            inputs=(
                Table(name="planters", label="Planters", rows=(TROUGHS,), row_name="planter",
                      columns=(
                          Words(name="name", label="Name", most=60),
                          Number(name="count", label="How many", start="1", least=1, most=500,
                                 whole=True),
                          Quantity(name="area", label="Ground the leaves cover, each", of="area",
                                   least=0.01, most=200),
                          Choice(name="need", label="Thirst", options=NEEDS),
                          Quantity(name="soil", label="Soil in it", of="bulk", optional=True,
                                   least=0.0005, most=50),
                      )),
                Number(name="density", label="Density of planting", start="1", least=0.5,
                       most=1.3, help="0.5 sparse, 1 usual, 1.3 crowded in layers."),
                Number(name="place", label="Exposure of the place", start="1", least=0.5,
                       most=1.4, help="0.5 sheltered shade, 1 open, 1.4 windy or beside hot "
                                      "walls."),
                Number(name="pot", label="Extra for pots", start="1.2", least=1, most=1.5,
                       help="1 in the ground; pots lose 1.2 to 1.5 times as much."),
                Quantity(name="extra", label="More in the first season", of="fraction",
                         us="0 %", least=0, most=1),
                Quantity(name="rain_share", label="Rain that gets into the pot", of="fraction",
                         us="50 %", least=0, most=0.6,
                         help="Leaves and walls keep much of it out."),
                Quantity(name="soil_share", label="Water the soil holds for plants",
                         of="fraction", us="15 %", least=0.03, most=0.4),
            ),
        ),
        Block(
            title="Bringing it",
            inputs=(
                Choice(name="method", label="With", options=METHODS),
                Quantity(name="can", label="One can holds", of="volume", us="2 gal",
                         metric="9 L", least=0.0005, most=1),
                Quantity(name="allowance", label="Share of the evaporation an ordinance allows",
                         of="fraction", optional=True, least=0.1, most=1.2,
                         help="Such as 55 % for homes in California. Elsewhere leave it empty."),
            ),
        ),
        Block(
            title="If more of the weather is known",
            note="Humidity, wind and sunshine of a month make its evaporation surer.",
            inputs=(
                Table(name="more", label="Month by month", optional=True, most=12,
                      row_name="month",
                      columns=(
                          Choice(name="month", label="Month", options=MONTHS),
                          Quantity(name="damp_most", label="Humidity, morning", of="fraction",
                                   least=0.05, most=1),
                          Quantity(name="damp_least", label="Humidity, afternoon", of="fraction",
                                   least=0.05, most=1),
                          Quantity(name="wind", label="Wind at 2 m (6.5 ft)", of="speed",
                                   least=0, most=20),
                          Number(name="sunshine", label="Hours of sun a day", least=0, most=24),
                      )),
                Quantity(name="elevation", label="Height above the sea", of="length",
                         us="0 ft", metric="0 m", least=-400, most=5000),
            ),
        ),
    ),
    formula=(
        "Hargreaves: ET₀ = 0.0023·(Tmean + 17.8)·√(Tmax − Tmin)·0.408·Ra",
        "Penman-Monteith: ET₀ = (0.408·Δ·Rn + γ·900/(T + 273)·u₂·(es − ea)) / "
        "(Δ + γ·(1 + 0.34·u₂))",
        "Ra = 37.6·dr·(ωs·sin φ·sin δ + cos φ·cos δ·sin ωs)",
        "litres a week = max(0, 7·ET₀·K − rain that gets in)·area/efficiency; "
        "K = thirst·density·exposure·pot (1 mm on 1 m² is 1 L)",
    ),
    sources=(
        Source("FAO Irrigation and Drainage Paper 56, equations 6, 11, 12, 21 to 25 and 52",
               Status.RECOMPUTED),
        Source("Guide to Estimating Irrigation Water Needs of Landscape Plantings, WUCOLS III, "
               "2000", Status.PUBLISHED, "https://docslib.org/download/7062383/guide-to-"
               "estimating-irrigation-water-needs-of-landscape-plantings-in-california"),
        Source("Extra for pots, share of rain, rest below 5 °C", Status.PRACTICE),
    ),
    cautions=(
        "Within 30 % at best: feel the soil with a finger, and do not water by the calendar.",
        "In hot sun small pots may need water twice a day.",
        "In the first season plants need more, until they have rooted.",
        "Water is heavy: on a roof, deck or bracket see the worksheet on planters first.",
    ),
    recipe=Recipe(
        title="45.7° N in July, 26.6 °C by day and 14.8 °C by night",
        source="FAO Irrigation and Drainage Paper 56, data of example 20, by Hargreaves",
        typed={"latitude": "45.72°",
               "climate": [{"month": "7", "high": "26.6 °C", "low": "14.8 °C", "rain": "0 mm"}]},
        finds="about 5.0 mm a day (the paper’s own route gives 4.6)",
        expects={"et0": 5.0 * 0.001 / 86400},
        within=0.012,
    ),
)  # fmt: skip
