"""What to try: a task or a key date, by days or to a day; or somebody who is away."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from decimal import Decimal
from functools import cached_property
from typing import Any

from django import forms

from projects.fields import LATEST, DayField
from projects.words import day
from schedules.forms.chooser import Chooser
from schedules.forms.plain import speak_plainly
from schedules.models import KeyDate, KeyDateKind, Lane, Task
from schedules.plan import Rows
from schedules.selectors.trying import Slip
from schedules.selectors.wording import days_words

MOST_DAYS = 500
RANGE = f"Write a number of days between −{MOST_DAYS} and {MOST_DAYS}, and not 0."
MEANING = {
    "key": ("Moves by calendar days", "Or moves to", "Less than 0 for earlier."),
    "lane": ("Away for calendar days", "From the day", ""),
    "task": (
        "Takes longer by working days",
        "Or cannot start before",
        "Less than 0 for earlier or shorter.",
    ),
}


class SignedDays(forms.DecimalField):
    """Days more or less; a minus may be the typographer's own."""

    def to_python(self, value: Any) -> Any:
        return super().to_python(str(value or "").replace("−", "-"))


class ChangeForm(forms.Form):
    """One change of an option; blank, it says nothing."""

    what = forms.ChoiceField(
        label="What slips", widget=Chooser, error_messages={"required": "Choose one."}
    )
    days = SignedDays(
        label="By days",
        required=False,
        decimal_places=2,
        widget=forms.TextInput(attrs={"inputmode": "decimal"}),
        error_messages={"invalid": RANGE, "max_decimal_places": "Write at most two decimals."},
    )
    on = DayField(label="Or to a day", required=False)

    def __init__(self, data: Mapping[str, str] | None, *, offered: Offered, prefix: str) -> None:
        super().__init__(data, prefix=prefix, empty_permitted=True, use_required_attribute=False)
        self.offered, self.rows = offered, offered.rows
        self.fields["what"].choices = offered.choices  # type: ignore[attr-defined]
        speak_plainly(self)
        gone = "Choose one from the list. What is finished can no longer slip."
        self.fields["what"].error_messages["invalid_choice"] = gone
        self.name_fields(str(self["what"].value() or ""))

    def name_fields(self, chosen: str) -> None:
        """Say what the two fields mean for what was chosen."""
        days, on, help_text = MEANING.get(chosen.split("-")[0], MEANING["task"])
        self.fields["days"].label = days
        self.fields["days"].help_text = help_text
        self.fields["on"].label = on

    def clean_days(self) -> Decimal | None:
        days: Decimal | None = self.cleaned_data["days"]
        if days is not None and (abs(days) > MOST_DAYS or days == 0):
            raise forms.ValidationError(RANGE)
        return days

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        chosen = self.offered.found.get(found.get("what") or "")
        if chosen is None or self.errors:
            return found
        if isinstance(chosen, Lane):
            self.clean_lane(found)
        elif found.get("days") is not None and found.get("on"):
            self.add_error("on", "Fill in only one of the two: the days, or the day.")
        elif isinstance(chosen, KeyDate):
            self.clean_key_date(chosen, found)
        else:
            self.clean_task(chosen, found)
        return found

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

    def clean_lane(self, found: dict[str, Any]) -> None:
        days, on = found.get("days"), found.get("on")
        if days is not None and (days < 1 or days != int(days)):
            self.add_error("days", "Write how many days in a row, such as 5.")
        elif days is not None and on is None:
            self.add_error("on", "Choose the first day away.")
        elif on and on < self.rows.today:
            self.add_error("on", f"{day(self.rows.today)} is the earliest day that can be tried.")

    @cached_property
    def slip(self) -> Slip | None:
        """The change that was asked for; None while it is incomplete or wrong."""
        if not self.is_bound or not self.is_valid():
            return None
        what, days, on = (self.cleaned_data.get(n) for n in ("what", "days", "on"))
        chosen = self.offered.found.get(what or "")
        if chosen is None or (days is None and on is None):
            return None
        if isinstance(chosen, Lane):
            return Slip(lane=chosen, days=days, on=on)
        if isinstance(chosen, KeyDate):
            return Slip(key_date=chosen, days=days, on=on)
        return Slip(task=chosen, days=days, on=on)


class Offered:
    """What can be chosen in every row of the page, read and laid out once."""

    def __init__(self, rows: Rows) -> None:
        self.rows = rows
        open_tasks = [t for t in rows.tasks if not t.finished_on]
        lanes = {t.lane_id: t.lane for t in open_tasks if not t.calendar_id}
        self.found: dict[str, KeyDate | Task | Lane] = {
            **{f"key-{k.pk}": k for k in rows.key_dates},
            **{f"task-{t.pk}": t for t in open_tasks},
            **{f"lane-{pk}": lane for pk, lane in lanes.items()},
        }
        self.choices = [("", "Choose a key date, a task or who is away"), *self.groups()]

    def groups(self) -> list[Any]:
        shown = [(key, self.label(row)) for key, row in self.found.items()]
        groups = [
            (title, [pair for pair in shown if pair[0].startswith(start)])
            for title, start in (("Key dates", "key-"), ("Tasks", "task-"), ("Away", "lane-"))
        ]
        return [(title, pairs) for title, pairs in groups if pairs]

    def label(self, row: KeyDate | Task | Lane) -> str:
        if isinstance(row, KeyDate):
            return f"{row.name}, {day(row.on)}"
        return f"{row.name} ({row.lane})" if isinstance(row, Task) else f"{row} is away"
