"""One answer to an update: what happened, and on which day."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms

from projects.fields import DayField, DaysField
from projects.words import day
from schedules.forms.plain import speak_plainly
from schedules.models import Task

ANSWERS = ("started", "finished", "left", "not_yet")
IS_DONE = "It is finished already. Take that answer back, or change it in the schedule."


class AnswerForm(forms.Form):
    """``answer`` comes from a button, such as ``started:2026-10-24``; its day may be typed."""

    answer = forms.CharField(required=False, widget=forms.HiddenInput)
    on = DayField(label="On another day", required=False)
    left = DaysField(label="Working days left", required=False)

    def __init__(self, *args: Any, task: Task, today: date, **kwargs: Any) -> None:
        kwargs.setdefault("auto_id", f"ask-{task.pk}-%s")
        super().__init__(*args, **kwargs)
        self.task, self.today = task, today

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        verb, *days = found.get("answer", "").split(":")
        found["verb"], found["begun"] = verb, None
        if verb not in ANSWERS:
            self.add_error(None, "Press one of the answers.")
        elif self.task.finished_on:
            self.add_error(None, IS_DONE)
        elif verb == "left":
            self.check_left(found)
        elif verb != "not_yet" and not self.errors:
            self.check_day(found, verb, days)
        return found

    def check_left(self, found: dict[str, Any]) -> None:
        if not self.task.started_on:
            self.add_error("left", "Say first when it started.")
        elif "left" in self.errors:
            return
        elif found.get("left") is None:
            self.add_error("left", "Write how many working days are left, such as 3 or 1.5.")
        elif found["left"] == 0:
            self.add_error("left", "Nothing is left? Then say when it was finished.")

    def check_day(self, found: dict[str, Any], verb: str, days: list[str]) -> None:
        """The day of the button, else the typed one; a finish may bring a start along."""
        on, *more = [pressed(text) for text in days] or [found.get("on")]
        started = self.task.started_on
        if on is None:
            self.add_error("on", "Choose the day on which it happened.")
        elif on > self.today:
            said = f"That day is still to come. Choose today, {day(self.today)}, or earlier."
            self.add_error("on", said)
        elif verb == "finished" and started and on < started:
            self.add_error("on", f"It started on {day(started)}; this day is before it.")
        found["on"], found["begun"] = on, next(iter(more), None)


def pressed(text: str) -> date | None:
    try:
        return DayField().clean(text)
    except forms.ValidationError:
        return None


class AheadForm(forms.Form):
    """Why work that was begun early need not wait."""

    reason = forms.CharField(
        label="Why it need not wait",
        max_length=200,
        error_messages={"required": "Write why, so that others can follow it later."},
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        speak_plainly(self)
