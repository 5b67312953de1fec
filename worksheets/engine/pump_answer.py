"""What the worksheet on pumps answers: heads, the crossing of the curves, the siphon."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.engine import pump
from worksheets.engine.air import saturation_pressure
from worksheets.engine.dimensions import FOOT
from worksheets.engine.example import is_example, still_example
from worksheets.engine.given import Given
from worksheets.engine.pump_case import FITTINGS, Pipe, curve_of, water_rules
from worksheets.engine.result import Figure, Finding, Hand, Standing, ToCare, ToLine, ToRequest


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """``meets`` is the flow at which the curves cross; none where they do not or no curve is."""

    pipe: Pipe
    wanted: float
    head: float
    curve: pump.Curve
    meets: float | None

    @property
    def meeting(self) -> tuple[float, float] | None:
        return None if self.meets is None else (self.meets, self.pipe.head(self.meets))


def answer(given: Given, pipe: Pipe) -> Answer:
    curve = curve_of(given)
    return Answer(
        pipe=pipe,
        wanted=given["flow"],
        head=pipe.head(given["flow"]),
        curve=curve,
        meets=pump.crossing(curve, pipe.head) if curve else None,
    )


def says(given: Given, found: Answer) -> str:
    asks = (
        f"{given.both(found.wanted, 'flow')} through this pipe ask for "
        f"{given.both(found.head, 'length', toward='up', places=1)} of head"
    )
    if not found.curve:
        return f"{asks}."
    if found.meets is None:
        return f"{asks}; the curves do not meet."
    return f"{asks}; this pump delivers {given.both(found.meets, 'flow', toward='down')}."


def figures(given: Given, found: Answer) -> tuple[Figure, ...]:
    pipe, flow = found.pipe, found.wanted
    straight = pipe.friction(flow) * pipe.length / pipe.reckoned
    shared = pipe.friction(flow) - straight
    density, efficiency = pipe.water.density, given["efficiency"]
    return (
        Figure(key="head", label="Head the pump must make", value=found.head, of="length",
               places=1, toward="up", main=True),
        *crossing_figures(found),
        Figure(key="lift", label="Lift", value=pipe.lift, of="length", places=2),
        Figure(key="pipe", label="Friction of the straight pipe", value=straight, of="length",
               places=2),
        Figure(key="fittings", label="Friction of fittings and allowance", value=shared,
               of="length", places=2),
        Figure(key="outlet", label="Head at the outlet", value=pipe.outlet, of="length", places=2),
        Figure(key="pressure", label="The same head as a pressure",
               value=pump.pressure_of(found.head, density), of="water_pressure", places=1),
        Figure(key="velocity", label="Speed of the water", value=pump.velocity(flow, pipe.bore),
               of="flow_speed",
               places=1),
        Figure(key="reynolds", label="Reynolds number", value=pipe.darcy(flow).reynolds, places=0),
        Figure(key="factor", label="Friction factor (Darcy)", value=pipe.darcy(flow).factor,
               places=4),
        Figure(key="power", label="Power the pump draws, about",
               value=pump.power(flow, max(found.head, 0.0), density, efficiency), of="power",
               toward="up"),
    )  # fmt: skip


def crossing_figures(found: Answer) -> tuple[Figure, ...]:
    if found.meeting is None:
        return ()
    flow, head = found.meeting
    return (
        Figure(key="flow", label="Flow where the curves meet", value=flow, of="flow",
               toward="down", main=True),
        Figure(key="flow_head", label="Head where the curves meet", value=head, of="length",
               places=1),
    )  # fmt: skip


def findings(given: Given, found: Answer) -> tuple[Finding, ...]:
    listed = [*curve_findings(given, found), *running(given, found), *siphon_findings(given)]
    supply = given.choice("supply")
    if supply == "mains":
        listed.append(
            Finding(
                standing=Standing.NEAR,
                says="A pump on the mains near water can kill: a licensed electrician must "
                "connect it, behind a residual current device (ground-fault circuit interrupter).",
                rule="Electrical code of the place",
            )
        )
    return tuple(listed)


def curve_findings(given: Given, found: Answer) -> list[Finding]:
    if not found.curve:
        return []
    named = given.words("pump_name")
    listed = [still_example("The pump’s curve is an example: type yours.")] * is_example(named)
    if found.meets is not None:
        return [*listed, delivered(given, found, found.meets)]
    first = found.curve[0]
    if first[1] < found.pipe.head(first[0]):
        return [*listed, too_weak(given, found)]
    words = "At the last point of its sheet the pump still makes more than the pipe asks for."
    return [*listed, Finding(standing=Standing.NEAR, says=f"{words} Type more points.")]


def delivered(given: Given, found: Answer, flow: float) -> Finding:
    enough = flow >= found.wanted * (1 - 1e-9)
    words = (
        f"The pump delivers {given.both(flow, 'flow', toward='down')}; "
        f"{given.both(found.wanted, 'flow')} are wanted."
    )
    return Finding(
        standing=Standing.WITHIN if enough else Standing.OVER,
        says=words if enough else f"{words} Take a stronger pump, a wider pipe or fewer bends.",
        rule="The flow is where the pump’s curve crosses that of the pipe",
    )


def too_weak(given: Given, found: Answer) -> Finding:
    flow, head = found.curve[0]
    asked = given.both(found.pipe.head(flow), "length", places=1, toward="up")
    made = given.both(head, "length", places=1, toward="down")
    return Finding(
        standing=Standing.OVER,
        says=f"The pump cannot lift the water: it makes {made}, the pipe asks for {asked} "
        "even at its least flow.",
        rule="The first point of the pump’s curve",
    )


def running(given: Given, found: Answer) -> list[Finding]:
    rules, listed = water_rules(), []
    quiet = float(rules.values["quiet"])
    if pump.velocity(found.wanted, found.pipe.bore) > quiet:
        listed.append(
            Finding(
                standing=Standing.NEAR,
                says="The water runs fast for a small pipe: a wider one saves head.",
                rule=rules.clause("quiet"),
            )
        )
    swirl = found.pipe.darcy(found.wanted).reynolds
    if pump.LAMINAR_TO < swirl < pump.TURBULENT_FROM:
        listed.append(
            Finding(
                standing=Standing.NEAR,
                says="Between 2,300 and 4,000 the flow may be smooth or turbulent; the larger "
                "friction was taken.",
                rule=f"Reynolds number {swirl:,.0f}",
            )
        )
    return listed


def siphon_limit(given: Given) -> float:
    """Highest crest in m at the altitude, less what warm water’s vapour takes."""
    temperature = given["temperature"]
    return pump.siphon_crest(
        pump.air_pressure(given["altitude"]),
        saturation_pressure(temperature),
        pump.water_at(temperature).density,
    )


def siphon_figures(given: Given) -> tuple[Figure, ...]:
    if given.maybe("crest") is None:
        return ()
    return (
        Figure(key="siphon", label="Highest crest of a siphon, in theory",
               value=siphon_limit(given), of="length", places=2, toward="down"),
    )  # fmt: skip


def siphon_findings(given: Given) -> list[Finding]:
    crest = given.maybe("crest")
    if crest is None:
        return []
    rules, limit = water_rules(), siphon_limit(given)
    most, practical = (float(rules.values[name]) for name in ("most", "practical"))
    shown = given.both(crest, "length", places=2)
    if crest > min(limit, most):
        says = f"The column breaks, or nearly so: a crest at {shown} is too high for a siphon."
        standing = Standing.OVER
    elif crest > practical:
        says = f"A crest at {shown} works in theory only: air collects there and stops it."
        standing = Standing.NEAR
    else:
        says = f"A crest at {shown} is below what siphons manage in practice."
        standing = Standing.WITHIN
    return [Finding(standing=standing, says=says, rule=rules.clause("practical"))]


def hands(given: Given, found: Answer) -> tuple[Hand, ...]:
    named = dict(FITTINGS)
    duty = (
        f"Pump: {given.both(found.wanted, 'flow')} at "
        f"{given.both(found.head, 'length', places=1, toward='up')} of head, "
        + ("extra-low voltage" if given.choice("supply") == "low" else "for the mains")
    )
    pipe = (
        f"Pipe: {given.both(found.pipe.length, 'length', toward='up')}, bore "
        f"{given.both(found.pipe.bore, 'small_length', places=2)}"
    )
    fitted = [f"{named[row.choice('kind')]}: {row['count']:g}" for row in given.rows("fittings")]
    return (
        ToRequest(key="pump", label="Ask suppliers for pump and pipe", title="Pump and pipe",
                  items=(duty, pipe, *fitted)),
        ToLine(key="pipe", label="Pipe", quantity=found.pipe.length / FOOT, unit="ft"),
        ToCare(key="care", label="Care of the pump",
               text="Rinse the strainer every month; drain pump and pipe before the first frost; "
               "let no water stand for a week in the warm months."),
    )  # fmt: skip
