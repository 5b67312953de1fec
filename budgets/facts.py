"""Dated facts: those that come with the planner, as data, and what a project adds of its own."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import cache
from typing import Any

from django.conf import settings

from budgets.engine.dated import Dated, Found, value_on
from budgets.models import DatedFact
from projects.models import Project

FILE = settings.ROOT / "fixtures" / "facts" / "money.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """What a fact is about; `by` says which day decides."""

    name: str
    label: str
    unit: str
    by: str
    note: str


@cache
def kinds() -> dict[str, Kind]:
    names = ("name", "label", "unit", "by", "note")
    return {row["name"]: Kind(**{name: row[name] for name in names}) for row in _rows()}


@cache
def shipped() -> tuple[Dated, ...]:
    return tuple(
        Dated(
            name=row["name"],
            value=Decimal(value["value"]),
            start=date.fromisoformat(value["from"]),
            end=date.fromisoformat(value["to"]) if value["to"] else None,
            source=value["source"],
            weak=value.get("weak", False),
        )
        for row in _rows()
        for value in row["values"]
    )


def _rows() -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = json.loads(FILE.read_text("utf-8"))
    return rows


def own(rows: Iterable[DatedFact]) -> list[Dated]:
    return [
        Dated(
            name=row.name,
            value=row.value,
            start=row.valid_from,
            end=row.valid_to,
            source=row.source,
            own=True,
        )
        for row in rows
    ]


def all_of(project: Project) -> tuple[Dated, ...]:
    """Everything known for a project, in one query."""
    return (*shipped(), *own(DatedFact.objects.filter(project=project)))


def value(project: Project, name: str, day: date) -> Found:
    """The value on a day, for one question; read `all_of` once when there are many.

    Raises ``budgets.engine.dated.NoFact``.
    """
    return value_on(all_of(project), name, day)
