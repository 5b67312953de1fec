"""Lights on a battery: energy, battery, panel or crank, and the voltage lost along the wire."""

from __future__ import annotations

from worksheets.drawings.lights import Along, Nights, nights_view, run_view
from worksheets.engine import lights
from worksheets.engine.given import Given
from worksheets.engine.inputs import Block, Choice, Flag, Number, Quantity, Table, Words
from worksheets.engine.lights_answer import Answer, figures, findings, hands, loads_grid, says
from worksheets.engine.lights_case import (
    GAUGES,
    HOUR,
    STRANDS,
    beyond_low_voltage,
    charge_of,
    power_of,
    run_of,
    wires,
)
from worksheets.engine.result import Picture, Result
from worksheets.engine.sheet import Caution, Group, Recipe, Sheet, Source, Status

BATTERIES = (
    ("lithium", "Lithium iron phosphate"),
    ("lead", "Lead-acid"),
    ("nickel", "Nickel-metal hydride"),
)
CHARGES = (("sun", "A solar panel"), ("crank", "A hand crank"), ("mains", "The mains"))


def compute(given: Given) -> Result:
    power = power_of(given)
    found = Answer(
        power=power,
        charge=charge_of(given, power),
        run=run_of(given, power),
        beyond=beyond_low_voltage(given, power),
    )
    return Result(
        licensed=bool(found.beyond),
        says=says(given, found),
        figures=figures(given, found),
        findings=findings(given, found),
        grids=(loads_grid(given, power),),
        pictures=(
            Picture(svg=nights_view(nights(given, found)), key="nights",
                    caption="What the battery holds night by night if nothing is put in."),
            Picture(svg=run_view(along(given, found)), key="run",
                    caption="The voltage falls evenly along the wire; dashed: what is advised."),
        ),
        hands=hands(given, found),
        assumptions=(
            "The whole current runs to the wire’s end; copper at the temperature that is shown.",
            "The battery is new: at the end of its life it holds about four fifths of that.",
            "Figures of batteries and of an arm at the crank are common practice, without source.",
        ),
    )  # fmt: skip


def nights(given: Given, found: Answer) -> Nights:
    power = found.power
    owned = given.maybe("owned")
    room = power.bank.room if owned is None else owned / HOUR * power.volts
    room = room or 1.0
    left = lights.kept_back(room, power.depth, power.need, power.efficiency, power.whole_days)
    return Nights(
        left=(1.0, *(each / room for each in left)),
        floor=1 - power.depth,
        lit=lights.days_held(room, power.depth, power.efficiency, power.need),
        full_words=given.show(room * HOUR, "energy", toward="up"),
        floor_words=given.show(room * (1 - power.depth) * HOUR, "energy", toward="up"),
    )


def along(given: Given, found: Answer) -> Along:
    power, run = found.power, found.run
    values = wires().values
    return Along(
        left=run.left,
        limits=(float(values["branch"]), float(values["total"])),
        start_words=given.show(power.volts, "volts"),
        end_words=given.show(power.volts * run.left, "volts", places=2, toward="down"),
        length_words=given.show(run.length, "length"),
        wire_words=run.words,
    )


