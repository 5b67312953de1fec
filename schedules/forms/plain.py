"""What all forms of the schedule share: errors in plain sentences, choices of one project."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import NON_FIELD_ERRORS

from schedules import engine
from schedules.models import Calendar, Task
from schedules.plan.rows import LIT

TOO_LONG = "Use at most %(limit_value)d characters; this has %(show_value)d."
NO_SUCH = "Choose one from the list."


def speak_plainly(form: forms.BaseForm) -> None:
    """Django's own messages, said as sentences that name what would be right."""
    for field in form.fields.values():
        messages = field.error_messages
        if isinstance(field, forms.CharField):
            messages["max_length"] = TOO_LONG
        if isinstance(field, forms.TimeField):
            messages["invalid"] = "Write a time of day, such as 08:00 or 18:30."
        if isinstance(field, (forms.ChoiceField, forms.ModelChoiceField)):
            messages["invalid_choice"] = NO_SUCH
        if messages.get("required", "").startswith("This field"):
            messages["required"] = f"Fill in “{field.label}”."


def trim_numbers(form: forms.BaseForm, *names: str) -> None:
    """Show a stored number of days without the zeros that say nothing: 10, not 10.00."""
    for name in names:
        value = form.initial.get(name)
        if isinstance(value, Decimal):
            form.initial[name] = f"{value.normalize():f}"


def focus_first(form: forms.BaseForm) -> None:
    """The field that the cursor goes to when the form is opened in place."""
    first = next(iter(form.fields.values()))
    first.widget.attrs["data-focus"] = "1"


def explain(form: forms.BaseForm, error: engine.ScheduleError, field: str | None = None) -> None:
    """Say beside the field why the plan cannot be computed."""
    form.add_error(field if field in form.fields else NON_FIELD_ERRORS, sentence(error))


def sentence(error: engine.ScheduleError) -> str:
    if isinstance(error, engine.Cycle):
        names = task_names(error.activities)
        return f"This link would make a loop: {', '.join([*names, names[0]])}."
    if isinstance(error, engine.NoWorkingTime):
        return f"{calendar_name(error.calendar)} has too few working days for this plan."
    if isinstance(error, engine.DuplicateLink):
        return "These two tasks are already joined in this way."
    return "The plan cannot be laid out with this, so nothing was changed."


def task_names(keys: Any) -> list[str]:
    names = dict(Task.objects.filter(pk__in=keys).values_list("pk", "name"))
    return [names.get(int(key), "a task") for key in keys]


def calendar_name(key: str) -> str:
    own = key.removesuffix(LIT)
    found = Calendar.objects.filter(pk=own).first() if own.isdigit() else None
    return f"The calendar “{found}”" if found else "The calendar"
