"""A count that may be left open."""

from __future__ import annotations

from typing import Any

from django import forms


class CountField(forms.IntegerField):
    def __init__(self, *, noun: str, most: int, **kwargs: Any) -> None:
        says = f"Write a whole number of {noun} from 1 to {most:,}, or leave it empty."
        super().__init__(
            required=False,
            min_value=1,
            max_value=most,
            widget=forms.TextInput(attrs={"inputmode": "numeric"}),
            error_messages={"invalid": says, "min_value": says, "max_value": says},
            **kwargs,
        )
