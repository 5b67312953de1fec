"""A task, and how far it is."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.db.models import Q

from projects.fields import DayField, DaysField, LongText, MoneyField
from projects.models import Project, Stage
from projects.words import day
from schedules.forms import task_rules as rules
from schedules.forms.plain import speak_plainly, trim_numbers
from schedules.forms.several import Several
from schedules.models import Lane, Task
from suppliers.models import Order

COMMON = ("name", "lane", "days", "phase")
GROUPS = {
    "When it can happen": (
        "calendar",
        "not_before",
        "not_before_reason",
        "outdoor",
        "daylight",
        "closes",
        "ahead_reason",
    ),
    "How sure the days are": ("low_days", "high_days", "returns_percent", "returns_days"),
    "Whose hands it takes": ("also", "waits"),
    "If it had to be shorter": ("crash_days", "crash_day_cents"),
    "What it belongs to": ("stage", "order", "note"),
}
WHOLE = forms.TextInput(attrs={"inputmode": "numeric", "size": 4})


def whole(said: str, **kwargs: Any) -> forms.IntegerField:
    codes = ("invalid", "min_value", "max_value")
    errors = dict.fromkeys(codes, said)
    return forms.IntegerField(required=False, widget=WHOLE, error_messages=errors, **kwargs)


class TaskForm(forms.ModelForm):  # type: ignore[type-arg]
    days = DaysField(label="Working days", help_text="0 for a moment, such as an opening.")
    low_days = DaysField(label="Days if all goes well", required=False)
    high_days = DaysField(label="Days if it goes badly", required=False)
    returns_percent = whole(
        "Write a whole number from 0 to 100, such as 30.",
        label="Comes back for changes, % of times",
        min_value=0,
        max_value=100,
    )
    returns_days = DaysField(label="Days that each return takes", required=False)
    crash_days = whole(
        "Write a whole number of days, such as 2.",
        label="Shorter by at most, days",
        min_value=1,
        max_value=998,
    )
    crash_day_cents = MoneyField(
        label="At so much a day",
        required=False,
        help_text="Overtime, a second shift, a dearer courier. 0 if it costs nothing.",
    )
    not_before = DayField(label="Cannot start before", required=False)
    note = LongText(widget=forms.Textarea(attrs={"rows": 3}))
    also = Several(
        Lane.objects.none(),
        label="Also needs",
        required=False,
        error_messages={"invalid_choice": "Choose lanes of this project."},
    )

    class Meta:
        model = Task
        fields = [*COMMON, *(name for names in GROUPS.values() for name in names)]
        labels = {
            "outdoor": "Outdoors",
            "daylight": "Needs daylight",
            "stage": "Stage of a part",
            "waits": "A wait: takes nobody’s hands",
            "closes": "Closes what goes before it",
            "not_before_reason": "Because",
            "ahead_reason": "Goes on regardless of what it waits for, because",
        }
        help_texts = {
            "waits": "A review, or a delivery that is under way.",
            "closes": "For 0 days only. “Frame is done” then shows the Friday on which the work "
            "ends; “handover may begin” shows the Monday after it.",
        }

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        free = Q(task=None) | Q(task=self.instance.pk) if self.instance.pk else Q(task=None)
        stages = Stage.objects.filter(free, part__project=project).select_related("part")
        orders = Order.objects.filter(supplier__project=project).select_related("supplier")
        choices = {
            "lane": (project.lanes, "Choose a lane"),
            "calendar": (project.calendars, "That of its lane"),
            "stage": (stages, "None"),
            "order": (orders, "None"),
            "also": (project.lanes, None),
        }
        for name, (rows, nothing) in choices.items():
            self.fields[name].queryset = rows.all()  # type: ignore[attr-defined]
            self.fields[name].empty_label = nothing  # type: ignore[attr-defined]
        if not self.instance.started_on or self.instance.finished_on:
            del self.fields["ahead_reason"]
        trim_numbers(self, "days", "low_days", "high_days", "returns_days")
        speak_plainly(self)

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        for rule in rules.RULES:
            for name, said in rule(found, self.instance):
                self.add_error(name, said)
        return found

    @property
    def common(self) -> list[forms.BoundField]:
        return [self[name] for name in COMMON]

    @property
    def groups(self) -> list[tuple[str, list[forms.BoundField]]]:
        return [
            (heading, [self[name] for name in names if name in self.fields])
            for heading, names in GROUPS.items()
        ]

    @property
    def more_is_wrong(self) -> bool:
        return any(field.errors for _, fields in self.groups for field in fields)


class NewTaskForm(TaskForm):
    waits_for = forms.ModelChoiceField(
        Task.objects.none(),
        required=False,
        label="Starts after",
        empty_label="Nothing: it can start at once",
        help_text="More links, and waits such as a cure, can be added once it is there.",
    )

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, project=project, **kwargs)
        self.fields["waits_for"].queryset = project.tasks.all()  # type: ignore[attr-defined]

    @property
    def common(self) -> list[forms.BoundField]:
        return [*super().common, self["waits_for"]]


class ProgressForm(forms.ModelForm):  # type: ignore[type-arg]
    started_on = DayField(label="Started on", required=False)
    finished_on = DayField(label="Finished on", required=False)
    remaining_days = DaysField(
        label="Working days left", required=False, help_text="For a task that is under way."
    )

    class Meta:
        model = Task
        fields = ["started_on", "finished_on", "remaining_days"]

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        trim_numbers(self, "remaining_days")

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        started, finished = found.get("started_on"), found.get("finished_on")
        for name in ("started_on", "finished_on"):
            if found.get(name) and found[name] > self.today:
                said = f"That day is still to come. Write today, {day(self.today)}, or earlier."
                self.add_error(name, said)
        if started and finished and finished < started:
            self.add_error("finished_on", f"It started on {day(started)}; this day is before it.")
        if found.get("remaining_days") is not None and (finished or not started):
            said = "Only a task that has started and is not finished has days left. Leave it empty."
            self.add_error("remaining_days", said)
        return found
