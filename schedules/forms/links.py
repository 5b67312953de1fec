"""A link: what a task waits for, and how."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django import forms

from schedules.forms.plain import speak_plainly
from schedules.models import LagClock, Link, Task

LAG_RANGE = dict.fromkeys(LagClock, 500) | {LagClock.ELAPSED: 9000}
LAG_UNIT = dict.fromkeys(LagClock, "working days") | {LagClock.ELAPSED: "hours"}


class LinkForm(forms.ModelForm):  # type: ignore[type-arg]
    lag = forms.DecimalField(
        label="Wait after that",
        required=False,
        decimal_places=2,
        widget=forms.TextInput(attrs={"inputmode": "decimal", "size": 5}),
        error_messages={"invalid": "Write a number, such as 3, 0.5 or 72."},
    )

    class Meta:
        model = Link
        fields = ["before", "kind", "lag", "lag_clock", "reason"]
        labels = {
            "before": "Waits for",
            "kind": "In this way",
            "lag_clock": "Counted in",
            "reason": "Because",
        }

    def __init__(self, *args: Any, task: Task, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.task = task
        others = Task.objects.filter(project_id=task.project_id).only("name", "project")
        self.fields["before"].queryset = others  # type: ignore[attr-defined]
        self.fields["before"].empty_label = "Choose a task"  # type: ignore[attr-defined]
        self.fields["reason"].widget.attrs["placeholder"] = "such as: paint cures"
        speak_plainly(self)

    def clean_before(self) -> Task:
        before: Task = self.cleaned_data["before"]
        if before.pk == self.task.pk:
            raise forms.ValidationError("A task cannot wait for itself. Choose another task.")
        return before

    def clean_lag(self) -> Decimal:
        return self.cleaned_data["lag"] or Decimal(0)

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        lag, clock, before = (found.get(n) for n in ("lag", "lag_clock", "before"))
        most = LAG_RANGE.get(clock) if clock else None
        if lag is not None and most and abs(lag) > most:
            unit = LAG_UNIT[LagClock(str(clock))]
            self.add_error("lag", f"Write between −{most:,} and {most:,} {unit}.")
        twins = Link.objects.filter(before=before, after=self.task, kind=found.get("kind", ""))
        if before and twins.exists():
            said = (
                f"“{self.task}” already waits for “{before}” in this way. Remove that link first."
            )
            self.add_error("before", said)
        return found
