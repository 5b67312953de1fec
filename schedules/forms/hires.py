"""A hire or supervision: from the first of some tasks to the last of others."""

from __future__ import annotations

from typing import Any

from django import forms

from projects.fields import LongText, MoneyField
from projects.models import Project
from schedules.forms.plain import focus_first, speak_plainly
from schedules.forms.several import Several
from schedules.models import Hammock, Task
from suppliers.models import Order


class TaskChoices(Several):
    def __init__(self, label: str, required: str) -> None:
        errors = {"required": required, "invalid_choice": "Choose tasks of this project."}
        super().__init__(Task.objects.none(), label=label, error_messages=errors)


class HireForm(forms.ModelForm):  # type: ignore[type-arg]
    day_cents = MoneyField(
        label="Cost of a day",
        required=False,
        help_text="Of each working day of its lane. Empty: it costs nothing by the day.",
    )
    from_tasks = TaskChoices("Begins with the first of", "Choose the task that it begins with.")
    to_tasks = TaskChoices("Ends with the last of", "Choose the task that it ends with.")
    note = LongText(widget=forms.Textarea(attrs={"rows": 2}))

    class Meta:
        model = Hammock
        fields = ["name", "lane", "from_tasks", "to_tasks", "order", "day_cents", "note"]

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        orders = Order.objects.filter(supplier__project=project).select_related("supplier")
        tasks = project.tasks.all()
        choices = {
            "lane": project.lanes.all(),
            "order": orders,
            "from_tasks": tasks,
            "to_tasks": tasks,
        }
        for name, rows in choices.items():
            self.fields[name].queryset = rows  # type: ignore[attr-defined]
        self.fields["lane"].empty_label = "Choose a lane"  # type: ignore[attr-defined]
        self.fields["order"].empty_label = "None"  # type: ignore[attr-defined]
        self.fields["name"].widget.attrs["placeholder"] = "such as: Platform lift hire"
        speak_plainly(self)
        focus_first(self)
