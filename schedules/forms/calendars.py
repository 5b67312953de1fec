"""Calendars: weekdays, hours, days off and extra days."""

from __future__ import annotations

from datetime import date, time
from typing import Any

from django import forms

from projects.fields import DayField
from projects.models import Project
from schedules.forms.plain import speak_plainly
from schedules.models import Calendar

DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
LONGEST_RANGE = 366


class WeekdaysField(forms.MultipleChoiceField):
    """Ticked weekdays; cleans to “1111100”, Monday first."""

    widget = forms.CheckboxSelectMultiple

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(choices=[(str(n), name) for n, name in enumerate(DAYS)], **kwargs)

    def prepare_value(self, value: Any) -> Any:
        if isinstance(value, str):
            return [str(n) for n, worked in enumerate(value) if worked == "1"]
        return value

    def clean(self, value: Any) -> str:
        ticked = super().clean(value)
        return "".join("1" if str(n) in ticked else "0" for n in range(7))


class CalendarForm(forms.ModelForm):  # type: ignore[type-arg]
    weekdays = WeekdaysField(
        label="Working days", error_messages={"required": "Tick at least one day of the week."}
    )

    class Meta:
        model = Calendar
        fields = ["name", "opens", "closes", "keeps_holidays", "weekdays"]
        labels = {
            "opens": "Work starts at",
            "closes": "Work ends at",
            "keeps_holidays": "Public holidays are days off",
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in ("opens", "closes"):
            self.fields[name].widget = forms.TimeInput(attrs={"type": "time"}, format="%H:%M")
        speak_plainly(self)

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        opens, closes = found.get("opens"), found.get("closes")
        if opens and closes is not None and closes != time(0) and closes <= opens:
            said = f"Work would end before it starts. Choose a time after {opens:%H:%M}."
            self.add_error("closes", said)
        return found


class DaysOffForm(forms.Form):
    first = DayField(label="First day")
    last = DayField(label="Last day", required=False)
    works = forms.TypedChoiceField(
        label="These are",
        choices=[("0", "days off"), ("1", "extra working days")],
        coerce=lambda value: value == "1",
    )
    note = forms.CharField(label="Why", max_length=120, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        speak_plainly(self)

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        first, last = found.get("first"), found.get("last")
        if first and not last:
            found["last"] = first
        elif first and last and last < first:
            self.add_error("last", "The last day is before the first. Choose a later one.")
        elif too_long(first, last):
            said = f"That is more than {LONGEST_RANGE} days. Change the working days instead."
            self.add_error("last", said)
        return found


def too_long(first: date | None, last: date | None) -> bool:
    return bool(first and last and (last - first).days >= LONGEST_RANGE)


def calendar_form(
    project: Project, data: Any = None, calendar: Calendar | None = None
) -> CalendarForm:
    """A form whose fields are told apart from those of the other calendars on the page."""
    mark = str(calendar.pk) if calendar and calendar.pk else "new"
    return CalendarForm(data, instance=calendar or Calendar(project=project), auto_id=f"c{mark}_%s")
