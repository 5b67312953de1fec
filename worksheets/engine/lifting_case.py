"""From the inputs of the worksheet on lifting to pieces, a limit and what it says of the lift."""

from __future__ import annotations

import math

from worksheets.engine import lifting
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.lifting import Limit, Piece, Place
from worksheets.engine.result import Finding, Impossible, Standing
from worksheets.engine.rules import rule_set

RULES = rule_set("lifting", "niosh-1994")
NOTHING = {
    "reach": "reach of over 25 in (63.5 cm)",
    "height": "height of over 70 in (178 cm)",
    "travel": "travel of over 70 in (178 cm)",
    "turn": "turn of over 135°",
    "frequency": "number of lifts a minute",
}


def pieces_of(given: Given) -> tuple[list[Piece], list[str]]:
    """Those with a mass, and the names of those without."""
    found, unknown = [], []
    for number, row in typed_rows(given.rows("pieces")):
        name = row.words("name") or f"Row {number + 1}"
        mass = row.maybe("mass")
        if mass is None:
            unknown.append(name)
        else:
            count = round(row.maybe("count") or 1)
            found.append(Piece(name=name, count=count, each=mass, at=place_of(row)))
    if not lifting.total_mass(found) > 0:
        raise Impossible("pieces", "No piece has a mass yet. Write at least one.")
    return found, unknown


def place_of(row: Given) -> Place | None:
    """Its centre as typed; of a part of the project, the middle of its sizes."""
    typed = [row.maybe(axis) for axis in "xyz"]
    if any(value is not None for value in typed):
        x, y, z = (value or 0.0 for value in typed)
        return x, y, z
    left, low = row.maybe("left"), row.maybe("bottom")
    if left is None or low is None:
        return None
    width, depth, height = (row.maybe(name) or 0.0 for name in ("width", "depth", "height"))
    return left + width / 2, depth / 2, low + height / 2


def load_of(given: Given, pieces: list[Piece]) -> float:
    typed = given.maybe("load")
    return max(piece.each for piece in pieces) if typed is None else typed


def limit_of(given: Given) -> tuple[Limit, float]:
    """The recommended limit, and the row of the table of frequencies that was taken."""
    row, share = lifting.frequency_share(
        given["rate"], given.choice("hours"), given["height"], RULES.values
    )
    limit = lifting.limit(
        reach=given["reach"],
        height=given["height"],
        travel=given["travel"],
        turn=given["turn"],
        frequency=share,
        grip=given.choice("grip"),
        rules=RULES.values,
    )
    return limit, row


def lift_words(given: Given, load: float, limit: Limit) -> tuple[str, Finding]:
    index = lifting.index(load, limit.mass)
    mass = given.both(load, "mass", toward="up")
    if index is None:
        why = " and ".join(f"the {NOTHING[name]}" for name in limit.nothing)
        says = f"do not lift {mass} this way: {why} lies outside the equation"
        return says, Finding(standing=Standing.OVER, says=f"{says[0].upper()}{says[1:]}.",
                             rule=RULES.clause("equation"))  # fmt: skip
    most = given.both(limit.mass, "mass", toward="down")
    side = "within" if index <= RULES.values["index_goal"] else "over"
    says = f"one person lifts {mass}, {side} the recommended limit of {most}"
    return says, Finding(standing=Standing.WITHIN if side == "within" else Standing.OVER,
                         says=risk_words(index), rule=RULES.clause("index"))  # fmt: skip


def risk_words(index: float) -> str:
    shown = math.ceil(index * 100 - 1e-9) / 100
    if index > RULES.values["index_most"]:
        return f"The lifting index is {shown:g}. Above 3 the risk is raised for nearly everybody."
    if index > RULES.values["index_goal"]:
        return f"The lifting index is {shown:g}. Above 1 the risk is raised for some."
    return f"The lifting index is {shown:g}. Up to 1 is what a lift is designed for."


def team_words(given: Given) -> tuple[str, Finding]:
    people, hoist = given.count("people"), given.both(given["hoist"], "mass")
    says = (
        f"Team lift by {people}: the equation does not apply, and limits of two people are not "
        f"added. Plan a hoist above {hoist}."
    )
    finding = Finding(standing=Standing.NEAR, says=says, rule=RULES.clause("scope"))
    return f"lifted by {people} together, for which there is no equation", finding


def hoists(given: Given, total: float, load: float) -> tuple[Finding, ...]:
    threshold = given["hoist"]
    over = [(what, mass) for what, mass in (("One lift", load), ("The whole", total))
            if mass > threshold]  # fmt: skip
    return tuple(
        Finding(
            standing=Standing.OVER,
            says=f"{what} is {given.both(mass, 'mass', toward='up')}, over the "
            f"{given.both(threshold, 'mass')} that you set: plan a hoist, with a qualified "
            "rigger.",
        )
        for what, mass in over
    )


def left_out(pieces: list[Piece], unknown: list[str]) -> tuple[Finding, ...]:
    found = []
    if unknown:
        says = f"Without a mass, and so left out: {', '.join(unknown)}."
        found.append(Finding(standing=Standing.NEAR, says=says))
    nowhere = [piece.name for piece in pieces if piece.at is None]
    if nowhere:
        says = f"Without a place, and so not in the centre of mass: {', '.join(nowhere)}."
        found.append(Finding(standing=Standing.NOTE, says=says))
    return tuple(found)
