"""How an amount was reckoned: a trip, nights away, hours, a rate; as kept beside the expense."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from budgets.engine.gifts import Valued
from budgets.models import Expense
from projects.words import SYMBOLS, day_year, hundredths, money

TRIP, STAY, HOURS, RATE, DISCOUNT = "trip", "stay", "hours", "rate", "discount"


@dataclass(frozen=True)
class RatePart:
    """What falls under one published rate."""

    quantity: str
    rate: str
    cents: int
    source: str
    known_until: str  # of a rate that is older than the day; else empty


def rate_rows(found: Valued) -> list[dict[str, Any]]:
    """As they are kept: the rate, its source and its days stay even when the facts change."""
    return [
        {
            "rate": str(part.rate.value),
            "source": part.rate.source,
            "until": part.rate.end.isoformat() if part.rate.end else "",
            "hundredths": part.hundredths,
            "cents": part.cents,
            "current": part.current,
        }
        for part in found.parts
    ]


def rate_parts(workings: Mapping[str, Any], currency: str) -> list[RatePart]:
    return [
        RatePart(
            quantity=hundredths(row["hundredths"]),
            rate=rate_words(row["rate"], currency),
            cents=row["cents"],
            source=row["source"],
            known_until="" if row["current"] else until(row["until"]),
        )
        for row in workings.get("rates", [])
    ]


def until(day: str) -> str:
    return day_year(date.fromisoformat(day)) if day else ""


def rate_words(rate: str, currency: str) -> str:
    """A rate with the decimals it has: “$0.725”, “$34.79”, “$0.70”."""
    value = Decimal(rate)
    sign = SYMBOLS.get(currency, f"{currency} ")
    return f"{sign}{value.quantize(Decimal('0.01')) if value == round(value, 2) else value}"


def reckoned(workings: Mapping[str, Any]) -> int | None:
    """What the workings come to, in cents; nothing when there are none."""
    found = workings.get("cents")
    return found if isinstance(found, int) else None


def hand_changed(expense: Expense) -> str:
    """Somebody wrote another amount after it was reckoned."""
    found = reckoned(expense.workings)
    if found is None or found == expense.cents:
        return ""
    currency = expense.project.currency
    return (
        f"The workings come to {money(found, currency)}; the amount was written as "
        f"{money(expense.cents, currency)}. An auditor asks why."
    )


@dataclass(frozen=True)
class Leg:
    day: date
    start: str
    end: str
    purpose: str
    miles: str


@dataclass(frozen=True)
class StayDay:
    day: date
    tier: int
    edge: bool
    provided: str
    off: int
    meals: int
    night: int


@dataclass(frozen=True, kw_only=True)
class Workings:
    """How an amount was reckoned, ready for the page and for paper."""

    kind: str
    cents: int
    sentence: str = ""
    legs: tuple[Leg, ...] = ()
    rates: tuple[RatePart, ...] = ()
    days: tuple[StayDay, ...] = ()
    lodging: int = 0
    meals: int = 0
    sources: tuple[str, ...] = ()
    old: bool = False  # a rate was the last one known, and its days are over


def workings_of(expense: Expense) -> Workings | None:
    kept, currency = expense.workings, expense.project.currency
    cents = reckoned(kept)
    if cents is None:
        return None
    return Workings(
        kind=kept["kind"],
        cents=cents,
        sentence=in_a_sentence(expense),
        legs=tuple(leg(row) for row in kept.get("legs", [])),
        rates=tuple(rate_parts(kept, currency)),
        days=tuple(stay_day(row) for row in kept.get("days", [])),
        lodging=kept.get("lodging", 0),
        meals=kept.get("meals", 0),
        sources=tuple(kept.get("sources", [])),
        old=not kept.get("current", True),
    )


def leg(row: Mapping[str, Any]) -> Leg:
    return Leg(
        day=date.fromisoformat(row["day"]),
        start=row["start"],
        end=row["end"],
        purpose=row["purpose"],
        miles=hundredths(row["miles"]),
    )


def stay_day(row: Mapping[str, Any]) -> StayDay:
    return StayDay(
        day=date.fromisoformat(row["day"]),
        tier=row["tier"],
        edge=row["edge"],
        provided=", ".join(row["provided"]),
        off=row["off"],
        meals=row["meals"],
        night=row["night"],
    )


def in_a_sentence(expense: Expense) -> str:
    """One rate, or one subtraction, needs no table."""
    kept, currency = expense.workings, expense.project.currency
    if kept["kind"] == DISCOUNT:
        listed, paid = money(kept["listed"], currency), money(kept["paid"], currency)
        return f"List price {listed}, paid {paid}."
    if "rate_cents" in kept and expense.quantity_hundredths:
        count = f"{hundredths(expense.quantity_hundredths)} {expense.get_unit_display()}"
        return f"{count} at {money(kept['rate_cents'], currency)}."
    return ""
