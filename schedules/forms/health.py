"""Why a date or a wait is as it is."""

from __future__ import annotations

from typing import Any

from django import forms

from schedules.forms.plain import speak_plainly

EMPTY = "Write why, so that others can follow it later."


class WhyForm(forms.Form):
    def __init__(self, *args: Any, longest: int, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["reason"] = forms.CharField(
            label="Why", max_length=longest, error_messages={"required": EMPTY}
        )
        speak_plainly(self)
