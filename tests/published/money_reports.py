"""Published checks of reports as calls of the code: translated, no numbers here."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from budgets.engine.federal import federal_lines
from budgets.engine.money import WHOLE, percent
from budgets.engine.reporting import moved, new_money, sum_check
from projects.amounts import parse_amount, plain_amount

Row = dict[str, Any]
LINES = {
    "a": "received",
    "b": "paid",
    "d": "authorised",
    "e": "spent",
    "f": "owed",
    "i": "match_required",
    "j": "match_spent",
    "l": "income",
    "m": "deducted",
    "n": "added",
}
NOTHING = parse_amount("0")


def ffr(row: Row) -> Row:
    given = {name: parse_amount(text) for name, text in row["inputs"].items() if name in LINES}
    amounts = {word: given.get(name, NOTHING) for name, word in LINES.items()}
    found = federal_lines(**amounts)
    return {
        name: plain_amount(getattr(found, name))
        for name in "abcdefghijklmno"
        if hasattr(found, name)
    }


def transfer(row: Row) -> Row:
    limit = int(Decimal(row["inputs"]["limit"]) * WHOLE)
    found = moved(amounts(row["inputs"]["approved"]), amounts(row["inputs"]["now"]), limit)
    return {
        "moved": plain_amount(found.moved),
        "pct": percent(found.basis_points).removesuffix(" %"),
        "approval_needed": found.over,
    }


def sumcheck(row: Row) -> Row:
    printed = parse_amount(row["inputs"]["published_total"])
    found = sum_check(amounts(row["inputs"]["lines"]), printed)
    return {"sum": plain_amount(found.total), "matches_published_total": found.agrees}


def sub2(row: Row) -> Row:
    award, left = (parse_amount(row["inputs"][name]) for name in ("a", "b"))
    return {"left": plain_amount(new_money(award, left))}


def amounts(texts: list[str]) -> list[int]:
    return [parse_amount(text) for text in texts]


ADAPTERS: dict[str, Callable[[Row], Row]] = {
    f"money:{adapter.__name__}": adapter for adapter in (ffr, transfer, sumcheck, sub2)
}
