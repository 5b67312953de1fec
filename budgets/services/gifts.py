"""Reckon what a gift is worth and log it: an expense that nobody has to pay."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from django.db import transaction

from budgets.engine.dated import Dated
from budgets.engine.gifts import by_date, discount, gift_value
from budgets.models import Expense, GiftKind, Hours, Unit
from budgets.selectors.gift_kinds import Kind
from budgets.selectors.workings import DISCOUNT, HOURS, RATE, rate_rows
from budgets.services.expenses import named, next_version, save_expense
from budgets.services.lines import Who, say
from budgets.services.travel import CHARITY, trip_values
from projects.words import plural

Rows = Sequence[Mapping[str, Any]]
FLAT_RATE = "volunteer_hour"


def gift_values(
    kind: Kind, values: Mapping[str, Any], rows: Rows, facts: Sequence[Dated]
) -> dict[str, Any]:
    """Amount, quantity, unit, day and workings of a gift; raises ``dated.NoFact``."""
    if kind.asks_for("legs"):
        return trip_values(rows, facts, CHARITY)
    if kind.by_hours:
        return hours_values(kind, values, rows, facts)
    if kind.asks_for("listed"):
        cents = discount(values["listed"], values["paid"])
        workings = {"kind": DISCOUNT, "listed": values["listed"], "paid": values["paid"]}
        return shaped(cents, None, Unit.NONE, values["day"], workings)
    rate, count = values["rate"], values["quantity"]
    unit = Unit(values.get("unit") or kind.unit)
    workings = {"kind": RATE, "rate_cents": rate}
    return shaped(gift_value(count, rate), count, unit, values["day"], workings)


def hours_values(
    kind: Kind, values: Mapping[str, Any], rows: Rows, facts: Sequence[Dated]
) -> dict[str, Any]:
    total = sum(row["hundredths"] for row in rows)
    last: date = max(row["day"] for row in rows)
    if "rate" in values:
        workings = {"kind": HOURS, "rate_cents": values["rate"]}
        return shaped(gift_value(total, values["rate"]), total, Unit.HOUR, last, workings)
    found = by_date([(row["day"], row["hundredths"]) for row in rows], facts, FLAT_RATE)
    return shaped(found.cents, total, Unit.HOUR, last, {"kind": HOURS, "rates": rate_rows(found)})


def shaped(
    cents: int, count: int | None, unit: Unit, day: date, workings: Mapping[str, Any]
) -> dict[str, Any]:
    return {
        "cents": cents,
        "quantity_hundredths": count,
        "unit": unit,
        "day": day,
        "workings": {**workings, "cents": cents},
    }


@transaction.atomic
def save_gift(
    *, expense: Expense, kind: Kind, values: Mapping[str, Any], reckoned: Mapping[str, Any],
    rows: Rows, user: Who,
) -> Expense:  # fmt: skip
    """The expense and, for hours, the lines of its sheet, all at once."""
    told = {name: values[name] for name in ("payee", "line", "what", "basis", "need")}
    fixed = {"in_kind": True, "gift_kind": GiftKind(kind.key), "paid_on": None}
    made = save_expense(expense=expense, values={**told, **reckoned, **fixed}, user=user)
    if kind.by_hours:
        made.hours.all().delete()
        Hours.objects.bulk_create(Hours(expense=made, **row) for row in rows)
    return made


@transaction.atomic
def sign_all(*, expense: Expense, user: Who) -> str:
    """Mark every line of a time sheet as signed; the sentence that says how many were not."""
    count = expense.hours.filter(signed=False).update(signed=True)
    if not count:
        return "Every line was signed already."
    next_version(expense)
    said = f"{plural(count, 'line')} of the time sheet of {named(expense)} marked as signed."
    say(expense.project, user, said)
    return said
