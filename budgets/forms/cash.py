"""What the balance starts from, how low it may get, and what a loan costs."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from django import forms

from budgets.models import CashBook
from projects.fields import DayField, MoneyField, Sentences, not_ahead
from projects.words import day as in_words

YEARS = ((365, "365 days"), (360, "360 days"))


class CashForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    opening_cents = MoneyField(
        label="In the account", help_text="What the bank shows in the evening of the day before."
    )
    opening_on = DayField(label="When the day begins")
    floor_cents = MoneyField(label="Keep at least", required=False)
    rate = forms.DecimalField(
        label="Interest on a loan, percent a year",
        required=False,
        min_value=0,
        max_value=60,
        decimal_places=2,
        widget=forms.TextInput(attrs={"inputmode": "decimal", "size": 6}),
        error_messages={
            "invalid": "Write a percent, such as 9 or 8.5.",
            "min_value": "A percent is 0 or more.",
            "max_value": "More than 60 percent a year is no loan to take. Check it.",
            "max_decimal_places": "Write at most two decimals, such as 8.25.",
        },
    )
    loan_basis = forms.TypedChoiceField(label="The lender's year has", coerce=int, choices=YEARS)
    step_cents = MoneyField(label="A loan comes in steps of", required=False)

    class Meta:
        model = CashBook
        fields = ("opening_cents", "opening_on", "floor_cents", "loan_basis", "step_cents")

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        points = self.instance.loan_basis_points
        self.fields["rate"].initial = Decimal(points).scaleb(-2).normalize() if points else None

    def clean_opening_on(self) -> date:
        chosen: date = self.cleaned_data["opening_on"]
        return not_ahead(
            chosen,
            self.today,
            f"{in_words(chosen)} is still to come. Choose today or an earlier day: the balance "
            "goes on from there by what is logged.",
        )

    def clean_floor_cents(self) -> int:
        return self.cleaned_data["floor_cents"] or 0

    def clean_step_cents(self) -> int:
        return self.cleaned_data["step_cents"] or 1

    def values(self) -> dict[str, Any]:
        found = {name: self.cleaned_data[name] for name in self.Meta.fields}
        return {**found, "loan_basis_points": int((self.cleaned_data["rate"] or 0) * 100)}
