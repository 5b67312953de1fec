"""Which two plans are held against each other."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms

from projects.words import day_year
from schedules.forms.plain import speak_plainly
from schedules.selectors.record import KeptPlan

NOW = "now"


class CompareForm(forms.Form):
    first = forms.ChoiceField(label="Hold")
    second = forms.ChoiceField(label="Against", initial=NOW)

    def __init__(self, *args: Any, kept: Sequence[KeptPlan], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        plans = [(row.letter, f"Rev {row.letter}, {day_year(row.kept_on)}") for row in kept]
        self.fields["first"].choices = plans  # type: ignore[attr-defined]
        self.fields["second"].choices = [(NOW, "the plan as it is now"), *plans]  # type: ignore[attr-defined]
        self.fields["first"].initial = plans[0][0] if plans else None
        speak_plainly(self)

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        if found.get("first") and found.get("first") == found.get("second"):
            self.add_error("second", "That is the same plan. Choose another, or the plan now.")
        return found

    @property
    def letters(self) -> tuple[str | None, str | None]:
        """The two chosen; what is wrong or not chosen yet falls back to the newest and now."""
        newest = self.fields["first"].initial
        if not self.is_bound or not self.is_valid():
            return newest, None
        second = self.cleaned_data["second"]
        return self.cleaned_data["first"], None if second == NOW else second
