"""A packet's reader, due day and limits."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django import forms

from packets.forms.counts import CountField
from packets.models import Packet
from projects.fields import DayField, Sentences, ShortText

MEGABYTE = 1_000_000


class MegabytesField(forms.DecimalField):
    """A size as people write it: “5”. Cleans to bytes."""

    def __init__(self, **kwargs: Any) -> None:
        says = "Write the size in megabytes, such as 5, or leave it empty."
        super().__init__(
            required=False,
            min_value=Decimal("0.1"),
            max_value=Decimal(500),
            widget=forms.TextInput(attrs={"inputmode": "decimal"}),
            error_messages={"invalid": says, "min_value": says, "max_value": says},
            **kwargs,
        )

    def prepare_value(self, value: Any) -> Any:
        return f"{value / MEGABYTE:g}" if isinstance(value, int) else value

    def clean(self, value: Any) -> int | None:
        found = super().clean(value)
        return int(found * MEGABYTE) if found is not None else None


class PacketForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    title = ShortText(label="Title", max_length=160)
    reader = ShortText(
        label="Who it is for", max_length=160, required=False, help_text="A board, a city, a fund."
    )
    due_on = DayField(label="Due", required=False)
    max_pages = CountField(noun="pages", most=500, label="Pages at most")
    max_bytes = MegabytesField(label="Megabytes at most")

    class Meta:
        model = Packet
        fields = ("title", "reader", "due_on", "max_pages", "max_bytes")
