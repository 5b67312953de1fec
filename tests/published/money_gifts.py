"""Published checks of hours, trips and tax as calls of the code: translated, no numbers here."""

from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from budgets.engine.gifts import gift_value
from budgets.engine.money import CENTS, Rounding, portion
from budgets.engine.tax import item_by_item, tax_on, whole_invoice
from budgets.engine.travel import Leg, Meals, Tier, away, day_allowance, edge_day, mileage
from budgets.facts import shipped
from projects.amounts import plain_amount

Row = dict[str, Any]
PARTS = ("breakfast", "lunch", "dinner", "incidentals")
FIRST = date(2025, 11, 3)  # a day like any other: these rows name none


def cents(text: str) -> int:
    """Published totals may be far above what a form takes."""
    return int(Decimal(text) * CENTS)


def hours(row: Row) -> Row:
    given = row["inputs"]
    hundredths = int(Decimal(given["hours"]) * CENTS)
    return {"value": plain_amount(gift_value(hundredths, cents(given["rate"])))}


def driven(row: Row) -> Row:
    legs = [
        Leg(day=date.fromisoformat(trip["on"]), hundredths=int(Decimal(trip["miles"]) * CENTS))
        for trip in row["inputs"]["trips"]
    ]
    name = f"mile_{row['inputs'].get('kind', 'business')}"
    return {"amount": plain_amount(mileage(legs, shipped(), name).cents)}


def mie(row: Row) -> Row:
    given = row["inputs"]
    answer = {"first_last": plain_amount(edge_day(cents(given["mie"])))}
    if parts := [cents(part) for part in given.get("parts", [])]:
        answer["sum_parts"] = plain_amount(Meals(**dict(zip(PARTS, parts, strict=True))).tier)
    return answer


def mie_deduct(row: Row) -> Row:
    given = row["inputs"]
    paid = day_allowance(
        cents(given["mie"]),
        cents(given["incidental"]),
        [cents(meal) for meal in given["meals_provided"]],
        edge=given["first_or_last"],
    )
    return {"paid": plain_amount(paid)}


def trip(row: Row) -> Row:
    given = row["inputs"]
    tier = Tier(night=cents(given["lodging"]), meals=cents(given["mie"]), incidentals=0)
    days = [FIRST + timedelta(days=number) for number in range(int(given["nights"]) + 1)]
    found = away(days[0], days[-1], dict.fromkeys(days, tier))
    return {
        "lodging": plain_amount(found.lodging_cents),
        "mie": plain_amount(found.meals_cents),
        "total": plain_amount(found.cents),
    }


def taxtable(row: Row) -> Row:
    items = [
        (cents(price), Decimal(rate).as_integer_ratio()) for price, rate in row["inputs"]["rows"]
    ]
    return {
        "penny": [plain_amount(price + tax_on(price, rate)) for price, rate in items],
        "sum_of_rounded": plain_amount(item_by_item(items)),
        "rounded_sum": plain_amount(whole_invoice(items)),
    }


def bankers(row: Row) -> Row:
    """To the cent, both ways."""
    numerator, denominator = Decimal(row["inputs"]["x"]).as_integer_ratio()
    return {
        way: plain_amount(portion(CENTS, numerator, denominator, Rounding(way)))
        for way in ("half_up", "half_even")
    }


ADAPTERS: dict[str, Callable[[Row], Row]] = {
    f"money:{adapter.__name__}": adapter
    for adapter in (hours, mie, mie_deduct, trip, taxtable, bankers)
}
ADAPTERS["money:mileage"] = driven
