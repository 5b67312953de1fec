"""Change rows and have the plan computed anew, or have neither."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import date
from decimal import Decimal

from django.db import models, transaction

from projects.models import Project
from projects.words import day_year, money
from schedules.plan import recompute
from schedules.selectors.wording import decimal_words


@contextmanager
def replanned(project: Project, today: date) -> Iterator[None]:
    """Hold the project, let the caller change rows, recompute; all of it or nothing."""
    with transaction.atomic():
        Project.objects.select_for_update().get(pk=project.pk)
        yield
        recompute(project, today)


def changes(
    old: models.Model, new: models.Model, labels: Mapping[str, str]
) -> dict[str, tuple[object, object]]:
    """The fields of ``labels`` in which two rows differ, with what they were and are."""
    found = {}
    for name in labels:
        column = getattr(new._meta.get_field(name), "attname", name)
        before, after = getattr(old, column), getattr(new, column)
        if before != after:
            found[name] = (getattr(old, name), getattr(new, name))
    return found


def in_words(
    changed: Mapping[str, tuple[object, object]], labels: Mapping[str, str], currency: str = "USD"
) -> str:
    """“days from 10 to 12, lane from Artist to Volunteer crew”."""
    return ", ".join(
        labels[name]
        if long(old) or long(new)
        else f"{labels[name]} from {said(name, old, currency)} to {said(name, new, currency)}"
        for name, (old, new) in changed.items()
    )


def said(name: str, value: object, currency: str) -> str:
    if name.endswith("_cents") and isinstance(value, int):
        return money(value, currency)
    return short(value)


def long(value: object) -> bool:
    return isinstance(value, str) and len(value) > 60


def short(value: object) -> str:
    if value is None or value == "":
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Decimal):
        return decimal_words(value)
    if isinstance(value, date):
        return day_year(value)
    return str(value)
