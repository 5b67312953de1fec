"""Published earned values and length indices as calls of the schedule engine.

Amounts keep their unit: all of a row are scaled alike, so that each is a whole number.
"""

from collections.abc import Callable
from fractions import Fraction
from math import lcm
from typing import Any

from schedules.engine.earned import Earned, earned_schedule
from schedules.engine.vitals import length_index
from tests.published.row_words import Row, exact

AMOUNTS = ("BAC", "PV", "EV", "AC")


def evm(row: Row) -> Row:
    """What the row's amounts tell; what would need an amount that is not there is left out."""
    given = {**row, **row.get("inputs", {}), **row["expected"]}
    series = [exact(total) for total in given.get("PV_cumulative", ())]
    known = {name: exact(given[name]) for name in AMOUNTS if name in given}
    if series:
        known.setdefault("BAC", series[-1])
    scale = lcm(*(amount.denominator for amount in (*known.values(), *series)))
    answer: Row = {name: unscaled(amount, 1) for name, amount in known.items()}
    if series:
        answer |= by_time([int(total * scale) for total in series], given, known, scale)
        known.setdefault("PV", exact(answer.pop("planned", 0)))
    return answer | by_amount(known, scale)


def by_time(series: list[int], given: Row, known: Row, scale: int) -> Row:
    """Earned schedule of the planned totals, period by period."""
    at = exact(given["actual_time"])
    earned = earned_schedule(series, int(known["EV"] * scale))
    period = min(int(at), len(series)) - 1
    return {
        "PV_cumulative": [unscaled(Fraction(total), scale) for total in series],
        "actual_time": float(at),
        "planned": unscaled(Fraction(series[period] if period >= 0 else 0), scale),
        "ES": float(earned),
        "SV_t": float(earned - at),
        "SPI_t": float(earned / at) if at else None,
    }


def by_amount(known: Row, scale: int) -> Row:
    whole = {name: int(known.get(name, 0) * scale) for name in AMOUNTS}
    value = Earned(bac=whole["BAC"], pv=whole["PV"], ev=whole["EV"], ac=whole["AC"])
    money = {"CV": value.cv, "SV": value.sv, **forecasts(value)}
    ratios = {
        "CPI": value.cpi,
        "SPI": value.spi,
        "SPI_classic": value.spi,
        "TCPI": value.tcpi(value.bac),
        "TCPI_bac": value.tcpi(value.bac),
        "TCPI_eac": tcpi_of(value, value.eac_by_cost),
        "TCPI_eac_cpi": tcpi_of(value, value.eac_by_cost),
        "TCPI_eac_budget": tcpi_of(value, value.eac_at_budget),
        "TCPI_eac_cpi_spi": tcpi_of(value, value.eac_by_both),
    }
    found = {key: unscaled(Fraction(n), scale) for key, n in money.items() if n is not None}
    found |= {key: float(n) for key, n in ratios.items() if n is not None}
    return {key: n for key, n in found.items() if needs(key) <= known.keys()}


def forecasts(value: Earned) -> Row:
    """The three forecasts of the whole cost; a bare EAC is that by the cost index."""
    ways = {
        "": value.eac_by_cost,
        "_cpi": value.eac_by_cost,
        "_budget": value.eac_at_budget,
        "_cpi_spi": value.eac_by_both,
    }
    found: Row = {}
    for way, eac in ways.items():
        if eac is not None:
            found |= {
                f"EAC{way}": eac,
                f"ETC{way}": value.etc(eac),
                f"VAC{way}": value.vac(eac),
            }
    return found


def tcpi_of(value: Earned, total: Fraction | None) -> Fraction | None:
    return None if total is None else value.tcpi(total)


def needs(key: str) -> set[str]:
    """The amounts that a figure is made of."""
    if key in ("SV", "SPI", "SPI_classic"):
        return {"PV", "EV"}
    if key in ("CV", "CPI"):
        return {"EV", "AC"}
    return {"BAC", "EV", "AC", *(["PV"] if key.endswith("_spi") else [])}


def unscaled(amount: Fraction, scale: int) -> float:
    found = amount / scale
    return int(found) if found.denominator == 1 else float(found)


def index(row: Row) -> Row:
    """The critical path length index of each case, with what it was asked for."""
    return {"cases": [{**case, "CPLI": cpli(case)} for case in row["expected"]["cases"]]}


def cpli(case: Row) -> float | None:
    found = length_index(exact(case["CPL"]), exact(case["TF"]))
    return None if found is None else float(found)


RECORD_ADAPTERS: dict[str, Callable[[Row], Any]] = {
    "schedule:evm": evm,
    "schedule:index": index,
}
