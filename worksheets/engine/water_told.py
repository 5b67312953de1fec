"""The answer of watering: its words, figures, findings, its year, and the care plan."""

from __future__ import annotations

from collections.abc import Sequence

from worksheets.engine import water
from worksheets.engine.dimensions import System
from worksheets.engine.given import Given
from worksheets.engine.result import Figure, Finding, Grid, Standing
from worksheets.engine.water_asked import LITRE, MM_A_DAY
from worksheets.engine.water_year import (
    LENGTHS,
    MonthNeed,
    Planter,
    peak,
    season_words,
    year_litres,
)

INCH_MM = 25.4


def cans_words(litres: float, size: float) -> str:
    count = water.cans(litres, size)
    return "no can" if count == 0 else f"{count} can{'' if count == 1 else 's'}"


def can_words(given: Given) -> str:
    return given.both(given["can"], "volume", places=1)


def about(evaporation: float) -> str:
    """One decimal and “about”: the method is no better than half a millimetre.

    >>> about(4.96)
    'about 5.0 mm a day'
    """
    return f"about {evaporation:.1f} mm a day"


def depth(given: Given, millimetres: float) -> str:
    if given.system == System.US:
        return f"{millimetres / INCH_MM:.1f} in"
    return f"{millimetres:.0f} mm"


def unit_of(given: Given) -> str:
    return "gallons" if given.system == System.US else "litres"


def figures(
    given: Given, needs: Sequence[MonthNeed], mine: Sequence[Planter]
) -> tuple[Figure, ...]:
    top, size = peak(needs), given["can"] / LITRE
    found = [
        Figure(key="week", label=f"Water a week in {top.name}, usual rain", of="volume",
               value=top.litres * LITRE, toward="up", places=0, main=True, note="about"),
        Figure(key="dry", label=f"Water in a dry week in {top.name}", of="volume",
               value=top.dry * LITRE, toward="up", places=0, main=True, note="about"),
        Figure(key="cans", label="Cans in a dry week", value=water.cans(top.dry, size),
               unit="cans", places=0),
        Figure(key="et0", label=f"Evaporation in {top.name}", of="depth_rate",
               value=top.evaporation * MM_A_DAY, text=about(top.evaporation)),
        Figure(key="year", label="Water in these months together", of="volume",
               value=year_litres(needs) * LITRE, toward="up", places=0, note="about"),
    ]  # fmt: skip
    if top.held is not None:
        found.append(Figure(key="held", label=f"Soaked soil lasts in {top.name}", value=top.held,
                            unit="days", places=1, toward="down", note=top.driest))  # fmt: skip
    allowed = allowance(given, needs, mine)
    if allowed is not None:
        label = "The ordinance allows in these months"
        found.append(Figure(key="allowance", label=label, of="volume", value=allowed * LITRE,
                            toward="down", places=0))  # fmt: skip
    return tuple(found)


def allowance(given: Given, needs: Sequence[MonthNeed], mine: Sequence[Planter]) -> float | None:
    share = given.maybe("allowance")
    if share is None:
        return None
    lost = sum(each.evaporation * LENGTHS[each.month - 1] for each in needs)
    return water.allowance(lost, share, sum(p.count * p.planting.area for p in mine))


def findings(given: Given, needs: Sequence[MonthNeed], mine: Sequence[Planter]) -> list[Finding]:
    top, size = peak(needs), given["can"] / LITRE
    found = [Finding(
        standing=Standing.NEAR,
        says=f"Drought: a week without rain in {top.name} takes {cans_words(top.dry, size)} "
             f"instead of {cans_words(top.litres, size)}. Agree now who brings them.",
    )] if top.dry > top.litres else []  # fmt: skip
    if top.held is not None and top.held < 2:
        often = "twice a day" if top.held < 1 else "every day"
        found.append(Finding(
            standing=Standing.NEAR, part=top.driest,
            says=f"The soil of “{top.driest}” lasts only {int(top.held * 10) / 10} days in "
                 f"{top.name}: water {often}, or choose a larger pot.",
        ))  # fmt: skip
    allowed = allowance(given, needs, mine)
    if allowed is not None:
        over = year_litres(needs) > allowed
        found.append(Finding(
            standing=Standing.OVER if over else Standing.WITHIN,
            says=f"The water of these months is {'over' if over else 'within'} the share of the "
                 "evaporation that was entered.",
        ))  # fmt: skip
    return found


def grid(given: Given, needs: Sequence[MonthNeed]) -> Grid:
    size = given["can"] / LITRE
    rows = tuple(
        (each.name, about(each.evaporation), depth(given, each.rain),
         week_words(given, each),
         str(water.cans(each.litres, size)), str(water.cans(each.dry, size)),
         "–" if each.visits is None or each.rests else str(each.visits))
        for each in needs
    )  # fmt: skip
    return Grid(
        title="A week of each month",
        head=("Month", "Evaporation", "Rain a week", "Water a week", "Cans", "Cans, dry week",
              "Waterings, dry week"),
        rows=rows,
        numeric=(2, 3, 4, 5, 6),
        note=f"Cans of {can_words(given)}, rounded up. All planters together.",
    )  # fmt: skip


def week_words(given: Given, need: MonthNeed) -> str:
    if need.rests:
        return "rests"
    return given.show(need.litres * LITRE, "volume", toward="up", places=0)


def care(given: Given, needs: Sequence[MonthNeed]) -> str:
    size = given["can"] / LITRE
    wanted = [each for each in needs if each.dry > 0]
    if not wanted:
        return "The planters need no watering in the months that were looked at."
    told = "; ".join(
        f"{each.name} {water.cans(each.litres, size)} ({water.cans(each.dry, size)} without rain)"
        for each in wanted
    )
    return (
        f"Water the planters from {season_words(needs)}. Cans of {can_words(given)} a week, about: "
        f"{told}. Feel the soil a finger deep first and leave it when it is damp."
    )
