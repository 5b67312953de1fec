"""The weather of the site, and what may come of a task."""

from __future__ import annotations

from calendar import month_name, monthrange
from collections.abc import Iterator
from typing import Any

from django import forms

from projects.fields import DaysField, MoneyField
from projects.models import Project
from schedules.forms.plain import focus_first, speak_plainly, trim_numbers
from schedules.models import Task, Weather
from schedules.selectors.wording import days_words

MONTHS = range(1, 13)
LEAP_YEAR = 2028  # so that February may have 29
YEAR = 365


class WeatherForm(forms.Form):
    """Twelve numbers, January first, and where they were read."""

    source = forms.CharField(
        label="Where these numbers are from",
        required=False,
        max_length=200,
        help_text="Such as the climate table of the nearest weather station, and its years.",
    )

    def __init__(self, data: Any = None, *, weather: Weather | None) -> None:
        kept = weather.wet_days if weather else []
        initial = {f"m{n}": f"{days:g}" for n, days in zip(MONTHS, kept, strict=False)}
        initial["source"] = weather.source if weather else ""
        super().__init__(data, initial=initial)
        months = {f"m{n}": month_field(n) for n in MONTHS}
        self.fields = {**months, "source": self.fields["source"]}
        speak_plainly(self)

    def clean(self) -> dict[str, Any]:
        found = super().clean() or {}
        if not self.errors and sum(self.wet_days(found)) >= YEAR:
            self.add_error(
                None, "Leave at least one day of the year dry, or nothing outdoors ends."
            )
        return found

    def wet_days(self, found: dict[str, Any] | None = None) -> list[float]:
        cleaned = found if found is not None else self.cleaned_data
        return [float(cleaned[f"m{n}"]) for n in MONTHS]

    def months(self) -> Iterator[forms.BoundField]:
        return (self[f"m{n}"] for n in MONTHS)


def month_field(month: int) -> forms.DecimalField:
    most = monthrange(LEAP_YEAR, month)[1]
    right = f"{month_name[month]} has {most} days: write a number from 0 to {most}."
    return forms.DecimalField(
        label=month_name[month],
        min_value=0,
        max_value=most,
        decimal_places=1,
        widget=forms.TextInput(attrs={"inputmode": "decimal", "size": 4}),
        error_messages={
            "required": "Write how many days are wet; 0 if none is.",
            "max_decimal_places": "Write at most one decimal, such as 11.5.",
            **dict.fromkeys(("invalid", "min_value", "max_value"), right),
        },
    )


class EstimateForm(forms.ModelForm):  # type: ignore[type-arg]
    low_days = DaysField(label="Days if all goes well", required=False)
    high_days = DaysField(label="Days if it goes badly", required=False)
    returns_percent = forms.IntegerField(
        label="It comes back in so many of 100",
        required=False,
        min_value=0,
        max_value=100,
        widget=forms.TextInput(attrs={"inputmode": "numeric", "size": 4}),
        help_text="Such as a review that asks for another round.",
        error_messages=dict.fromkeys(
            ("invalid", "min_value", "max_value"), "Write a whole number from 0 to 100."
        ),
    )
    returns_days = DaysField(label="Days more when it comes back", required=False)
    crash_days = forms.IntegerField(
        label="Can be shorter by at most",
        required=False,
        min_value=0,
        max_value=999,
        widget=forms.TextInput(attrs={"inputmode": "numeric", "size": 4}),
        help_text="Working days that money could save.",
        error_messages=dict.fromkeys(
            ("invalid", "min_value", "max_value"), "Write a whole number of days from 0 to 999."
        ),
    )
    crash_day_cents = MoneyField(label="Cost of each day saved", required=False)

    class Meta:
        model = Task
        fields = [
            "low_days",
            "high_days",
            "returns_percent",
            "returns_days",
            "crash_days",
            "crash_day_cents",
            "outdoor",
        ]
        labels = {"outdoor": "Outdoors: wet days stop it"}

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        trim_numbers(self, "low_days", "high_days", "returns_days")
        speak_plainly(self)
        focus_first(self)

    @property
    def planned(self) -> str:
        return days_words(self.instance.days)

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        days, low, high = self.instance.days, found.get("low_days"), found.get("high_days")
        planned = f"The plan says {self.planned}."
        if low is not None and low > days:
            self.add_error("low_days", f"{planned} Write that many or fewer.")
        if high is not None and high < days:
            self.add_error("high_days", f"{planned} Write that many or more.")
        if found.get("returns_percent") and not days:
            self.add_error("returns_percent", "What has no length cannot come back: give it days.")
        elif found.get("returns_percent") and not found.get("returns_days"):
            self.add_error("returns_days", "Write how many days more it then takes.")
        if found.get("returns_days") and not found.get("returns_percent"):
            self.add_error("returns_percent", "Write how often it comes back.")
        if (found.get("crash_days") or 0) > days:
            self.add_error("crash_days", f"{planned} Write that many or fewer.")
        return found
