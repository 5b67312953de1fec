"""What to try: a task or a key date, by days or to a day."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

from django import forms

from projects.fields import LATEST, DayField
from projects.words import day
from schedules.forms.plain import speak_plainly
from schedules.models import KeyDate, KeyDateKind, Task
from schedules.plan import Rows
from schedules.selectors.slip import Slip
from schedules.selectors.wording import days_words

MOST_DAYS = 500
RANGE = f"Write a number of days between −{MOST_DAYS} and {MOST_DAYS}, and not 0."


class SlipForm(forms.Form):
    what = forms.ChoiceField(label="What slips", error_messages={"required": "Choose one."})
    days = forms.DecimalField(
        label="By days",
        required=False,
        decimal_places=2,
        widget=forms.TextInput(attrs={"inputmode": "decimal"}),
        error_messages={"invalid": RANGE, "max_decimal_places": "Write at most two decimals."},
    )
    on = DayField(label="Or to a day", required=False)

    def __init__(self, *args: Any, rows: Rows, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.rows = rows
        self.fields["what"].choices = choices(rows)  # type: ignore[attr-defined]
        speak_plainly(self)
        gone = "Choose one from the list. What is finished can no longer slip."
        self.fields["what"].error_messages["invalid_choice"] = gone
        chosen = str(self["what"].value() or "")
        self.name_fields(chosen)

    def name_fields(self, chosen: str) -> None:
        """Say what the two fields mean for what was chosen."""
        if chosen.startswith("key-"):
            self.fields["days"].label = "Moves by calendar days"
            self.fields["on"].label = "Or moves to"
        else:
            self.fields["days"].label = "Takes longer by working days"
            self.fields["on"].label = "Or cannot start before"
        self.fields["days"].help_text = "Less than 0 for earlier or shorter."

    def clean_days(self) -> Decimal | None:
        days: Decimal | None = self.cleaned_data["days"]
        if days is not None and (abs(days) > MOST_DAYS or days == 0):
            raise forms.ValidationError(RANGE)
        return days

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        what = found.get("what")
        if not what or self.errors:
            return found
        if found.get("days") is not None and found.get("on"):
            self.add_error("on", "Fill in only one of the two: the days, or the day.")
        elif what.startswith("key-"):
            self.clean_key_date(self.key_date(what), found)
        else:
            self.clean_task(self.task(what), found)
        return found

    def key_date(self, what: str) -> KeyDate:
        return next(k for k in self.rows.key_dates if f"key-{k.pk}" == what)

    def task(self, what: str) -> Task:
        return next(t for t in self.rows.tasks if f"task-{t.pk}" == what)

    def clean_key_date(self, key_date: KeyDate, found: dict[str, Any]) -> None:
        days = found.get("days")
        if days is not None and days != int(days):
            self.add_error("days", "A date moves by whole days. Write a number such as 7.")
            return
        on = found.get("on") or (key_date.on + timedelta(days=int(days)) if days else None)
        if on and on > LATEST:
            self.add_error("days", "Choose a day before the year 2101.")
        if on and key_date.kind == KeyDateKind.PUBLIC and on < self.rows.today:
            said = f"A public date cannot be in the past. {day(self.rows.today)} is the earliest."
            self.add_error("on" if found.get("on") else "days", said)

    def clean_task(self, task: Task, found: dict[str, Any]) -> None:
        days = found.get("days")
        if found.get("on") and task.started_on:
            self.add_error("on", f"“{task}” has started. Say how many days longer it takes.")
        elif days is not None and task.days + days < 0:
            said = (
                f"“{task}” takes {days_words(task.days)}, so it can be at most that much shorter."
            )
            self.add_error("days", said)
        elif days is not None and task.days + days > 999:
            self.add_error("days", "That makes more than 999 working days. Split the task.")

    def slip(self) -> Slip | None:
        """The slip that was asked for; None while it is incomplete or wrong."""
        if not self.is_bound or not self.is_valid():
            return None
        what, days, on = (self.cleaned_data.get(n) for n in ("what", "days", "on"))
        if days is None and on is None:
            return None
        if str(what).startswith("key-"):
            return Slip(key_date=self.key_date(str(what)), days=days, on=on)
        return Slip(task=self.task(str(what)), days=days, on=on)


def choices(rows: Rows) -> list[Any]:
    dates = [(f"key-{k.pk}", f"{k.name}, {day(k.on)}") for k in rows.key_dates]
    tasks = [(f"task-{t.pk}", f"{t.name} ({t.lane})") for t in rows.tasks if not t.finished_on]
    return [("", "Choose a key date or a task"), ("Key dates", dates), ("Tasks", tasks)]
