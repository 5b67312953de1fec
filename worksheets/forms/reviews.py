"""Who has checked a worksheet, on what day, and on which paper."""

from __future__ import annotations

from datetime import date
from typing import Any
from zoneinfo import ZoneInfo

from django import forms
from django.core.exceptions import ValidationError

from projects.fields import DayField, LongText, Sentences, ShortText, not_ahead
from projects.words import day_year
from worksheets.models import Run


class ReviewForm(Sentences, forms.Form):
    """``run`` is the version that is shown: the review is of that one alone."""

    number = forms.IntegerField(widget=forms.HiddenInput)
    reviewer = ShortText(
        label="Who checked it",
        max_length=120,
        error_messages={"required": "Write the name of the person who checked it."},
    )
    licence = ShortText(
        label="Licence or role",
        max_length=120,
        help_text="Such as: structural engineer, licence 4821.",
        error_messages={"required": "Write the licence, or in what role the person checks."},
    )
    day = DayField(label="Day of the check")
    paper = ShortText(
        label="Letter or drawing",
        max_length=200,
        required=False,
        help_text="With its number, so that it can be found.",
    )
    note = LongText(label="What the reviewer asks for", widget=forms.Textarea(attrs={"rows": 3}))

    def __init__(self, *args: Any, run: Run, today: date, **kwargs: Any) -> None:
        self.run, self.today = run, today
        kwargs.setdefault("initial", {"number": run.number, "day": today})
        super().__init__(*args, **kwargs)

    def clean_day(self) -> date:
        found = not_ahead(self.cleaned_data["day"], self.today)
        zone = ZoneInfo(self.run.worksheet.project.zone)
        reckoned = min(self.run.at.astimezone(zone).date(), self.today)
        if found < reckoned:
            raise ValidationError(
                f"Version {self.run.number} was worked out on {day_year(reckoned)}: nobody can "
                "have checked it earlier. Choose that day or a later one."
            )
        return found
