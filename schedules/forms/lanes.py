"""A lane: who does it."""

from __future__ import annotations

from typing import Any

from django import forms

from projects.fields import MoneyField
from projects.models import Project
from schedules.forms.plain import focus_first, speak_plainly
from schedules.models import Lane


class LaneForm(forms.ModelForm):  # type: ignore[type-arg]
    capacity = forms.IntegerField(
        label="Tasks at once",
        required=False,
        initial=1,
        min_value=1,
        max_value=999,
        widget=forms.TextInput(attrs={"inputmode": "numeric", "size": 4}),
        help_text="How many people or places there are. Empty: no limit, as for a board.",
        error_messages=dict.fromkeys(
            ("invalid", "min_value", "max_value"),
            "Write a whole number from 1 to 999, or leave it empty for no limit.",
        ),
    )
    day_cents = MoneyField(
        label="Cost of a day", required=False, help_text="What one working day of it costs."
    )

    class Meta:
        model = Lane
        fields = ["name", "supplier", "calendar", "capacity", "day_cents"]

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.project = project
        self.choose("supplier", project.suppliers.all(), "Nobody who is paid or lends")
        self.choose("calendar", project.calendars.all(), "Supplier’s, else project’s")
        speak_plainly(self)
        focus_first(self)

    def choose(self, name: str, rows: Any, nothing: str) -> None:
        field = self.fields[name]
        assert isinstance(field, forms.ModelChoiceField)
        field.queryset, field.empty_label = rows, nothing

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        others = Lane.objects.filter(project=self.project, name=name).exclude(pk=self.instance.pk)
        if others.exists():
            raise forms.ValidationError(f"There is already a lane called “{name}”.")
        return name
