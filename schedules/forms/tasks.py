"""A task, its progress, and the links it waits on."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from django import forms
from django.db.models import Q

from projects.fields import DayField, DaysField, LongText
from projects.models import Project, Stage
from projects.words import day
from schedules.forms.plain import speak_plainly, trim_numbers
from schedules.models import LagClock, Link, Task
from suppliers.models import Order

COMMON = ("name", "lane", "days", "phase")
SHOWN_FIRST = (*COMMON, "waits_for")
LAG_RANGE = {LagClock.WORK: 500, LagClock.ELAPSED: 9000}
LAG_UNIT = {LagClock.WORK: "working days", LagClock.ELAPSED: "hours"}


class TaskForm(forms.ModelForm):  # type: ignore[type-arg]
    days = DaysField(label="Working days", help_text="0 for a moment, such as an opening.")
    low_days = DaysField(label="Days if all goes well", required=False)
    high_days = DaysField(label="Days if it goes badly", required=False)
    not_before = DayField(label="Cannot start before", required=False)
    note = LongText(widget=forms.Textarea(attrs={"rows": 3}))

    class Meta:
        model = Task
        fields = [
            *COMMON,
            "calendar",
            "not_before",
            "low_days",
            "high_days",
            "outdoor",
            "daylight",
            "stage",
            "order",
            "note",
        ]
        labels = {"outdoor": "Outdoors", "daylight": "Needs daylight", "stage": "Stage of a part"}

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        free = Q(task=None) | Q(task=self.instance.pk) if self.instance.pk else Q(task=None)
        stages = Stage.objects.filter(free, part__project=project).select_related("part")
        orders = Order.objects.filter(supplier__project=project).select_related("supplier")
        choices = {
            "lane": (project.lanes, "Choose a lane"),
            "calendar": (project.calendars, "The project’s own"),
            "stage": (stages, "None"),
            "order": (orders, "None"),
        }
        for name, (rows, nothing) in choices.items():
            self.fields[name].queryset = rows.all()  # type: ignore[attr-defined]
            self.fields[name].empty_label = nothing  # type: ignore[attr-defined]
        trim_numbers(self, "days", "low_days", "high_days")
        speak_plainly(self)

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        days, low, high = (found.get(n) for n in ("days", "low_days", "high_days"))
        if days is not None and low is not None and low > days:
            self.add_error("low_days", "This is more than the working days above. Write less.")
        if days is not None and high is not None and high < days:
            self.add_error("high_days", "This is less than the working days above. Write more.")
        return found

    @property
    def common(self) -> list[forms.BoundField]:
        return [self[name] for name in COMMON]

    @property
    def more(self) -> list[forms.BoundField]:
        return [field for field in self.visible_fields() if field.name not in SHOWN_FIRST]

    @property
    def more_is_wrong(self) -> bool:
        return any(field.errors for field in self.more)


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
        others = Task.objects.filter(project_id=task.project_id)
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
