"""Quantities as people write them: hours, miles, days, pieces; kept in hundredths."""

from __future__ import annotations

import re
from datetime import time
from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

MOST = 100_000_00
FIGURE = re.compile(r"(?P<whole>\d{1,3}(?:,\d{3})+|\d*)(?:\.(?P<part>\d{1,2}))?", re.ASCII)
CLOCK = re.compile(
    r"(?P<hour>\d{1,2})(?:[:.h](?P<minute>\d{2}))?\s*(?P<half>am|pm)?", re.IGNORECASE
)
HALVES = {"am": 0, "pm": 12}


class HundredthsField(forms.CharField):
    """“2”, “2.5”, “1,200.25”; cleans to hundredths."""

    def __init__(self, *, example: str = "2.5", **kwargs: Any) -> None:
        kwargs.setdefault("widget", forms.TextInput(attrs={"inputmode": "decimal", "size": 8}))
        super().__init__(**kwargs)
        self.example = example
        self.error_messages["required"] = f"Write a number, such as {example}."

    def prepare_value(self, value: Any) -> Any:
        return plain(value) if isinstance(value, int) else value

    def clean(self, value: Any) -> int | None:
        text = str(super().clean(value) or "").strip()
        if not text:
            return None
        found = FIGURE.fullmatch(text)
        if not found or not any(found.groups()):
            raise ValidationError(
                f"Write a number of at most two decimals with a point, such as {self.example}."
            )
        hundredths = int(Decimal(text.replace(",", "") if text[0] != "." else f"0{text}") * 100)
        if not 0 < hundredths <= MOST:
            raise ValidationError("Write a number above zero, and at most 100,000.")
        return hundredths


def plain(hundredths: int) -> str:
    """``250`` gives “2.5”."""
    whole, rest = divmod(hundredths, 100)
    return f"{whole}" + (f".{rest:02d}".rstrip("0") if rest else "")


class ClockField(forms.TimeField):
    """A time of day: from the browser's own picker, or typed as 9, 9:30 or 1:30 pm."""

    widget = forms.TimeInput(attrs={"type": "time"}, format="%H:%M")

    def to_python(self, value: Any) -> time | None:
        if isinstance(value, time) or value in (None, ""):
            return value or None
        found = CLOCK.fullmatch(str(value).strip())
        if found:
            hour, half = int(found["hour"]), (found["half"] or "").lower()
            hour = hour % 12 + HALVES[half] if half and hour <= 12 else hour
            minute = int(found["minute"] or 0)
            if hour < 24 and minute < 60:
                return time(hour, minute)
        raise ValidationError("Write a time such as 9:30 or 14:00.")
