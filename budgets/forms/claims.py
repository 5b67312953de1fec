"""Prepare, file, send back, pay and correct a claim."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms

from budgets.models import ClaimKind, Income
from projects.fields import DayField, LongText, MoneyField, Sentences, ShortText, not_ahead
from projects.words import day_year


class Past(Sentences):
    """A day that must not be still to come."""

    today: date
    cleaned_data: dict[str, Any]

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today

    def past(self, name: str, what: str) -> date:
        chosen: date = self.cleaned_data[name]
        says = f"{day_year(chosen)} is still to come. {what}: choose today or an earlier day."
        return not_ahead(chosen, self.today, says)


class Dated(Past, forms.Form):
    pass


class ClaimForm(Dated):
    to_day = DayField(label="Everything paid until")
    kind = forms.ChoiceField(label="What it is", choices=ClaimKind.choices)
    is_final = forms.BooleanField(
        label="It is the last one, and asks for what was held back", required=False
    )

    def clean_to_day(self) -> date:
        return self.past("to_day", "A claim takes what is paid")

    def chosen(self) -> dict[str, Any]:
        values = self.cleaned_data
        return {"through": values["to_day"], "final": values["is_final"], "kind": values["kind"]}


class FileForm(Dated):
    filed_on = DayField(label="Filed on")
    expected_on = DayField(
        label="The money should come on",
        required=False,
        help_text="Empty: as long after as the fund's rules say.",
    )
    note = LongText(label="Reference or note", widget=forms.Textarea(attrs={"rows": 2}))

    def clean_filed_on(self) -> date:
        return self.past("filed_on", "A claim is filed once it is sent")

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        filed, expected = values.get("filed_on"), values.get("expected_on")
        if filed and expected and expected < filed:
            self.add_error(
                "expected_on",
                f"It is filed on {day_year(filed)}. Its money comes on that day or later.",
            )
        return values


class BackForm(Sentences, forms.Form):
    reason = ShortText(label="Why it came back", max_length=240)


class PaidForm(Dated):
    cents = MoneyField(label="Amount", min_cents=1)
    day = DayField(label="Came on")
    what = ShortText(label="Note", max_length=200, required=False)

    def clean_day(self) -> date:
        return self.past("day", "Money is logged once it has come")


class CorrectForm(Sentences, forms.Form):
    cents = MoneyField(label="Take back", min_cents=1)
    reason = ShortText(label="Why", max_length=240)


class IncomeForm(Past, forms.ModelForm):  # type: ignore[type-arg]
    """Money of a fund that belongs to no claim: an advance, a gift, a sponsorship."""

    cents = MoneyField(label="Amount", min_cents=1)
    day = DayField(label="Came on")

    class Meta:
        model = Income
        fields = ("cents", "day", "what")
        labels = {"what": "What it is"}

    def clean_day(self) -> date:
        return self.past("day", "Money is logged once it has come")


class PaidBackForm(IncomeForm):
    """What a fund gets back of what it paid: stored below zero, typed as it is said."""

    class Meta(IncomeForm.Meta):
        labels = {"what": "Reference of the payment"}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["day"].label = "Paid back on"
        if self.instance.cents:
            self.initial["cents"] = abs(self.instance.cents)

    def clean_cents(self) -> int:
        return -int(self.cleaned_data["cents"])

    def clean_day(self) -> date:
        return self.past("day", "It is logged once it is paid")
