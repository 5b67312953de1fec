"""Fields of rows as they were and became, kept so that they can be put back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from django.db import models

from schedules.models import KeyDate, Task
from schedules.services.planning import short

Kept = dict[str, Any]  # {"tasks": {"12": {"name": …, "days": "10"}}, "key_dates": {…}}
LABELS = {
    "days": "days",
    "remaining_days": "days left",
    "remaining_on": "day on which days left were said",
    "not_before": "first day allowed",
    "on": "day",
}
TABLES: dict[type[models.Model], str] = {Task: "tasks", KeyDate: "key_dates"}


def empty() -> Kept:
    return {"tasks": {}, "key_dates": {}}


def add(kept: Kept, row: models.Model, fields: Iterable[str]) -> None:
    values = {name: as_text(getattr(row, name)) for name in fields}
    kept[TABLES[type(row)]][str(row.pk)] = {"name": str(row), **values}


def as_text(value: Decimal | date | None) -> str | None:
    return None if value is None else str(value)


def value_of(model: type[models.Model], field: str, text: str | None) -> Any:
    found: Any = model._meta.get_field(field)
    return None if text is None else found.to_python(text)


def only_fields(values: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in values.items() if name != "name"}


def put_back(model: type[models.Model], pk: str, values: Mapping[str, Any]) -> None:
    fields = {n: value_of(model, n, text) for n, text in only_fields(values).items()}
    model._default_manager.filter(pk=int(pk)).update(**fields)


def differences(
    model: type[models.Model], pk: str, left: Mapping[str, Any], was: Mapping[str, Any]
) -> list[str]:
    """What is not as it was left, a sentence each; a task that is finished counts too."""
    row: Any = model._default_manager.filter(pk=int(pk)).first()
    if row is None:
        return [f"“{was['name']}” was removed since."]
    if getattr(row, "finished_on", None):
        return [f"“{row}” is finished since."]
    found = []
    for name, text in only_fields(left).items():
        then, now = value_of(model, name, text), getattr(row, name)
        if then != now:
            found.append(f"{LABELS[name]} {short(now)} now, {short(then)} when this was applied")
    return [f"“{row}” was changed since: {'; '.join(found)}."] if found else []


def share(one: Kept, other: Kept) -> bool:
    """Whether both changed the same row."""
    return any(set(one.get(t, {})) & set(other.get(t, {})) for t in ("tasks", "key_dates"))
