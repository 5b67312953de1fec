"""Calendars: weekdays, hours, hours that differ by weekday, days off and extra days."""

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


class HourField(forms.TimeField):
    """A time of day, from the browser's own picker or typed as 08:00."""

    widget = forms.TimeInput(attrs={"type": "time"}, format="%H:%M")


class CalendarForm(forms.ModelForm):  # type: ignore[type-arg]
    weekdays = WeekdaysField(
        label="Working days", error_messages={"required": "Tick at least one day of the week."}
    )
    opens = HourField(label="Work starts at")
    closes = HourField(label="Work ends at")

    class Meta:
        model = Calendar
        fields = ["name", "supplier", "opens", "closes", "keeps_holidays", "weekdays"]
        labels = {"supplier": "Kept by", "keeps_holidays": "Public holidays are days off"}
        help_texts = {"supplier": "Their lanes are planned on these hours."}
        error_messages = {
            "supplier": {"unique": "This supplier keeps another calendar. Change that one."}
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.choose_supplier()
        for n, name in enumerate(DAYS):
            own = (self.instance.day_hours or {}).get(str(n), ("", ""))
            for end, hour, word in zip(("opens", "closes"), own, ("starts", "ends"), strict=True):
                label = f"{name}: work {word} at"
                field = HourField(label=label, required=False, initial=hour)
                field.widget.attrs["aria-label"] = label
                self.fields[f"{end}_{n}"] = field
        speak_plainly(self)

    def choose_supplier(self) -> None:
        """The project's own calendar is everybody's."""
        if self.instance.is_default:
            del self.fields["supplier"]
            return
        field = self.fields["supplier"]
        assert isinstance(field, forms.ModelChoiceField)
        field.queryset = self.instance.project.suppliers.all()
        field.empty_label = "Nobody in particular"

    @property
    def main(self) -> list[forms.BoundField]:
        return [self[name] for name in self.fields if name[-1] not in "0123456"]

    @property
    def by_day(self) -> list[tuple[str, list[forms.BoundField]]]:
        return [(DAYS[n], [self[f"opens_{n}"], self[f"closes_{n}"]]) for n in range(7)]

    @property
    def differs(self) -> bool:
        """Whether a weekday has hours of its own, or wrong ones."""
        return any(field.value() or field.errors for _, pair in self.by_day for field in pair)

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        self.check_hours(found.get("opens"), found.get("closes"), "closes")
        for n in range(7):
            self.clean_day(found, n)
        return found

    def clean_day(self, found: dict[str, Any], n: int) -> None:
        opens, closes = found.get(f"opens_{n}"), found.get(f"closes_{n}")
        if opens is None and closes is None:
            return
        if "1" not in found.get("weekdays", "1" * 7)[n]:
            said = f"{DAYS[n]} is no working day above. Tick it, or leave its hours empty."
            self.add_error(f"opens_{n}", said)
        for end, hour in (("opens", opens), ("closes", closes)):
            if hour is None and f"{end}_{n}" not in self.errors:
                said = "Fill in both times, or leave both empty."
                self.add_error(f"{end}_{n}", said)
        self.check_hours(opens, closes, f"closes_{n}")

    def check_hours(self, opens: time | None, closes: time | None, name: str) -> None:
        if opens and closes is not None and closes != time(0) and closes <= opens:
            said = f"Work would end before it starts. Choose a time after {opens:%H:%M}."
            self.add_error(name, said)

    @property
    def day_hours(self) -> dict[str, list[str]]:
        """The weekdays whose hours differ from those of the calendar."""
        data = self.cleaned_data
        usual = data["opens"], data["closes"]
        typed = {str(n): (data[f"opens_{n}"], data[f"closes_{n}"]) for n in range(7)}
        return {
            n: [f"{opens:%H:%M}", f"{closes:%H:%M}"]
            for n, (opens, closes) in typed.items()
            if opens is not None and (opens, closes) != usual
        }


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
