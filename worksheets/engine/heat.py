"""Heat: the index of the US National Weather Service, and the wet bulb globe temperature.

Temperatures in °C, humidity as a share of 1; the index is reckoned in °F as it is published.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from worksheets.engine.rules import RuleSet

COLDEST, HOTTEST = 50.0, 125.0  # °F, between which the index is reckoned
DRY_BELOW, DRY_FROM, DRY_TO = 13.0, 80.0, 112.0
DAMP_ABOVE, DAMP_FROM, DAMP_TO = 85.0, 80.0, 87.0


class HeatError(ValueError):
    """An input outside its range; the message says the range."""


def fahrenheit(celsius: float) -> float:
    return celsius * 9 / 5 + 32


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


def heat_index(air: float, humidity: float) -> float:
    """What air in °C with a humidity from 0 to 1 feels like in the shade, in °C.

    NWS: half of a simple value and the air; from 80 °F on the regression of Rothfusz with its
    two adjustments, which old printed charts lack. Raises HeatError outside 50 to 125 °F.
    Source: https://www.wpc.ncep.noaa.gov/html/heatindex_equation.shtml

    >>> round(fahrenheit(heat_index(celsius(84.0), 0.95)), 1)
    100.9
    """
    warm, damp = fahrenheit(air), humidity * 100
    if not COLDEST - 1e-9 <= warm <= HOTTEST + 1e-9:
        raise HeatError("The heat index is for air from 50 to 125 °F (10 to 51.7 °C).")
    if not 0 <= humidity <= 1:
        raise HeatError("Humidity is from 0 to 100 %.")
    simple = simple_index(warm, damp)
    if simple < 80:
        return celsius(simple)
    return celsius(regression(warm, damp) + adjustment(warm, damp))


def simple_index(warm: float, damp: float) -> float:
    """The value below 80 °F, already averaged with the air; °F and per cent.

    >>> round(simple_index(70.0, 50.0), 1)
    69.5
    """
    simple = 0.5 * (warm + 61 + (warm - 68) * 1.2 + damp * 0.094)
    return (simple + warm) / 2


def regression(warm: float, damp: float) -> float:
    """Rothfusz (1990), NWS technical attachment SR 90-23; °F and per cent."""
    return (
        -42.379
        + 2.04901523 * warm
        + 10.14333127 * damp
        - 0.22475541 * warm * damp
        - 6.83783e-3 * warm**2
        - 5.481717e-2 * damp**2
        + 1.22874e-3 * warm**2 * damp
        + 8.5282e-4 * warm * damp**2
        - 1.99e-6 * warm**2 * damp**2
    )


def adjustment(warm: float, damp: float) -> float:
    """What NWS adds to the regression in °F: less in dry air, more in damp air.

    >>> round(adjustment(100.0, 10.0), 2), round(adjustment(84.0, 95.0), 2), adjustment(95.0, 50.0)
    (-0.63, 0.6, 0.0)
    """
    if damp < DRY_BELOW and DRY_FROM <= warm <= DRY_TO:
        return -((DRY_BELOW - damp) / 4) * math.sqrt((17 - abs(warm - 95)) / 17)
    if damp > DAMP_ABOVE and DAMP_FROM <= warm <= DAMP_TO:
        return (damp - DAMP_ABOVE) / 10 * (DAMP_TO - warm) / 5
    return 0.0


def band(index: float, rules: RuleSet) -> tuple[str, str] | None:
    """Name of the band in which an index in °C lies, and what it asks; none below the first.

    >>> from worksheets.engine.rules import rule_set
    >>> band(celsius(95.0), rule_set("heat", "us-nws"))[0]
    'Extreme caution'
    """
    reached = [row for row in rules.values["bands"] if fahrenheit(index) >= row[0] - 1e-9]
    return (str(reached[-1][1]), str(reached[-1][2])) if reached else None


def wbgt_outdoor(wet_bulb: float, globe: float, dry_bulb: float, weights: Sequence[float]) -> float:
    """Wet bulb globe temperature outdoors, all in °C, from three thermometers.

    The natural wet bulb stands in the sun and wind, it is not the wet bulb of a weather report.
    Raises HeatError where the wet bulb is warmer than the air or the globe.

    >>> round(wbgt_outdoor(22.0, 35.0, 28.0, (0.7, 0.2, 0.1)), 3)
    25.2
    """
    if wet_bulb > max(dry_bulb, globe):
        raise HeatError("A wet bulb cannot be warmer than both the globe and the air.")
    return wet_bulb * weights[0] + globe * weights[1] + dry_bulb * weights[2]


def work_allowed(
    wbgt: float, work: str, table: Sequence[Sequence[float | None]], names: Sequence[str]
) -> int | None:
    """Row of the first, largest share of work in an hour whose limit is not passed.

    None where even the least share is over. Limits in °C.

    >>> table = [[31.0, 28.0], [31.0, 29.0], [32.0, 30.0]]
    >>> work_allowed(28.5, "moderate", table, ("light", "moderate"))
    1
    """
    column = names.index(work)
    limits = [row[column] for row in table]
    return next(
        (n for n, most in enumerate(limits) if most is not None and wbgt <= most + 1e-9), None
    )  # fmt: skip
