"""Prompts on wind, dust and heat: what the air does on the day of the work."""

from __future__ import annotations

from collections.abc import Iterator

from worksheets.engine import heat, working
from worksheets.engine.given import Given
from worksheets.engine.result import Impossible, Standing
from worksheets.engine.rules import RuleSet, rule_set
from worksheets.engine.working_prompt import Prompt, no_rule, rules_of, trade

PLATFORMS = ("boom", "scissor", "hoisted")
STANDINGS = {"over": Standing.OVER, "near": Standing.NEAR, "within": Standing.WITHIN}
LACKS = {
    "shroud": "a shroud round the bit with dust collection",
    "vacuum": "a vacuum with a HEPA filter to clean the holes",
}


def platform(given: Given) -> Iterator[Prompt]:
    """The machine’s own plate: no platform without it."""
    if given.choice("place") not in PLATFORMS:
        return
    rules, gust, plate = rules_of(given), aloft(given), given.maybe("plate")
    if given.flag("indoor"):
        yield Prompt(
            about="Wind",
            says="a platform rated for indoors only stands no wind at all: it cannot work outside.",
            do="Hire one whose plate is rated for outdoors.",
            clause=rules.clauses.get("indoor_wind", rules.clause("plate")),
            standing=Standing.OVER,
            stops=True,
        )
        return
    if plate is None:
        raise Impossible(
            "plate",
            "A platform is used: write the wind speed on its own plate. No rule stands in for it.",
        )
    yield against(given, gust, plate, rules.clause("plate"), "the plate of the machine")
    if (outdoor := rules.values.get("outdoor_wind")) and plate > float(outdoor) + 0.1:
        yield Prompt(
            about="Wind",
            says=f"The plate is entered above {given.both(float(outdoor), 'speed')}, "
            "the outdoor rating.",
            do="Read the plate again.",
            clause=rules.clause("outdoor_wind"),
            standing=Standing.NEAR,
        )


def against(given: Given, gust: float, limit: float, clause: str, whose: str) -> Prompt:
    standing = STANDINGS[working.wind_standing(gust, limit, float(trade().values["near"]))]
    words = {
        Standing.OVER: "is above",
        Standing.NEAR: "comes near",
        Standing.WITHIN: "is below",
    }[standing]
    where = "may be" if gust != given["gust"] else "of"
    return Prompt(
        about="Wind",
        says=f"{'a' if standing == Standing.OVER else 'A'} gust {where} "
        f"{given.both(gust, 'speed', places=1)} at the platform "
        f"{words} {given.both(limit, 'speed', places=1)}, {whose}.",
        do="Come down and wait."
        if standing == Standing.OVER
        else "Measure at the platform, again each time the weather turns; sheets catch the wind.",
        clause=clause,
        standing=standing,
        stops=standing == Standing.OVER,
    )


def aloft(given: Given) -> float:
    """The gust at the height of work; one measured lower down is raised."""
    if given.choice("gust_from") == "platform":
        return given["gust"]
    return working.wind_aloft(given["gust"], given["height"], trade())


def wind(given: Given) -> Iterator[Prompt]:
    rules, place = rules_of(given), given.choice("place")
    if given.choice("gust_from") != "platform" and place != "ground":
        yield Prompt(
            about="Wind",
            says="The gust was not measured where the work is; at 20 m it may be half as strong "
            "again as at the ground.",
            do="Take a wind meter up. A phone forecast is not wind at the platform.",
            clause=trade().clause("aloft_factor"),
            standing=Standing.NEAR,
        )
    if place == "hoisted" and "hoisted_wind" in rules.values:
        limit = float(rules.values["hoisted_wind"])
        yield against(given, aloft(given), limit, rules.clause("hoisted_wind"), "the limit there")
    key = "high_wind_materials" if given.flag("sheets") else "high_wind"
    if key in rules.values and aloft(given) > float(rules.values[key]):
        yield Prompt(
            about="Wind",
            says=f"this is a high wind ({given.both(float(rules.values[key]), 'speed')}).",
            do="No work at height, no carrying of panels.",
            clause=rules.clause("high_wind"),
            standing=Standing.OVER,
            stops=True,
        )


def paint_wind(given: Given) -> Iterator[Prompt]:
    limit = float(trade().values["painting_wind"])
    if given.flag("painting") and given["gust"] > limit:
        yield Prompt(
            about="Wind",
            says=f"Painting specifications often stop at {given.both(limit, 'speed')}.",
            do="No spraying; brush and roller only where drift harms nobody.",
            clause=trade().clause("painting_wind"),
            standing=Standing.NEAR,
        )


def dust(given: Given) -> Iterator[Prompt]:
    rules, tool = rules_of(given), given.choice("tool")
    controls = {name: given.flag(name) for name in LACKS}
    found = working.dust(tool, given.choice("material"), controls, rules)
    if not found.silica:
        return
    if "drills" not in rules.values:
        yield no_rule("Dust", rules)
    elif not found.known:
        yield Prompt(
            about="Dust",
            says="Cutting and grinding have rows of their own, which are not given here.",
            do="Read the row of your tool at osha.gov, Table 1 of 1926.1153, before you start.",
            clause=rules.clause("other_dust"),
            standing=Standing.NEAR,
        )
    else:
        yield drilled(found, rules)


def drilled(found: working.Dust, rules: RuleSet) -> Prompt:
    if found.missing:
        lacking = " and ".join(LACKS[name] for name in found.missing)
        return Prompt(
            about="Dust",
            says=f"this material holds silica, and the drill lacks {lacking}.",
            do="Do not drill without it; never sweep or blow the dust.",
            clause=rules.clause("drills"),
            standing=Standing.OVER,
            stops=True,
        )
    return Prompt(
        about="Dust",
        says="This material holds silica; with shroud and vacuum the table asks for no respirator.",
        do="Keep the shroud on the wall, empty the vacuum as its maker says, keep others away.",
        clause=rules.clause("drills"),
    )


def hot(given: Given) -> Iterator[Prompt]:
    air, damp = given.maybe("air"), given.maybe("humidity")
    if air is None:
        return
    if damp is None:
        raise Impossible("humidity", "The heat index needs the humidity too. Write both, or none.")
    rules = rule_set("heat", "us-nws")
    index = heat.heat_index(air, damp)
    band = heat.band(index, rules)
    if band is None:
        return
    over = heat.fahrenheit(index) >= float(rules.values["stop_from"])
    yield Prompt(
        about="Heat",
        says=f"{'heat' if over else 'Heat'} index {given.both(index, 'temperature')} in the shade, "
        f"{band[0].lower()}; full sun can add 15 °F (8 °C).",
        do=band[1],
        clause=rules.clause("bands"),
        standing=Standing.OVER if over else Standing.NEAR,
        stops=over,
    )
