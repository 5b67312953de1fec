"""Reckon a trip and nights away, and log them as expenses with their workings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from django.db import transaction

from budgets.engine.dated import Dated
from budgets.engine.travel import Away, Leg, away, mileage
from budgets.models import Expense, Unit
from budgets.selectors.travel import RateBook, Rates
from budgets.selectors.workings import STAY, TRIP, rate_rows
from budgets.services.expenses import save_expense
from budgets.services.lines import Who

Rows = Sequence[Mapping[str, Any]]
BUSINESS, CHARITY = "mile_business", "mile_charity"
PLACE, NOTE = 120, 240


def trip_values(rows: Rows, facts: Sequence[Dated], name: str = BUSINESS) -> dict[str, Any]:
    """What the drives come to, by the rate of each day; raises ``dated.NoFact``."""
    found = mileage([Leg(day=row["day"], hundredths=row["miles"]) for row in rows], facts, name)
    legs = [
        {**{key: row[key] for key in ("start", "end", "purpose", "miles")},
         "day": row["day"].isoformat()}
        for row in rows
    ]  # fmt: skip
    workings = {"kind": TRIP, "name": name, "legs": legs, "rates": rate_rows(found)}
    return {
        "cents": found.cents,
        "quantity_hundredths": found.hundredths,
        "unit": Unit.MILE,
        "day": rows[-1]["day"],
        "workings": {**workings, "cents": found.cents},
    }


@transaction.atomic
def save_trip(
    *, expense: Expense, values: Mapping[str, Any], rows: Rows, facts: Sequence[Dated], user: Who
) -> Expense:
    reckoned = trip_values(rows, facts)
    places = dict.fromkeys(row["end"] for row in rows)
    told = {
        "payee": values["payee"],
        "line": values["line"],
        "what": ", ".join(dict.fromkeys(row["purpose"] for row in rows))[:NOTE],
        "place": ", ".join(places)[:PLACE],
    }
    return save_expense(expense=expense, values={**told, **reckoned, **paid(reckoned)}, user=user)


def paid(reckoned: Mapping[str, Any]) -> dict[str, Any]:
    """An allowance is owed to whoever travelled: it counts as paid when it was earned."""
    return {"paid_on": reckoned["day"]}


def stay_reckoned(
    days: Sequence[date],
    book: RateBook,
    *,
    night: int | None,
    meals: int | None,
    provided: Mapping[date, Sequence[str]],
) -> tuple[Away, dict[date, Rates]]:
    """Raises LookupError for a day before all known rates."""
    rates = {}
    for day in days:
        found = book.on(day, night=night, meals=meals)
        if found is None:
            raise LookupError(day)
        rates[day] = found
    worth = {
        day: [getattr(rates[day].meals, name) for name in names if rates[day].meals]
        for day, names in provided.items()
    }
    tiers = {day: found.tier for day, found in rates.items()}
    return away(days[0], days[-1], tiers, worth), rates


def stay_workings(
    found: Away, rates: Mapping[date, Rates], provided: Mapping[date, Sequence[str]], why: str
) -> dict[str, Any]:
    sources = dict.fromkeys(source for each in rates.values() for source in each.sources)
    return {
        "kind": STAY,
        "purpose": why,
        "cents": found.cents,
        "lodging": found.lodging_cents,
        "meals": found.meals_cents,
        "sources": list(sources),
        "current": all(each.current for each in rates.values()),
        "days": [
            {
                "day": each.day.isoformat(),
                "edge": each.edge,
                "night": each.night,
                "meals": each.meals,
                "tier": rates[each.day].tier.meals,
                "provided": list(provided.get(each.day, ())),
                "off": each.provided,
            }
            for each in found.days
        ],
    }


@transaction.atomic
def save_stay(
    *, expense: Expense, values: Mapping[str, Any], days: Sequence[date],
    provided: Mapping[date, Sequence[str]], book: RateBook, user: Who,
) -> Expense:  # fmt: skip
    found, rates = stay_reckoned(
        days, book, night=values["night"], meals=values["meals"], provided=provided
    )
    workings = stay_workings(found, rates, provided, values["purpose"])
    workings["own"] = {
        name: values[name] for name in ("night", "meals") if values[name] is not None
    }
    told = {name: values[name] for name in ("payee", "line", "place")}
    reckoned = {
        "cents": found.cents,
        "quantity_hundredths": found.nights * 100 or None,
        "unit": Unit.NIGHT if found.nights else Unit.NONE,
        "day": days[-1],
        "what": values["purpose"],
        "workings": workings,
    }
    return save_expense(expense=expense, values={**told, **reckoned, **paid(reckoned)}, user=user)
