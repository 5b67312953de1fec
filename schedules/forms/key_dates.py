"""A key date: the public date, a hearing, a slot, an expiry."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms

from projects.fields import DayField
from projects.models import Project
from projects.words import day
from schedules.forms.plain import focus_first, speak_plainly
from schedules.models import KeyDate, KeyDateEffect, KeyDateKind


class KeyDateForm(forms.ModelForm):  # type: ignore[type-arg]
    on = DayField(label="Day")
    at = forms.TimeField(
        label="Time",
        required=False,
        widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
    )

    class Meta:
        model = KeyDate
        fields = ["name", "kind", "on", "at", "task", "effect", "reason", "movable"]
        labels = {
            "movable": "It may be moved",
            "effect": "What it does to the task",
            "reason": "Because",
        }

    def __init__(self, *args: Any, project: Project, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.project, self.today = project, today
        self.day_before = self.instance.on
        self.fields["task"].queryset = project.tasks.all()  # type: ignore[attr-defined]
        self.fields["task"].empty_label = "No task"  # type: ignore[attr-defined]
        self.fields["reason"].widget.attrs["placeholder"] = "such as: the board meets monthly"
        speak_plainly(self)
        focus_first(self)

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        if found.get("kind") == KeyDateKind.PUBLIC:
            self.clean_public(found)
        effect, task = found.get("effect"), found.get("task")
        if effect and effect != KeyDateEffect.NONE and not task:
            self.add_error("task", "Choose the task that this date acts on.")
        if effect == KeyDateEffect.EVENT and task:
            self.clean_event(task)
        if {"task", "effect"} & set(self.changed_data):
            self.clean_finished(task, effect)
        return found

    def clean_public(self, found: dict[str, Any]) -> None:
        others = KeyDate.objects.filter(project=self.project, kind=KeyDateKind.PUBLIC)
        other = others.exclude(pk=self.instance.pk).first()
        if other:
            self.add_error("kind", f"The public date is already “{other}”. Change that one.")
        on = found.get("on")
        if on and on < self.today and on != self.day_before:
            said = f"A public date cannot be in the past. Choose {day(self.today)} or later."
            self.add_error("on", said)
        if found.get("task") and found.get("effect") != KeyDateEffect.EVENT:
            said = "A public date’s task happens on it. Choose “the task happens on it”."
            self.add_error("effect", said)

    def clean_event(self, task: Any) -> None:
        others = task.key_dates.filter(effect=KeyDateEffect.EVENT).exclude(pk=self.instance.pk)
        if other := others.first():
            self.add_error("task", f"“{task}” already happens on “{other}”.")
        if task.closes:
            said = (
                f"“{task}” closes what goes before it. Say there that it does not, then try again."
            )
            self.add_error("task", said)

    def clean_finished(self, task: Any, effect: str | None) -> None:
        """A date cannot act on what has happened."""
        if task and task.finished_on and effect != KeyDateEffect.NONE:
            said = (
                f"“{task}” was finished on {day(task.finished_on)}: no date can act on it. "
                "Choose “only shown on the plan”, or another task."
            )
            self.add_error("effect", said)
