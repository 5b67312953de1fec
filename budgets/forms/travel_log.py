"""Which traveller's drives, from which day to which."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms

from projects.fields import DayField, Sentences


class TravelLogForm(Sentences, forms.Form):
    who = forms.ChoiceField(label="Who drove")
    first = DayField(label="From", required=False)
    last = DayField(label="To", required=False)

    def __init__(self, data: Any = None, *, names: Sequence[str]) -> None:
        super().__init__(data)
        self.fields["who"].choices = [(name, name) for name in names]  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        first, last = values.get("first"), values.get("last")
        if first and last and last < first:
            self.add_error("last", "The last day is before the first. Change one of them.")
        return values
