"""Sun: when it rises and sets, how long it shines on a wall, and what light plants have."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from worksheets.drawings.sun import MonthBar, Path, months, paths
from worksheets.engine.clock_words import day_words
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.inputs import Block, Choice, Day, Quantity, Table, Words
from worksheets.engine.result import (
    Figure,
    Finding,
    Grid,
    Impossible,
    Picture,
    Result,
    Standing,
    ToCare,
)
from worksheets.engine.rules import rule_set, rule_sets
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status
from worksheets.engine.sun import Obstruction, Place, Wall, light_class
from worksheets.engine.sun_year import (
    Hours,
    Scene,
    SunDay,
    compass,
    path,
    season,
    skyline,
    sun_day,
    sun_year,
)

EVENTS = (
    ("dawn", "Civil twilight begins"),
    ("rise", "Sunrise"),
    ("noon", "Sun highest"),
    ("set", "Sunset"),
    ("dusk", "Civil twilight ends"),
)


def scene_of(given: Given) -> Scene:
    try:
        zone = ZoneInfo(given.words("zone"))
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise Impossible(
            "zone", "This is no time zone. Write one such as America/New_York."
        ) from None
    return Scene(
        place=Place(given["latitude"], given["longitude"]),
        wall=Wall(bearing=given["bearing"] % 360, tilt=given["tilt"]),
        zone=zone,
        obstructions=tuple(obstruction(n, row) for n, row in typed_rows(given.rows("horizon"))),
    )


def obstruction(number: int, row: Given) -> Obstruction:
    start, end = row["start"] % 360, row["end"] % 360
    if start == end:
        raise Impossible("horizon", "It ends where it begins. Write two different bearings, "
                         "clockwise.", row=number, column="end")  # fmt: skip
    return Obstruction(start, end, row["altitude"])


def compute(given: Given) -> Result:
    scene = scene_of(given)
    day = given.day("day")
    there, year = sun_day(scene, day), sun_year(scene, day.year)
    mean = season(year, scene.place.latitude)
    told = rule_set("light", given.choice("light")).values
    light = light_class(mean, told["full"], told["part"])
    most, least = (choose(year, key=lambda each: each.hours) for choose in (max, min))
    facing = compass(scene.wall.bearing)
    return Result(
        says=f"{day_words(day)}: {setting(there, scene)}; a wall that faces {facing} has "
             f"{most.hours:.1f} h of sun in {most.day:%B} and {least.hours:.1f} h in "
             f"{least.day:%B}, {light} in the growing season.",
        figures=(
            *event_figures(there, scene),
            length_figure(there),
            Figure(key="on_wall", label="Sun on the wall that day", value=there.hours, unit="h",
                   places=1, main=True, note=spans_words(there.lit)),
            Figure(key="season", label="Sun on the wall in the growing season, a day",
                   value=mean, unit="h", places=1),
            Figure(key="light", label="Light for plants", text=light, main=True),
        ),
        findings=(Finding(standing=Standing.NOTE, says=dark(there, scene)),),
        grids=(year_grid(year, scene, told),),
        pictures=(
            Picture(svg=months([bar(each, scene) for each in year]), key="months",
                    caption="On the 21st of each month, by the clock of the place."),
            Picture(svg=paths(sun_paths(scene, day.year), skyline(scene), facing), key="paths",
                    caption="What rises above the sun’s path keeps the wall in shade."),
        ),
        hands=(ToCare(key="light", label="Sun on the wall", text=care(most, least, light)),),
        assumptions=(
            "Clear sky. Without rows for the horizon, a level one: trees and buildings change "
            "everything.",
            "Sunrise and sunset are those of the sun’s upper edge, with the bending of light.",
            "Each month stands for its 21st day; the growing season is April to September, in the "
            "south October to March.",
        ),
    )  # fmt: skip


def clock(minutes: float) -> str:
    """Minutes after midnight as a time; “+1” is the next day."""
    days, rest = divmod(round(minutes), 1440)
    return f"{rest // 60:02d}:{rest % 60:02d}" + (f" ({days:+d} day)" if days else "")


def event_figures(there: SunDay, scene: Scene) -> list[Figure]:
    found = []
    for key, label in EVENTS:
        moment = getattr(there.events, key)
        minutes = None if moment is None else scene.clock(moment, there.day)
        found.append(Figure(
            key=key, label=label, value=minutes, main=key in ("set", "dusk"),
            text="does not come" if minutes is None else clock(minutes),
        ))  # fmt: skip
    return found


def setting(there: SunDay, scene: Scene) -> str:
    if there.events.set is None:
        return "the sun does not set or does not rise"
    return f"the sun sets at {clock(scene.clock(there.events.set, there.day))}"


def length_figure(there: SunDay) -> Figure:
    label, length = "From sunrise to sunset", there.events.length
    if length is None:
        return Figure(key="length", label=label, text="the sun stays up or down")
    return Figure(key="length", label=label, value=length.total_seconds(), of="duration", places=1)


def dark(there: SunDay, scene: Scene) -> str:
    dusk = there.events.dusk
    if dusk is None:
        return "Civil twilight does not end on this day."
    when = clock(scene.clock(dusk, there.day))
    return f"From {when} on, people need a light to walk and to see the work by."


def spans_words(lit: tuple[Hours, ...]) -> str:
    return " and ".join(f"{clock(a * 60)}–{clock(b * 60)}" for a, b in lit) or "none"


def year_grid(year: list[SunDay], scene: Scene, told: Mapping[str, float]) -> Grid:
    rows = []
    for each in year:
        length = each.events.length
        rows.append((
            f"{each.day:%b}",
            "–" if each.events.rise is None else clock(scene.clock(each.events.rise, each.day)),
            "–" if each.events.set is None else clock(scene.clock(each.events.set, each.day)),
            "–" if length is None else f"{length.total_seconds() / 3600:.1f} h",
            f"{each.hours:.1f} h",
            spans_words(each.lit),
            light_class(each.hours, told["full"], told["part"]),
        ))  # fmt: skip
    return Grid(
        title="Month by month, on the 21st",
        head=("Month", "Sunrise", "Sunset", "Day", "On the wall", "From and to", "Light"),
        rows=tuple(rows),
        numeric=(1, 2, 3, 4),
    )


def bar(each: SunDay, scene: Scene) -> MonthBar:
    rise, down = each.events.rise, each.events.set
    day = None
    if rise and down:
        day = (scene.clock(rise, each.day) / 60, scene.clock(down, each.day) / 60)
    return MonthBar(name=f"{each.day:%b}", day=day, lit=each.lit, hours=f"{each.hours:.1f} h")


def sun_paths(scene: Scene, year: int) -> list[Path]:
    days = (("21 Jun", 6), ("21 Mar", 3), ("21 Dec", 12))
    return [Path(name=name, points=path(scene, date(year, month, 21))) for name, month in days]


def care(most: SunDay, least: SunDay, light: str) -> str:
    return (
        f"The wall has about {most.hours:.0f} hours of sun a day in {most.day:%B} and "
        f"{least.hours:.0f} in {least.day:%B} ({light} for plants). Compare the colours with the "
        "first photographs each spring; sun fades them."
    )


LIGHT = tuple((key, rules.title) for key, rules in rule_sets("light").items())

SHEET = Sheet(
    key="sun",
    title="Sun, twilight and light on a wall",
    purpose="When the sun rises and sets, how long it shines on a wall, and what light plants get.",
    group=Group.SITE,
    place=20,
    caution=Caution.NONE,
    kinds=("mural", "planter"),
    rules=(("light", "light"),),
    compute=compute,
    blocks=(
        Block(
            title="Where and when",
            inputs=(
                Quantity(name="latitude", label="Latitude, south negative", of="angle",
                         takes="site.latitude", us="42°", least=-66, most=66),
                Quantity(name="longitude", label="Longitude, west negative", of="angle",
                         takes="site.longitude", us="-72.5°", least=-180, most=180),
                Words(name="zone", label="Time zone", takes="project.zone",
                      start="America/New_York", most=60),
                Day(name="day", label="Day", takes="project.public_on", start="2031-06-21"),
            ),
        ),
        Block(
            title="The wall",
            inputs=(
                Quantity(name="bearing", label="Faces", of="angle", us="180°", least=0, most=360,
                         help="As you look out from it, clockwise from north: east 90°, south "
                              "180°, west 270°."),
                Quantity(name="tilt", label="Tilt", of="angle", us="90°", least=0, most=90,
                         help="Upright is 90°, flat on its back 0°."),
                Table(name="horizon", label="What stands in the way", optional=True,
                      row_name="building or tree",
                      columns=(
                          Quantity(name="start", label="From bearing", of="angle", least=0,
                                   most=360),
                          Quantity(name="end", label="clockwise to", of="angle", least=0,
                                   most=360),
                          Quantity(name="altitude", label="Its top, above level", of="angle",
                                   least=0, most=90),
                          Words(name="what", label="What it is", optional=True),
                      )),
                Choice(name="light", label="Light classes", options=LIGHT),
            ),
        ),
    ),
    formula=(
        "cos θz = sin φ·sin δ + cos φ·cos δ·cos ω",
        "cos θ = sin δ·sin φ·cos β − sin δ·cos φ·sin β·cos γ + cos δ·cos φ·cos β·cos ω "
        "+ cos δ·sin φ·sin β·cos γ·cos ω + cos δ·sin β·sin γ·sin ω",
        "sun on the wall while θ < 90° and the sun is over the horizon and over what stands there",
        "sunrise and sunset: upper edge on the horizon; civil twilight: θz = 96°",
    ),
    sources=(
        Source("Duffie and Beckman, Solar Engineering of Thermal Processes, chapter 1",
               Status.RECOMPUTED),
        Source("The sun’s place: Meeus, Astronomical Algorithms", Status.RECOMPUTED),
        Source("US Naval Observatory, sunrise and sunset at 39° N 105° W", Status.PUBLISHED),
        Source("Garden reference page: full sun from 6 h, part sun or part shade from 3 h",
               Status.PUBLISHED, "https://www.gardenia.net/guide/sun-or-light-needs-definitions"),
    ),
    cautions=(
        "Trees and buildings change everything: photograph the site at three times of the day.",
        "Times are good to about a minute on a level horizon; hills bring the sunset forward.",
        "Twilight is no permission to work at height.",
    ),
    recipe=Recipe(
        title="39° N, 105° W on 2 August 2015",
        source="US Naval Observatory, sunrise and sunset to the minute",
        typed={"latitude": "39°", "longitude": "-105°", "zone": "Etc/GMT+7", "day": "2015-08-02"},
        finds="sunrise at 5:01, sunset at 19:10",
        expects={"rise": 301.0, "set": 1150.0},
        within=0.004,
    ),
)  # fmt: skip
