"""What a filed claim was told of a row stays as it was told, whichever form changes it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Protocol

from django import forms

from budgets.models import Expense
from budgets.selectors.held import held_above, held_fields


class OfExpense(Protocol):
    instance: Expense
    fields: dict[str, forms.Field]

    @property
    def errors(self) -> Mapping[str, Any]: ...

    def add_error(self, field: str | None, error: str) -> None: ...


def keep_told(form: OfExpense, values: Mapping[str, Any]) -> bool:
    """Refuse each change beside its field, or above them all where it has none."""
    found = held_fields(form.instance, values) if form.instance.pk else {}
    for name, sentence in found.items():
        if name not in form.errors:
            form.add_error(name if name in form.fields else None, sentence)
    return not found


def keep_reckoned(form: OfExpense, values: Mapping[str, Any]) -> bool:
    """The same for an amount and a day that follow from what was typed."""
    problem = held_above(form.instance, values["cents"]) if form.instance.pk else ""
    if problem:
        form.add_error(None, problem)
        return False
    return keep_told(form, values)
