"""Rates of nights and meals by day, and what each meal of a tier is worth. Data with dates."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from typing import Any

from django.conf import settings

from budgets.engine.dated import Dated, Found, NoFact, value_on
from budgets.engine.travel import LONGEST, Meals, Tier
from budgets.facts import all_of
from projects.models import Project

FILE = settings.ROOT / "fixtures" / "facts" / "meals.json"
NIGHT, MEALS, INCIDENTALS = "lodging_night", "meals_day", "incidentals_day"
NAMES = ("breakfast", "lunch", "dinner")


@dataclass(frozen=True, slots=True, kw_only=True)
class MealTable:
    """The tiers that hold from a day on, and their source."""

    start: date
    end: date | None
    source: str
    tiers: tuple[Meals, ...]

    def of(self, tier: int) -> Meals | None:
        return next((meals for meals in self.tiers if meals.tier == tier), None)


@cache
def meal_tables() -> tuple[MealTable, ...]:
    rows: list[dict[str, Any]] = json.loads(FILE.read_text("utf-8"))
    return tuple(
        MealTable(
            start=date.fromisoformat(row["from"]),
            end=date.fromisoformat(row["to"]) if row["to"] else None,
            source=row["source"],
            tiers=tuple(in_cents(tier) for tier in row["tiers"]),
        )
        for row in rows
    )


def in_cents(tier: dict[str, int]) -> Meals:
    return Meals(**{name: dollars * 100 for name, dollars in tier.items()})


def meal_table(day: date) -> MealTable | None:
    """The table that holds on a day; the last one when the day is later than all."""
    begun = [table for table in meal_tables() if table.start <= day]
    return begun[-1] if begun else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """What one day away may cost; `sources` say where each rate stands."""

    tier: Tier
    meals: Meals | None
    sources: tuple[str, ...]
    current: bool


class RateBook:
    """The dated facts of a project, read once, for the days of one journey."""

    def __init__(self, project: Project) -> None:
        self.facts: tuple[Dated, ...] = all_of(project)

    def find(self, name: str, day: date) -> Found | None:
        try:
            return value_on(self.facts, name, day)
        except NoFact:
            return None

    def cents(self, name: str, day: date) -> int | None:
        found = self.find(name, day)
        return found.fact.cents if found else None

    def on(self, day: date, *, night: int | None = None, meals: int | None = None) -> Rates | None:
        """The rates of a day; a place's own night and tier take the standard's place."""
        found = [self.find(name, day) for name in (NIGHT, MEALS, INCIDENTALS)]
        table = meal_table(day)
        facts = [each.fact for each in found if each]
        if len(facts) < len(found) or table is None:
            return None
        whole = facts[1].cents if meals is None else meals
        tier = Tier(
            night=facts[0].cents if night is None else night,
            meals=whole,
            incidentals=facts[2].cents,
        )
        used = [facts[2].source, table.source]
        used += [
            fact.source for fact, own in zip(facts, (night, meals), strict=False) if own is None
        ]
        return Rates(
            tier=tier,
            meals=table.of(whole),
            sources=tuple(dict.fromkeys(used)),
            current=all(each.current for each in found if each),
        )


def days_between(first: date, last: date) -> list[date]:
    count = min((last - first).days + 1, LONGEST)
    return [first + timedelta(days=number) for number in range(max(count, 0))]
