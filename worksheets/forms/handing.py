"""What is asked before a result is handed on: to what, and with which amounts."""

from __future__ import annotations

from typing import Any

from django import forms

from projects.fields import Sentences
from schedules import engine
from schedules.forms.plain import explain
from worksheets.selectors.desk import Desk, Effect
from worksheets.selectors.effect import effect

LOOK = "This is what it does to {where} as things stand. Hand it on if that is right."
MEANWHILE = (
    "Something was changed while you had this open. What you typed is still here; look over what "
    "it does to {where} now, and hand it on if that is right."
)


class HandForm(Sentences, forms.Form):
    """``effect`` is what the answers do; they count only once that was seen."""

    effect: Effect | None = None
    wants = "to hand it on"
    schedule_field: str | None = None  # beside which it is said that the plan cannot be laid out

    def __init__(self, *args: Any, desk: Desk, **kwargs: Any) -> None:
        self.desk = desk
        super().__init__(*args, auto_id="hand_%s", **kwargs)
        self.prepare()
        for name, value in self.filled().items():
            self.fields[name].initial = value

    def prepare(self) -> None:
        """The choices of this project."""

    def filled(self) -> dict[str, Any]:
        """What stands in the fields at first."""
        return {}

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        if not self.errors:
            self.check(values)
        if not self.errors:
            self.reckon(values)
        return values

    def check(self, values: dict[str, Any]) -> None:
        """What the answers must agree on."""

    def reckon(self, values: dict[str, Any]) -> None:
        try:
            self.effect = effect(self.desk, values)
        except engine.ScheduleError as error:
            explain(self, error, self.schedule_field)

    @property
    def unseen(self) -> str:
        """Why it must be looked over first; empty when what it does was seen."""
        seen = self.data.get("seen", "")
        if self.effect is None or seen == self.effect.basis:
            return ""
        same = seen.partition(":")[0] == self.effect.target
        return (MEANWHILE if same else LOOK).format(where=self.effect.where)

    def as_opened(self) -> HandForm:
        """The same form sent as it opens: its effect is what is shown at first."""
        data = {bound.html_name: opened(bound) for bound in self}
        found = type(self)(data, desk=self.desk)
        found.is_valid()
        return found


def opened(bound: forms.BoundField) -> Any:
    """What the browser sends of a field that nobody touched."""
    value = bound.field.prepare_value(bound.initial)
    if isinstance(bound.field, forms.BooleanField):
        return "on" if value else ""
    shown = bound.field.widget.format_value(value) or ""
    return next(iter(shown), "") if isinstance(shown, list) else shown
