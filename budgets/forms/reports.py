"""Up to which day a report is asked for, and the amounts of a fund's budget by category."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from budgets.engine.categories import CATEGORIES
from budgets.models import Fund
from projects.fields import DayField, LongText, MoneyField, Sentences, not_ahead
from projects.words import money

TO_COME = "That day is still to come. Write the day on which it happened."


class AskedForm(Sentences, forms.Form):
    """How a report is wanted; nothing given: up to today, with its cents."""

    to = DayField(label="Up to the end of")
    whole = forms.BooleanField(label="Whole amounts, without cents", required=False)
    final = forms.BooleanField(label="This is the final report", required=False)

    def __init__(self, asked: Mapping[str, Any], *, today: date, federal: bool = False) -> None:
        super().__init__({"to": today.isoformat(), **asked})
        self.today = today
        self.asked = {name: asked[name] for name in self.fields if asked.get(name)}
        if not federal:
            del self.fields["final"]

    @property
    def through(self) -> date:
        found: date | None = self.cleaned_data.get("to")
        return found or self.today

    @property
    def is_whole(self) -> bool:
        return bool(self.cleaned_data.get("whole"))

    @property
    def is_final(self) -> bool:
        return bool(self.cleaned_data.get("final"))


class AmountsForm(Sentences, forms.Form):
    """An amount for each category; empty is nothing."""

    def __init__(self, *args: Any, fund: Fund, amounts: Mapping[str, int], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fund = fund
        for key, label in CATEGORIES.items():
            self.fields[key] = MoneyField(label=label, required=False, initial=amounts.get(key))
        self.order_fields([*CATEGORIES, "reason"])

    def amounts(self) -> dict[str, int]:
        return {key: self.cleaned_data.get(key) or 0 for key in CATEGORIES}

    def money(self, cents: int) -> str:
        return money(cents, self.fund.project.currency)

    def must_add_up_to(self, wanted: int, what: str) -> None:
        off = sum(self.amounts().values()) - wanted
        if off and not self.errors:
            verb = "Take off" if off > 0 else "Add"
            raise ValidationError(
                f"These add up to {self.money(wanted + off)}, {what} is {self.money(wanted)}. "
                f"{verb} {self.money(abs(off))}."
            )


class AgreedForm(AmountsForm):
    """The budget in the fund's own letter; it adds up to the award."""

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        if any(self.amounts().values()):
            self.must_add_up_to(self.fund.award_cents, "the award")
        return values


class ChangeForm(AmountsForm):
    reason = LongText(
        label="Reason",
        required=True,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={
            "required": "Say why, such as: the frame cost less, the lift is needed two days longer."
        },
    )

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        agreed: dict[str, int] = self.fund.approved or {}
        self.must_add_up_to(sum(agreed.values()), "the agreed budget")
        same = all(cents == agreed.get(key, 0) for key, cents in self.amounts().items())
        if same and not self.errors:
            raise ValidationError("Nothing changes yet. Move money from one category to another.")
        return values


class DayForm(Sentences, forms.Form):
    day = DayField(label="On which day")

    def clean_day(self) -> date:
        chosen: date = self.cleaned_data["day"]
        return not_ahead(chosen, self.initial.get("day", chosen), TO_COME)


class AnswerForm(DayForm):
    answer = forms.ChoiceField(
        label="The fund",
        choices=[("agreed", "agreed to it"), ("refused", "refused it")],
        widget=forms.RadioSelect,
        error_messages={"required": "Choose what the fund said."},
    )
