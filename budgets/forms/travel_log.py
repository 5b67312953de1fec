"""Which traveller's drives, from which day to which."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms

from projects.fields import DayField, Sentences, in_order


class TravelLogForm(Sentences, forms.Form):
    who = forms.ChoiceField(label="Who drove")
    first = DayField(label="From", required=False)
    last = DayField(label="To", required=False)

    def __init__(self, data: Any = None, *, names: Sequence[str]) -> None:
        super().__init__(data)
        self.fields["who"].choices = [(name, name) for name in names]  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        in_order(self, "first", "last")
        return values
