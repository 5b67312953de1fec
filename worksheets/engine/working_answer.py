"""What the worksheet on working on site answers: ladder, falls, and all prompts in order."""

from __future__ import annotations

from collections.abc import Iterator

from worksheets.engine import working
from worksheets.engine.given import Given
from worksheets.engine.result import Grid, Standing
from worksheets.engine.working_air import dust, hot, paint_wind, platform, wind
from worksheets.engine.working_prompt import Prompt, no_rule, rules_of

HELD = {
    "none": "Nothing",
    "rails": "Guard rails on every open side",
    "tied": "Harness, tied off",
    "net": "Net",
}


def prompts(given: Given) -> tuple[Prompt, ...]:
    """Everything to settle before work starts, in the order in which a day begins."""
    found = (ladder, falls, tipping, platform, wind, paint_wind, dust, hot)
    return tuple(prompt for each in found for prompt in each(given))


def asked_ladder(given: Given) -> working.Ladder | None:
    """The ladder of the inputs; none where none is used or the set has no rule on it."""
    share = rules_of(given).values.get("base_share")
    if share is None or not given.flag("ladder"):
        return None
    known = given.maybe("working")
    support = given["landing"] if known is None else working.support_of(known, share)
    return working.ladder_to(support, given["extension"], share)


def ladder(given: Given) -> Iterator[Prompt]:
    rules, found = rules_of(given), asked_ladder(given)
    if not given.flag("ladder"):
        return
    if found is None:
        yield no_rule("Ladder", rules)
        return
    yield Prompt(
        about="Ladder",
        says=f"The foot stands {given.both(found.base, 'length')} out from the wall; "
        f"the ladder is at least {given.both(found.length, 'length', toward='up')} long.",
        do="Firm and level ground, both rails at rest, tied at the top, nobody on it before it is.",
        clause=rules.clause("base_share"),
    )
    least = float(rules.values["extension"])
    if given["extension"] < least - working.SLACK:
        yield Prompt(
            about="Ladder",
            says=f"the rails end less than {given.both(least, 'length')} above the landing.",
            do="Take a longer ladder, or tie it off and fit a handhold.",
            clause=rules.clause("extension"),
            standing=Standing.NEAR,
            stops=True,
        )
    yield from too_short(given, found)


def too_short(given: Given, found: working.Ladder) -> Iterator[Prompt]:
    owned = given.maybe("owned")
    if owned is not None and owned < found.length - working.SLACK:
        yield Prompt(
            about="Ladder",
            says=f"your ladder is {given.both(found.length - owned, 'length', toward='up')} "
            "too short.",
            do="Do not set it steeper to reach: take a longer one.",
            clause=rules_of(given).clause("extension"),
            standing=Standing.OVER,
            stops=True,
        )


def falls(given: Given) -> Iterator[Prompt]:
    rules, place, height = rules_of(given), given.choice("place"), given["height"]
    asked = working.fall_protection(place, height, rules)
    if asked is None:
        if place not in rules.clauses:
            yield no_rule("Fall", rules)
        elif place != "ground":
            yield Prompt(
                about="Fall",
                says="No height is set for work from a ladder; a fall from it can still kill.",
                do="Short work only, three points of contact, belt buckle between the rails.",
                clause=rules.clause(place),
            )
        return
    held = given.choice("held")
    enough = held == "tied" if place in ("boom", "hoisted") else held != "none"
    yield fall(given, asked, enough)


def fall(given: Given, asked: bool, enough: bool) -> Prompt:
    place, height = given.choice("place"), given.both(given["height"], "length")
    clause = rules_of(given).clause(place)
    tied = place in ("boom", "hoisted")
    if asked and not enough:
        return Prompt(
            about="Fall",
            says="nobody works in this platform without a harness tied off in it, at any height."
            if tied
            else f"feet {height} above the lower level ask for fall protection, and none is "
            "entered.",
            do="Harness and lanyard to the point marked on the machine."
            if tied
            else "Guard rails, a net, or a harness on an anchor a competent person chose.",
            clause=clause,
            standing=Standing.OVER,
            stops=True,
        )
    if asked:
        return Prompt(
            about="Fall",
            says=f"Fall protection is asked for at {height}: {HELD[given.choice('held')].lower()}.",
            do="Look it over before each use; know how to bring down somebody who hangs in it.",
            clause=clause,
        )
    return Prompt(
        about="Fall",
        says=f"The duty does not begin at {height}. Below the threshold falls still kill.",
        do="Take away what can be fallen on; rails where they can be had.",
        clause=clause,
    )


def tipping(given: Given) -> Iterator[Prompt]:
    base, rules = given.maybe("scaffold_base"), rules_of(given)
    if given.choice("place") != "scaffold" or base is None:
        return
    must = working.tips(given["height"], base, rules)
    if must:
        yield Prompt(
            about="Scaffold",
            says="it is taller than four times its least base and can tip.",
            do="Tie it to the wall, or widen its base with outriggers, before anybody climbs.",
            clause=rules.clause("scaffold_ratio"),
            standing=Standing.OVER,
            stops=True,
        )


def method(found: tuple[Prompt, ...]) -> Grid:
    """The method statement: by which clause, what was found, what is done."""
    return Grid(
        title="Method statement",
        head=("About", "Found", "What we do"),
        rows=tuple(
            (f"{p.about}, {p.clause}", f"{'Stop: ' if p.stops else ''}{p.says}", p.do)
            for p in found
        ),
    )


def to_sign() -> Grid:
    """Left empty, for the pen."""
    lines = ("Competent person on site", "Day and hour", "Wind measured at the work", "Work begins")
    return Grid(
        title="To fill in on site, each morning",
        head=("", "Written by hand"),
        rows=tuple((line, "") for line in lines),
        note="A competent person on site decides, not this page. Say before the first climb where "
        "the nearest telephone and the first-aid kit are, and which way an ambulance comes.",
    )
