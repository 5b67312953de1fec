"""A reason, asked for wherever a date is moved or a plan is kept."""

from __future__ import annotations

from typing import Any

from django import forms

from schedules.forms.plain import speak_plainly


class ReasonForm(forms.Form):
    reason = forms.CharField(
        label="Reason",
        max_length=300,
        error_messages={"required": "Write why, so that others can follow it later."},
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        speak_plainly(self)
