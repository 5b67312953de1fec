"""From what was typed on paint hours to hours that are judged."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from worksheets.engine.clock_words import NotATime, read_moment
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.paintable import Hour, Limits, Offered, by_hour, judge, with_surface
from worksheets.engine.painting_days import Coat, lay_coats
from worksheets.engine.readings import LineWrong, Manner, Reading, read_block
from worksheets.engine.result import Finding, Impossible, Standing
from worksheets.engine.rules import RuleSet

HOUR = 3600.0
WEEKDAYS = {
    "every": frozenset(range(7)),
    "week": frozenset(range(5)),
    "six": frozenset(range(6)),
    "end": frozenset((5, 6)),
}


def zone_of(given: Given) -> ZoneInfo | None:
    name = given.words("zone")
    try:
        return ZoneInfo(name) if name else None
    except (ZoneInfoNotFoundError, ValueError):
        raise Impossible(
            "zone", "This is no time zone. Write one such as America/New_York."
        ) from None


def read_all(given: Given) -> tuple[Reading, ...]:
    """Pasted lines and rows of the table; a row stands in for a line of the same hour."""
    manner = Manner(system=given.system, zone=zone_of(given), chance=given["chance"])
    try:
        pasted = read_block(given.words("readings"), manner)
    except LineWrong as wrong:
        raise Impossible("readings", str(wrong)) from None
    measured = dict(measured_row(n, row, manner) for n, row in typed_rows(given.rows("measured")))
    found = {each.at: each for each in pasted} | measured
    if not found:
        raise Impossible("readings", "Paste at least one line, or write a row below.")
    told = tuple(found[at] for at in sorted(found))
    if told[-1].at - told[0].at > timedelta(days=40):
        raise Impossible("readings", "The lines span more than 40 days. Keep to the next weeks.")
    return told


def measured_row(number: int, row: Given, manner: Manner) -> tuple[datetime, Reading]:
    try:
        at = read_moment(row.words("time"), manner.system, manner.zone)
    except NotATime as wrong:
        raise Impossible("measured", str(wrong), row=number, column="time") from None
    reading = Reading(
        at=at,
        air=row["air"],
        humidity=row["humidity"],
        surface=row.maybe("surface"),
        wind=row.maybe("wind"),
        wet=row.choice("rain") == "yes",
        measured=True,
    )
    return at, reading


def limits_of(given: Given, rules: RuleSet) -> Limits:
    """The chosen limits, where nothing else was typed."""
    told = rules.values

    def limit(name: str, stands: float) -> float:
        typed = given.maybe(name)
        return stands if typed is None else typed

    def hours(name: str) -> float:
        return limit(name, told[name] * HOUR) / HOUR

    wind = given.maybe("wind")
    sprayed = told["wind"] if given.choice("tool") == "spray" else None
    found = Limits(
        spread=limit("spread", told["spread"]),
        humidity=limit("humidity", told["humidity"]),
        surface=(limit("surface_least", told["surface"][0]),
                 limit("surface_most", told["surface"][1])),
        air=(limit("air_least", told["air"][0]), limit("air_most", told["air"][1])),
        wind=sprayed if wind is None else wind,
        rain_free=hours("rain_free"),
        drying=hours("drying"),
        dry_least=given.maybe("dry_least"),
        rising=given.flag("rising"),
    )  # fmt: skip
    for name, (least, most) in (("surface", found.surface), ("air", found.air)):
        if least >= most:
            raise Impossible(f"{name}_least", f"The least {name} temperature must be below the "
                             f"most, which is {given.both(most, 'temperature')}.")  # fmt: skip
    return found


@dataclass(frozen=True, slots=True)
class Planned:
    """An outdoor task, with its first and its last day."""

    name: str
    first: date
    last: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """Everything that is told of."""

    hours: Sequence[Hour]
    limits: Limits
    coats: Sequence[Coat]
    wanted: int
    need: float  # hours of work
    planned: tuple[Planned, ...]
    gaps: tuple[Finding, ...]

    @property
    def worked(self) -> list[Hour]:
        return [each for each in self.hours if each.worked]

    @property
    def planned_days(self) -> frozenset[date]:
        """Those of the days that were read on which a task is planned."""
        days = {each.at.date() for each in self.hours}
        return frozenset(d for d in days if any(p.first <= d <= p.last for p in self.planned))

    @property
    def total(self) -> int:
        return sum(each.counts for each in self.hours)

    @property
    def fits(self) -> bool:
        return len(self.coats) == self.wanted


def gap(says: str) -> Finding:
    return Finding(standing=Standing.NEAR, says=says)


def completed(
    readings: tuple[Reading, ...], limits: Limits, given: Given
) -> tuple[tuple[Reading, ...], Limits, tuple[Finding, ...]]:
    """What nobody told is said, and left out of the judgement where it is missing throughout."""
    found = []
    if given.choice("unmeasured") == "air" and any(each.surface is None for each in readings):
        readings = with_surface(readings, given["offset"])
        off = given.show(given["offset"], "warmth")
        found.append(gap(f"Where the wall was not measured it is taken as the air {plus(off)}. "
                         "Measure it before a tin is opened."))  # fmt: skip
    if all(each.wet is None for each in readings):
        readings = tuple(replace(each, wet=False) for each in readings)
        found.append(gap("Nothing was told of rain, so rain was not looked at."))
    if limits.wind is not None and all(each.wind is None for each in readings):
        limits = replace(limits, wind=None)
        found.append(gap("Nothing was told of wind, so wind was not looked at."))
    return readings, limits, tuple(found)


def plus(shown: str) -> str:
    return f"minus {shown.lstrip('-')}" if shown.startswith("-") else f"plus {shown}"


def judged(given: Given, rules: RuleSet) -> Judged:
    opens, closes = given.count("opens"), given.count("closes")
    if opens >= closes:
        raise Impossible("closes", f"Work ends after it begins: write an hour after {opens}.")
    readings, limits, gaps = completed(read_all(given), limits_of(given, rules), given)
    offered = Offered(opens=opens, closes=closes, weekdays=WEEKDAYS[given.choice("weekdays")])
    hours = judge(by_hour(readings, given["holds"] / HOUR), limits, offered)
    recoat = given.maybe("recoat")
    coats, each = given.count("coats"), given["work"] / HOUR
    wait = rules.values["recoat"] if recoat is None else recoat / HOUR
    return Judged(
        hours=hours,
        limits=limits,
        coats=lay_coats(hours, coats, each, wait),
        wanted=coats,
        need=coats * each,
        planned=planned_tasks(given),
        gaps=gaps,
    )


def planned_tasks(given: Given) -> tuple[Planned, ...]:
    found = []
    for number, row in typed_rows(given.rows("planned")):
        first, last = row.day("first"), row.day("last")
        if last < first:
            raise Impossible(
                "planned", "The last day is before the first.", row=number, column="last"
            )
        found.append(Planned(row.words("name"), first, last))
    return tuple(found)