SHEET = Sheet(
    key="lights",
    title="Lights on a battery",
    purpose="What a small light needs: battery, panel or crank, and a wire that does not dim it.",
    group=Group.POWER,
    place=20,
    caution=Caution.COMPETENT,
    kinds=("light",),
    compute=compute,
    blocks=(
        Block(
            title="Loads",
            note="Hours left empty: the whole of the longest night.",
            inputs=(
                Table(name="loads", label="Loads", row_name="load", most=30,
                      columns=(
                          Words(name="name", label="What", optional=True),
                          Quantity(name="watts", label="Power of one", of="power", least=0,
                                   most=2000),
                          Number(name="count", label="How many", start="1", least=1, most=500,
                                 whole=True),
                          Quantity(name="hours", label="Hours a night", of="duration",
                                   optional=True, least=0, most=86400),
                      ),
                      rows=({"name": "LED ring", "watts": "2 W", "count": "1", "hours": "5 h"},)),
                Quantity(name="losses", label="Added for drivers and standby", of="fraction",
                         us="10 %", least=0, most=1),
                Quantity(name="latitude", label="Latitude of the site", of="angle",
                         takes="site.latitude", us="42°", least=-90, most=90, optional=True,
                         help="For the longest night; north or south."),
                Quantity(name="night", label="Longest night, if you know it", of="duration",
                         optional=True, least=3600, most=86400),
            ),
        ),
        Block(
            title="Battery",
            inputs=(
                Choice(name="battery", label="Kind", options=BATTERIES),
                Quantity(name="volts", label="Voltage of the system", of="volts", us="12 V",
                         least=1, most=480),
                Choice(name="current_kind", label="Current",
                       options=(("dc", "Direct"), ("ac", "Alternating"))),
                Number(name="days", label="Days without charge", start="3", least=0.25, most=60,
                       help="2 to 5 are common practice."),
                Quantity(name="depth", label="Emptied by, at most", of="fraction", optional=True,
                         least=0.05, most=1,
                         help="Left empty: half of a lead battery, four fifths of the others."),
                Quantity(name="delivery", label="Kept on the way to the light", of="fraction",
                         us="97 %", least=0.3, most=1, help="Converter and cable."),
                Quantity(name="owned", label="Capacity of your battery, if you have one",
                         of="charge", optional=True, least=0, above=True, most=36e6),
            ),
        ),
        Block(
            title="Charge",
            inputs=(
                Choice(name="charge", label="Charged by", options=CHARGES),
                Quantity(name="sun", label="Hours of full sun in the darkest month",
                         of="duration", us="2 h", least=360, most=36000,
                         help="From a table of monthly sun for a panel at your tilt."),
                Quantity(name="system", label="Kept from the panel’s plate", of="fraction",
                         us="70 %", least=0.2, most=1),
                Quantity(name="panel", label="Panel you have", of="power", optional=True, least=0,
                         above=True, most=5000),
                Quantity(name="crank", label="Power of an arm at the crank", of="power",
                         us="30 W", least=1, most=200,
                         help="An adult holds about 30 W for some minutes, a child about 15 W "
                         "(common practice, no source)."),
                Quantity(name="crank_keeps", label="Kept by the crank’s generator",
                         of="fraction", us="70 %", least=0.1, most=1),
                Quantity(name="returns", label="What the battery gives back", of="fraction",
                         optional=True, least=0.3, most=1,
                         help="Left empty: the usual share of its kind."),
                Number(name="visitors", label="Visitors a night who turn it", optional=True,
                       least=0, most=10000, whole=True),
                Quantity(name="turning", label="Each turns it for", of="short_time", optional=True,
                         least=1, most=3600),
            ),
        ),
        Block(
            title="Wire to the light",
            inputs=(
                Quantity(name="run", label="Length, one way", of="length", us="20 ft",
                         metric="6 m", least=0.1, most=1000),
                Choice(name="wire", label="Size of the wire by",
                       options=(("gauge", "Gauge (AWG)"), ("area", "Area (mm²)")), metric="area"),
                Choice(name="gauge", label="Gauge", options=GAUGES, start="18"),
                Choice(name="strand", label="Strands", options=STRANDS),
                Quantity(name="area", label="Area of one conductor", of="wire_area",
                         us="1 mm²", least=1e-8, most=2e-4),
                Quantity(name="warm", label="Warmth of the copper", of="temperature", us="167 °F",
                         metric="75 °C", least=-40, most=120,
                         help="For an area; gauges are for 75 °C. Cold copper loses less."),
                Quantity(name="current", label="Current, if it is not that of the loads",
                         of="amps", optional=True, least=0, most=200),
                Flag(name="public", label="The wire runs in a public way"),
            ),
        ),
    ),
    formula=(
        "energy E = Σ W·h·(1 + losses)",
        "battery Wh = E·days/(depth·η); Ah = Wh/V",
        "panel W = E/(hours of full sun·K); turning h = E/(W·η)",
        "drop V = 2·L·R·I, with R of the table at 75 °C, or ρ/A warmed by 0.00393 a kelvin",
        "longest night: cos ω = (cos 90.833° − sin φ·sin δ)/(cos φ·cos δ), δ = −23.44°",
    ),
    sources=(
        Source("Electrician’s training page with NEC chapter 9, table 8: 16 AWG stranded",
               Status.PUBLISHED, "http://electrician2.com/weltrain05/lpage135.html"),
        Source("NEC chapter 9, table 8: the other rows; copper’s resistivity", Status.MEMORY),
        Source("NEC notes: 3 % and 5 % are advice", Status.PUBLISHED,
               "https://forums.mikeholt.com/threads/5-rule.4076"),
        Source("Sizing guide for battery and panel", Status.PUBLISHED,
               "https://www.simplisolar.org/education/"),
        Source("Depth of discharge, returns, the power of an arm", Status.PRACTICE),
    ),
    cautions=(
        "Over 50 V alternating or 60 V direct, with any connection to the mains, or with wire in a "
        "public way: a licensed electrician, and a permit.",
        "Fuse at the battery. Drop is not ampacity: check what current the wire may carry.",
        "Lithium needs its management circuit and a vented, shaded box that is hard to break open.",
        "Size on the darkest month; snow and leaves lie on panels.",
    ),
    recipe=Recipe(
        title="4 A over 100 ft of 16 AWG stranded copper at 24 V",
        source="Electrician’s training page (electrician2.com), with NEC chapter 9, table 8",
        typed={"current": "4 A", "run": "100 ft", "gauge": "16", "strand": "stranded",
               "volts": "24 V"},
        finds="4.0 V, 16.7 %",
        expects={"drop": 4.0, "share": 0.167},
        within=0.005,
    ),
)  # fmt: skip
