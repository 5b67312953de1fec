"""What the worksheet on lights answers: energy, battery, charge, wire, and who must look."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.engine import lights
from worksheets.engine.amounts import figure
from worksheets.engine.dimensions import FOOT
from worksheets.engine.given import Given
from worksheets.engine.lights_case import (
    HOUR,
    Charge,
    Power,
    Run,
    battery_kind,
    rules,
    wires,
)
from worksheets.engine.result import (
    Figure,
    Finding,
    Grid,
    Hand,
    Standing,
    ToCare,
    ToLine,
    ToRequest,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    power: Power
    charge: Charge
    run: Run
    beyond: str  # why it is no extra-low voltage; empty where it is


def says(given: Given, found: Answer) -> str:
    power = found.power
    start = "Screening estimate: the" if found.beyond else "The"
    battery = given.both(power.bank.charge * HOUR, "charge", toward="up")
    parts = [
        f"{start} lights use {given.both(power.need * HOUR, 'energy', toward='up')} a night; "
        f"{battery} at {power.volts:g} V last {days_words(power.days)}"
    ]
    if found.charge.way == "sun":
        parts.append(f"a panel of {given.both(found.charge.panel, 'power', toward='up')} fills it")
    if found.charge.way == "crank":
        parts.append(f"{minutes(found.charge.hours)} of turning a night fill it")
    return "; ".join(parts) + "."


def days_words(days: float) -> str:
    return "one day without charge" if days == 1 else f"{days:g} days without charge"


def minutes(hours: float) -> str:
    """Rounded up, for what must be done.

    >>> minutes(0.51), minutes(2.5)
    ('31 minutes', '2 h 30 min')
    """
    whole = -int(-(hours * 60) // 1)
    return f"{whole} minutes" if whole < 100 else f"{whole // 60} h {whole % 60} min"


def figures(given: Given, found: Answer) -> tuple[Figure, ...]:
    power, run = found.power, found.run
    return (
        Figure(key="need", label="Energy a night, with losses", value=power.need * HOUR,
               of="energy", toward="up", main=True),
        Figure(key="charge", label=f"Battery at {power.volts:g} V, at least",
               value=power.bank.charge * HOUR, of="charge", toward="up", main=True),
        *charge_figures(found.charge),
        Figure(key="share", label="Lost along the wire", value=run.drop.share, of="fraction",
               places=1, toward="up", main=True),
        Figure(key="used", label="Energy a night of the lights alone", value=power.used * HOUR,
               of="energy"),
        Figure(key="night", label="Longest night", value=power.night * HOUR, of="duration",
               places=1),
        Figure(key="room", label="Energy the battery holds, full", value=power.bank.room * HOUR,
               of="energy", toward="up"),
        *owned_figures(given, power),
        Figure(key="current", label="Current in the wire", value=power.current, of="amps",
               toward="up"),
        Figure(key="drop", label="Voltage lost along the wire", value=run.drop.volts, of="volts",
               places=2, toward="up"),
        Figure(key="arrives", label="Voltage at the light", value=power.volts * run.left,
               of="volts", places=2, toward="down"),
        Figure(key="resistance", label=f"Resistance of the wire at {run.warm:g} °C",
               value=run.resistance, of="line_resistance", places=2, note=run.words),
    )  # fmt: skip


def charge_figures(charge: Charge) -> tuple[Figure, ...]:
    if charge.way == "sun":
        return (
            Figure(key="panel", label="Panel, at least", value=charge.panel, of="power",
                   toward="up", main=True, note="In the darkest month."),
        )  # fmt: skip
    if charge.way == "crank":
        return (
            Figure(key="turning", label="Turning the crank a night", text=minutes(charge.hours),
                   value=charge.hours, main=True),
            Figure(key="ratio", label="Minutes of light from a minute of turning",
                   value=charge.ratio, places=1, toward="down"),
        )  # fmt: skip
    return ()


def owned_figures(given: Given, power: Power) -> tuple[Figure, ...]:
    held = held_days(given, power)
    if held is None:
        return ()
    return (
        Figure(key="held", label="Days your battery lasts without charge", value=held, places=1,
               toward="down", unit="days"),
    )  # fmt: skip


def held_days(given: Given, power: Power) -> float | None:
    owned = given.maybe("owned")
    if owned is None:
        return None
    room = owned / HOUR * power.volts
    return lights.days_held(room, power.depth, power.efficiency, power.need)


def findings(given: Given, found: Answer) -> tuple[Finding, ...]:
    listed = [*electrician(found), *balance(given, found), *holding(given, found.power)]
    return (*listed, *dropped(given, found.run), *cautions(given))


def electrician(found: Answer) -> list[Finding]:
    if not found.beyond:
        return []
    return [
        Finding(
            standing=Standing.NEAR,
            says=f"{found.beyond} Screening estimate: do not build from this number. A licensed "
            "electrician must design, connect and sign it, and a permit may be needed.",
            rule="Electrical code of the place",
        )
    ]


def balance(given: Given, found: Answer) -> list[Finding]:
    """What a day of charging brings against what a night takes."""
    charge, need = found.charge, found.power.need
    listed = []
    if charge.makes is not None:
        enough = charge.makes >= need * (1 - 1e-9)
        whose = "Your panel" if charge.way == "sun" else "Your visitors"
        made = given.both(charge.makes * HOUR, "energy", toward="down")
        listed.append(
            Finding(
                standing=Standing.WITHIN if enough else Standing.OVER,
                says=f"{whose} {'bring' if charge.way == 'crank' else 'brings'} {made} a day; a "
                f"night takes {given.both(need * HOUR, 'energy', toward='up')}.",
                rule="What goes in must be what comes out",
            )
        )
    most = float(rules("charging").values["turn_most"])
    if charge.way == "crank" and charge.hours * 60 > most:
        listed.append(
            Finding(
                standing=Standing.NEAR,
                says=f"More than {most:g} minutes of turning a night: fewer hours or less light.",
                rule=rules("charging").clause("crank_power"),
            )
        )
    return listed


def holding(given: Given, power: Power) -> list[Finding]:
    listed, values = [], rules("charging").values
    if not float(values["autonomy_from"]) <= power.days <= float(values["autonomy_to"]):
        listed.append(
            Finding(
                standing=Standing.NEAR,
                says=f"{power.days:g} days without charge are entered; small works are mostly "
                "built for 2 to 5.",
                rule=rules("charging").clause("autonomy"),
            )
        )
    held = held_days(given, power)
    if held is not None:
        enough = held >= power.days * (1 - 1e-9)
        listed.append(
            Finding(
                standing=Standing.WITHIN if enough else Standing.OVER,
                says=f"Your battery lasts {figure(held, 1, 'down')} days; {power.days:g} wanted.",
                rule=rules("batteries").clause("depth"),
            )
        )
    return listed


def dropped(given: Given, run: Run) -> list[Finding]:
    branch, total = (float(wires().values[name]) for name in ("branch", "total"))
    share = given.show(run.drop.share, "fraction", places=1, toward="up")
    if run.drop.share > total:
        words = f"{share} is lost along the wire, more than 5 %: take a thicker one, or shorten it."
        return [Finding(standing=Standing.OVER, says=words, rule=wires().clause("total"))]
    if run.drop.share > branch:
        words = f"{share} is lost along the wire, between 3 and 5 %: lights may dim at the end."
        return [Finding(standing=Standing.NEAR, says=words, rule=wires().clause("branch"))]
    words = f"{share} is lost along the wire, at most the 3 % that are advised."
    return [Finding(standing=Standing.WITHIN, says=words, rule=wires().clause("branch"))]


BOX = {
    "lithium": "A lithium battery needs its management circuit, a box that is vented, shaded and "
    "hard to break open, and no charge below freezing.",
    "lead": "A lead battery gives off hydrogen: a vented box, upright, no flame near it.",
    "nickel": "Cells of nickel-metal hydride warm as they fill: a vented, shaded box.",
}


def cautions(given: Given) -> list[Finding]:
    return [
        Finding(
            standing=Standing.NOTE,
            says="Drop is not ampacity: look up the current the wire may carry, and put a fuse no "
            "larger than that at the battery’s plus.",
            rule="Common practice, no source",
        ),
        Finding(
            standing=Standing.NOTE,
            says=BOX[given.choice("battery")],
            rule="Common practice, no source",
        ),
    ]


def loads_grid(given: Given, power: Power) -> Grid:
    rows = []
    for row in given.rows("loads"):
        typed = row.maybe("hours")
        hours = power.night if typed is None else typed / HOUR
        total = row["watts"] * row["count"] * hours
        name = row.words("name") or "Light"
        cells = (name, f"{row['watts']:g} W", f"{row['count']:g}", f"{hours:.1f} h")
        rows.append((*cells, given.show(total * HOUR, "energy")))
    foot = ("All", "", "", "", given.show(power.used * HOUR, "energy"))
    head = ("Load", "Power", "How many", "A night", "Energy")
    return Grid(title="Loads", head=head, rows=tuple(rows), numeric=(1, 2, 3, 4), foot=foot)


def hands(given: Given, found: Answer) -> tuple[Hand, ...]:
    power = found.power
    kind = str(battery_kind(given)["name"])
    ampere = given.both(power.bank.charge * HOUR, "charge", toward="up")
    battery = f"{kind.capitalize()}, {power.volts:g} V, at least {ampere}"
    length = given.both(found.run.length, "length", toward="up")
    items = [battery, *charger(given, found), f"Two-core wire, {found.run.words}, {length}"]
    items += [
        "Fuse and holder for the battery’s plus",
        "Box: vented, locked, shaded, kept dry",
        "Controller that cuts off before the battery is too empty",
    ]
    lines = [ToLine(key="battery", label=battery, quantity=1, unit="piece")]
    if found.charge.way == "sun":
        lines.append(ToLine(key="panel", label=charger(given, found)[0], quantity=1, unit="piece"))
    wire = ToLine(key="wire", label=f"Two-core wire, {found.run.words}",
                  quantity=found.run.length / FOOT, unit="ft")  # fmt: skip
    return (
        *lines,
        wire,
        ToRequest(key="list", label="Ask suppliers for all of it", title="Battery, charge, wire",
                  items=tuple(items)),
        ToCare(key="care", label="Care of battery and lights", text=care(found)),
    )  # fmt: skip


def charger(given: Given, found: Answer) -> list[str]:
    if found.charge.way == "sun":
        return [f"Solar panel, at least {given.both(found.charge.panel, 'power', toward='up')}"]
    if found.charge.way == "crank":
        power = given.both(given["crank"], "power", toward="up")
        return [f"Hand crank with generator, {power} at a comfortable speed, and its controller"]
    return ["Charger, by the electrician"]


def care(found: Answer) -> str:
    own = {
        "sun": "Wipe the panel and cut back leaves every spring and autumn. ",
        "crank": "Grease the crank and try its generator every spring. ",
    }.get(found.charge.way, "")
    return (
        f"{own}Each October measure how long the battery lasts, tighten its terminals and look "
        "for water in the box; replace it when it lasts less than half as long as new."
    )
