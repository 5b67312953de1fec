"""Published checks of cash, loans and forecasts: translated, no numbers here."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any

from budgets.engine.cash import cash_budget, simple_interest
from budgets.engine.money import CENTS, WHOLE, Rounding, portion
from budgets.engine.outlook import Outlook, at_rate, at_this_rate, index
from projects.amounts import parse_amount, plain_amount
from tests.published.money_adapters import coin

Row = dict[str, Any]


def simple(row: Row) -> Row:
    given = row["inputs"]
    cents = simple_interest(
        parse_amount(given["principal"]),
        points(given["rate"]),
        int(given["days"]),
        Fraction(given["basis"]),
    )
    return {"interest": plain_amount(cents)}


def basis_gap(row: Row) -> Row:
    """Both years of the row's keys: “i360” is the interest on a year of 360 days."""
    given = row["inputs"]
    of = {
        key: simple_interest(
            parse_amount(given["principal"]),
            points(given["rate"]),
            int(given["days"]),
            Fraction(key.removeprefix("i")),
        )
        for key in row["expected"]
        if key.startswith("i")
    }
    larger, smaller = max(of.values()), min(of.values())
    more = Fraction(larger - smaller, smaller) * CENTS
    shown = {key: plain_amount(cents) for key, cents in of.items()}
    return {**shown, "diff": plain_amount(larger - smaller), "pct": f"{float(more):.2f}"}


def cashbud(row: Row) -> Row:
    given = row["inputs"]
    step = {"step": parse_amount(given["step"])} if "step" in given else {}
    rows = cash_budget(
        parse_amount(given["begin"]),
        [parse_amount(text) for text in given["receipts"]],
        [parse_amount(text) for text in given["payments"]],
        minimum=parse_amount(given["min"]),
        **step,
    )
    return {
        "available": [plain_amount(found.available) for found in rows],
        "excess": [plain_amount(found.excess) for found in rows],
        "borrow": [plain_amount(found.borrow) for found in rows],
        "repay": [plain_amount(found.repay) for found in rows],
        "end": [plain_amount(found.closing) for found in rows],
    }


def eac(row: Row) -> Row:
    given = row["inputs"]
    actual = parse_amount(given["ac"])
    if given["method"] == "etc":
        rest = Outlook(budget=0, actual=actual, committed=0, remaining=parse_amount(given["etc"]))
        return {"eac": plain_amount(rest.completion)}
    budget, earned = parse_amount(given["bac"]), parse_amount(given["ev"])
    exact = index(actual, earned)
    if "cpi_round" in given:
        printed = Fraction(Decimal(float(exact)).quantize(Decimal(given["cpi_round"])))
        cents, step = at_rate(budget, actual, earned, printed), coin(given["bac"])
        return {"eac": plain_amount(portion(cents, 1, step, Rounding.HALF_UP) * step)}
    return {
        "cpi": f"{float(exact):.4f}",
        "eac": plain_amount(at_this_rate(budget, actual, earned)),
    }


def points(text: str) -> int:
    return int(Decimal(text) * WHOLE)


ADAPTERS: dict[str, Callable[[Row], Row]] = {
    f"money:{adapter.__name__}": adapter for adapter in (simple, basis_gap, cashbud, eac)
}
