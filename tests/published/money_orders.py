"""Published checks of orders, deposits and retainage: translated, no numbers here."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from budgets.engine.money import WHOLE
from budgets.engine.retainage import (
    PUNCH_LIST,
    Retainage,
    hold_back,
    keep_for_list,
)
from budgets.engine.retainage import (
    retain as retained,
)
from projects.amounts import parse_amount, plain_amount

Row = dict[str, Any]


def retain(row: Row) -> Row:
    given = row["inputs"]
    bills = [parse_amount(bill) for bill in given["bills"]]
    found = retained(rule_of(given), parse_amount(given["contract"]), bills)
    return {
        "net": [plain_amount(kept.payable) for kept in found],
        "held_after": [plain_amount(kept.held) for kept in found],
    }


def rule_of(given: Row) -> Retainage:
    stop = given.get("stop_at")
    return Retainage(
        basis_points=points(given["rate"]),
        stop=None if stop is None else points(stop),
        after=points(given.get("after_rate", "0")),
        release_half=bool(given.get("release_half")),
    )


def punch(row: Row) -> Row:
    given = row["inputs"]
    held = parse_amount(given["held"])
    times = points(given["mult"]) if "mult" in given else PUNCH_LIST
    keep = keep_for_list(held, parse_amount(given["punch_list"]), basis_points=times)
    return {"keep": plain_amount(keep), "release": plain_amount(held - keep)}


def holdback(row: Row) -> Row:
    given = row["inputs"]
    held, payable = hold_back(parse_amount(given["contract"]), points(given["share"]))
    return {"held": plain_amount(held), "payable_before": plain_amount(payable)}


def points(rate: str) -> int:
    """A rate as a decimal fraction, in basis points."""
    return int(Decimal(rate) * WHOLE)


ADAPTERS: dict[str, Callable[[Row], Row]] = {
    f"money:{adapter.__name__}": adapter for adapter in (retain, punch, holdback)
}
