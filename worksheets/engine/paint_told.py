"""The answer of paint hours: its sentence, figures, findings, and what it hands on."""

from __future__ import annotations

from worksheets.engine.amounts import counted
from worksheets.engine.clock_words import day_words
from worksheets.engine.given import Given
from worksheets.engine.paint_asked import Judged
from worksheets.engine.paint_words import (
    commonest,
    least_surface,
    moment_words,
    stretch_words,
    warmest_dew,
)
from worksheets.engine.painting_days import stretches
from worksheets.engine.result import Figure, Finding, Standing, ToTask
from worksheets.engine.rules import RuleSet

WORDS = {
    "spread": "Surface",
    "humidity": "Humidity",
    "surface": "Temperature of the surface",
    "air": "Temperature of the air",
    "rain_free": "No rain after",
    "drying": "Above the dew point after",
    "recoat": "Next coat after",
}


def says(found: Judged) -> str:
    first = next(iter(stretches(found.hours)), None)
    if first is None:
        why = commonest([each for each in found.worked if not each.counts])
        return f"No hour of work can be painted{f': {why}' if why else ''}."
    window = f"{day_words(first.start.date())}, {stretch_words(first)}"
    fits = "enough for" if found.fits else "not enough for"
    coats = f"{found.wanted} coat{'s' if found.wanted > 1 else ''}"
    return (f"{counted(found.total, 'hour')} can be painted, {fits} {coats} "
            f"of {found.need:g} h in all; "
            f"the next window is {window}.")  # fmt: skip


def figures(found: Judged) -> tuple[Figure, ...]:
    first = next(iter(stretches(found.hours)), None)
    damp = warmest_dew(found.hours)
    window = (
        f"{day_words(first.start.date())}, {stretch_words(first)} ({first.hours} h)"
        if first else "none in these readings"
    )  # fmt: skip
    done = moment_words(found.coats[-1].until) if found.fits else "not in these readings"
    fine = Standing.NOTE if found.fits else Standing.NEAR
    told = [
        Figure(key="hours", label="Hours that can be painted", value=found.total, unit="h",
               places=0, main=True, standing=fine),
        Figure(key="window", label="Next window", text=window, main=True),
        Figure(key="need", label="Hours the coats need", value=found.need, unit="h"),
        Figure(key="done", label="Last coat finished", text=done),
    ]  # fmt: skip
    if damp:
        told += [
            Figure(key="dew", label="Dew point, highest in the hours of work", value=damp.dew,
                   of="temperature", places=1),
            Figure(key="least_surface", label="The surface must then have at least",
                   value=least_surface(damp, found.limits.spread), of="temperature", places=1,
                   toward="up"),
        ]  # fmt: skip
    return tuple(told)


def enough(found: Judged) -> Finding:
    if found.fits:
        done = moment_words(found.coats[-1].until)
        return Finding(standing=Standing.NOTE, says=f"The coats can be finished on {done}.")
    laid = f"only {len(found.coats)} of {found.wanted} coats fit" if found.coats else "no coat fits"
    return Finding(
        standing=Standing.NEAR,
        says=f"In these readings {laid}: paste a longer forecast, or look for another week.",
    )


def plan_findings(found: Judged) -> list[Finding]:
    """What the weather leaves of each outdoor task that these readings reach."""
    days = {each.at.date() for each in found.hours}
    told = []
    for task in found.planned:
        if not any(task.first <= day <= task.last for day in days):
            continue
        inside = sum(each.counts and task.first <= each.at.date() <= task.last
                     for each in found.hours)  # fmt: skip
        span = day_words(task.first)
        span += f" to {day_words(task.last)}" if task.last > task.first else ""
        told.append(Finding(
            standing=Standing.NOTE if inside else Standing.NEAR, part=task.name,
            says=f"“{task.name}” is planned {span}: {counted(inside, 'hour')} of these days "
            "can be painted.",
        ))  # fmt: skip
    if found.planned and not told:
        unseen = "The outdoor tasks are planned for days that are not in these readings."
        told.append(Finding(standing=Standing.NOTE, says=unseen))
    return told


def hands(found: Judged) -> tuple[ToTask, ...]:
    first = next(iter(stretches(found.hours)), None)
    if first is None:
        return ()
    days = {day for coat in found.coats for day in coat.days}
    return (ToTask(
        key="window", label="First day that can be painted",
        not_before=first.start.date(), days=float(len(days)) if found.fits else None,
        reason=f"Weather window {day_words(first.start.date())}, {stretch_words(first)}",
    ),)  # fmt: skip


def log_note(given: Given, rules: RuleSet) -> str:
    by, tool = given.words("who"), given.words("instrument")
    told = [f"Measured by {by}." if by else "", f"Instrument: {tool}." if tool else ""]
    return " ".join([*filter(None, told), f"Limits: {rules.title}."])


def assumptions(given: Given, rules: RuleSet) -> tuple[str, ...]:
    """The limits that were not typed, each with where it stands."""
    typed = {"surface": "surface_least", "air": "air_least"}
    names = ("spread", "humidity", "surface", "air", "rain_free", "drying", "recoat")
    kept = [name for name in names if given.maybe(typed.get(name, name)) is None]
    return (
        "A reading stands until the next one; an hour without a reading is not known.",
        "Below freezing the dew point is taken over water, not over ice.",
        *(f"{WORDS[name]}: {rules.clause(name)}." for name in kept),
    )
