"""How the best fit is asked for, and which of its changes are accepted."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from django import forms
from django.http import QueryDict

from budgets.fit.wish import Wish
from projects.fields import MoneyField, Sentences

STANDARD = Wish()


class WishForm(Sentences, forms.Form):
    """The switches. Asked for without any, it stands as it usually is."""

    forecasts = forms.BooleanField(required=False, label="Plan for what is still to be spent")
    strict = forms.BooleanField(
        required=False, label="Count a cent as match once only, whatever the funds allow"
    )
    whole = forms.BooleanField(required=False, label="Split no expense between funds")
    offered = forms.BooleanField(
        required=False, label="What if: the funds that are offered were signed"
    )
    least = MoneyField(required=False, label="Smallest amount worth charging")

    def __init__(self, data: QueryDict, **kwargs: Any) -> None:
        standing = {name: value for name, value in STANDARD.as_words().items() if name != "asked"}
        super().__init__(data if data.get("asked") else standing, **kwargs)

    def cannot_keep_whole(self, choices: int, most: int) -> None:
        self.add_error(
            "whole",
            f"That is for small projects: it takes {choices:,} choices, {most:,} at most. "
            "Here expenses are split.",
        )

    def wish(self) -> Wish:
        """What was asked for; where an amount cannot be read, the usual one."""
        values = self.cleaned_data if self.errors or self.is_valid() else {}
        given = {name: value for name, value in values.items() if value is not None}
        return Wish(**given)

    @property
    def query(self) -> str:
        return urlencode(self.wish().as_words())

    @property
    def turned(self) -> bool:
        """Whether anything is asked for that is not usual."""
        return self.wish() != STANDARD


def chosen(data: QueryDict) -> set[int]:
    """The expenses whose changes were ticked."""
    return {int(pk) for pk in data.getlist("change") if pk.isascii() and pk.isdigit()}
