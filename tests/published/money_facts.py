"""Published checks of dated facts as calls of the code: translated, no numbers here."""

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

from budgets.engine.dated import growth_percent, indexed, value_on
from budgets.facts import shipped
from projects.amounts import parse_amount, plain_amount

Row = dict[str, Any]


def mile_rate(row: Row) -> Row:
    kind = row["inputs"].get("kind", "business")
    return {"rate": known(f"mile_{kind}", row["inputs"]["on"])}


def rate_on_date(row: Row) -> Row:
    issued = row["inputs"]["award_issued"]
    return {
        "rate": known("indirect_percent", issued).scaleb(-2),
        "sub_cap": known("partner_cap", issued),
        "equipment_threshold": known("equipment_from", issued),
    }


def nec(row: Row) -> Row:
    day, paid = f"{row['inputs']['year']}-12-31", Decimal(row["inputs"]["paid"])
    return {"form_required": paid >= known("payee_form_from", day)}


def round100(row: Row) -> Row:
    inputs = row["inputs"]
    threshold = indexed(parse_amount(inputs["base"]), Decimal(inputs["inflation"]), HUNDRED)
    return {"threshold": plain_amount(threshold)}


def growth(row: Row) -> Row:
    old, new = (Decimal(row["inputs"][name]) for name in ("old", "new"))
    return {"pct": growth_percent(old, new)}


HUNDRED = parse_amount("100")


def known(name: str, day: str) -> Decimal:
    return value_on(shipped(), name, date.fromisoformat(day)).fact.value


ADAPTERS: dict[str, Callable[[Row], Row]] = {
    f"money:{adapter.__name__}": adapter
    for adapter in (mile_rate, rate_on_date, nec, round100, growth)
}
