"""What is said of paint hours: reasons in words, the days, and the log that proves conditions."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date, datetime

from worksheets.engine import air
from worksheets.engine.amounts import show
from worksheets.engine.clock_words import clock_words, day_words
from worksheets.engine.dimensions import System
from worksheets.engine.paintable import Against, Hour, Mark, Why
from worksheets.engine.painting_days import Coat, Stretch, by_day, stretches
from worksheets.engine.readings import Reading
from worksheets.engine.result import Grid

OF = {
    Why.WET_SURFACE: "warmth",
    Why.DEW_AFTER: "warmth",
    Why.HUMID: "fraction",
    Why.WIND: "speed",
}


def reason(each: Against, system: System) -> str:
    """“surface too near the dew point: 1.4 °C above, 3 °C asked”."""
    when = f" (at {clock_words(each.at)})" if each.at else ""
    if each.found is None or each.limit is None:
        return f"{each.why}{when}"
    of = OF.get(each.why, "temperature")
    places = 0 if of == "fraction" else 1
    found, limit = (show(v, of, system, places=places) for v in (each.found, each.limit))
    if of == "warmth":
        side = over_or_under(each.found)
        return f"{each.why}{when}: {found.lstrip('-')} {side} it, {limit} asked"
    return f"{each.why}{when}: {found}, limit {limit}"


def reasons(hour: Hour, system: System) -> str:
    """The gravest in full, the others by name: “too humid: 92 %, limit 85 %; rain”."""
    if not hour.against:
        return str(Mark.PAINT)
    first, *others = hour.against
    return "; ".join([reason(first, system), *(str(each.why) for each in others)])


def commonest(hours: Sequence[Hour]) -> str:
    """What speaks against most of the hours: “dew before it is dry (6 h)”."""
    counted = Counter(each.why for hour in hours for each in hour.against[:1])
    return "; ".join(f"{why} ({count} h)" for why, count in counted.most_common(3))


def stretch_words(each: Stretch) -> str:
    """“10:00–15:00”; the end of a day is 24:00."""
    until = clock_words(each.until)
    return f"{clock_words(each.start)}–{'24:00' if until == '00:00' else until}"


def days_grid(hours: Sequence[Hour], planned: frozenset[date]) -> Grid:
    rows = []
    for day, found in by_day(hours).items():
        worked = [each for each in found if each.worked]
        if not worked:
            continue
        when = ", ".join(stretch_words(each) for each in stretches(found))
        against = [each for each in worked if not each.counts]
        rows.append((
            day_words(day) + (" (planned)" if day in planned else ""),
            f"{sum(each.counts for each in worked)} of {len(worked)}",
            when or "none",
            commonest(against) or "nothing",
        ))  # fmt: skip
    return Grid(
        title="Day by day",
        head=("Day", "Hours", "When", "What stops the others"),
        rows=tuple(rows),
        numeric=(1,),
    )


def coats_grid(coats: Sequence[Coat]) -> Grid:
    rows = tuple(
        (f"Coat {each.number}", moment_words(each.start), moment_words(each.until))
        for each in coats
    )  # fmt: skip
    return Grid(
        title="The coats, as early as they can be",
        head=("Coat", "Starts", "Finished"),
        rows=rows,
    )


def moment_words(moment: datetime) -> str:
    return f"{day_words(moment.date())}, {clock_words(moment)}"


def log_grid(hours: Sequence[Hour], system: System, note: str) -> Grid:
    """Every reading, with its conditions: what a client or an insurer asks for."""
    told = [
        each
        for each in hours
        if each.reading and each.reading.at.replace(minute=0, second=0) == each.at
    ]
    years = sorted({str(each.at.year) for each in told})
    return Grid(
        title=f"Log of conditions, {' and '.join(years)}",
        head=("Time", "Air", "Dew point", "Surface", "Wind and rain", "Finding"),
        rows=tuple(log_row(each, each.reading, system) for each in told if each.reading),
        note=note,
    )


def log_row(hour: Hour, reading: Reading, system: System) -> tuple[str, ...]:
    def degrees(value: float, of: str = "temperature") -> str:
        return tied(show(value, of, system, places=1))

    surface, wind = reading.surface, reading.wind
    humidity = tied(show(reading.humidity, "fraction", system, places=0))
    above = None if surface is None else surface - reading.dew
    side = "" if above is None else f" ({degrees(abs(above), 'warmth')} {over_or_under(above)})"
    blows = "wind not told" if wind is None else tied(show(wind, "speed", system, places=0))
    rains = {True: "rain", False: "dry", None: "rain not told"}[reading.wet]
    return (
        moment_words(reading.at),
        f"{degrees(reading.air)}, {humidity}",
        degrees(reading.dew),
        "not measured" if surface is None else f"{degrees(surface)}{side}",
        f"{blows}, {rains}",
        reasons(hour, system) + ("" if hour.worked else " (nobody paints)"),
    )


def tied(text: str) -> str:
    """Kept on one line."""
    return text.replace(" ", "\u00a0")


def over_or_under(above: float) -> str:
    return "above" if above >= 0 else "below"


def warmest_dew(hours: Sequence[Hour]) -> Reading | None:
    """The dampest reading in the hours of work, else of all."""
    told = [each for each in hours if each.reading]
    worked = [each for each in told if each.worked] or told
    found = [each.reading for each in worked if each.reading]
    return max(found, key=lambda each: each.dew, default=None)


def least_surface(reading: Reading, spread: float) -> float:
    return air.least_surface(reading.air, reading.humidity, spread)
