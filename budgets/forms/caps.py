"""The caps of a fund: rows of a category and the most that may be paid for it."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django import forms

from budgets.engine.money import percent
from budgets.models import CATEGORY_CHOICES, FundRule
from budgets.services.funds import RuleValues, rule_values
from projects.fields import MoneyField, Sentences

AMOUNT, SHARE = "category_cap", "category_share_cap"
ROWS_MOST = 30
EMPTY_ROWS = 3


class CapForm(Sentences, forms.Form):
    category = forms.ChoiceField(
        label="Category", choices=[("", "No cap"), *CATEGORY_CHOICES], required=False
    )
    cents = MoneyField(label="At most, as an amount", required=False)
    rate = forms.DecimalField(
        label="or as percent of the award",
        required=False,
        min_value=0,
        max_value=100,
        max_digits=5,
        decimal_places=2,
        widget=forms.TextInput(attrs={"inputmode": "decimal", "size": 6}),
        error_messages={
            "invalid": "Write a percent, such as 15.",
            "min_value": "A percent is 0 or more.",
            "max_value": "A percent of the award is 100 at most.",
            "max_decimal_places": "Write at most two decimals, such as 12.5.",
            "max_digits": "Write at most two decimals, such as 12.5.",
            "max_whole_digits": "A percent of the award is 100 at most.",
        },
    )

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        amounts = [name for name in ("cents", "rate") if values.get(name) is not None]
        if self.errors:
            return values
        if amounts and not values.get("category"):
            self.add_error("category", "Choose the category of this cap, or empty its amount.")
        if values.get("category") and not amounts:
            self.add_error("cents", "Write an amount, or a percent of the award.")
        if len(amounts) > 1:
            self.add_error("rate", "Keep the amount or the percent, not both.")
        return values

    def rule(self) -> RuleValues | None:
        values = self.cleaned_data
        if not values.get("category"):
            return None
        if values["rate"] is not None:
            points = int(values["rate"] * 100)
            return RuleValues(
                code=SHARE, params={"categories": [values["category"]], "basis_points": points}
            )
        return RuleValues(
            code=AMOUNT, params={"categories": [values["category"]], "cents": values["cents"]}
        )


CapRows = forms.formset_factory(
    CapForm, extra=EMPTY_ROWS, max_num=ROWS_MOST, absolute_max=ROWS_MOST
)


class CapForms:
    """Caps of one category as rows; what no row can show stays as it is."""

    def __init__(self, saved: list[FundRule], data: Any = None) -> None:
        caps = [row for row in saved if row.code in (AMOUNT, SHARE)]
        shown = [row for row in caps if len(row["categories"]) == 1]
        many = [row for row in caps if row not in shown]
        self.kept = many + [row for row in saved if beyond(row, saved)]
        self.rows = CapRows(data, prefix="caps", initial=[initial_of(row) for row in shown])

    def is_valid(self) -> bool:
        return self.rows.is_valid()

    def rules(self) -> list[RuleValues]:
        typed = [rule for form in self.rows if (rule := form.rule())]
        return [*typed, *(rule_values(row) for row in self.kept)]


def beyond(row: FundRule, saved: list[FundRule]) -> bool:
    """A second rule of a kind of which the form shows one."""
    if row.code in (AMOUNT, SHARE):
        return False
    return next(other for other in saved if other.code == row.code) is not row


def initial_of(row: FundRule) -> dict[str, Any]:
    rate = None if row["basis_points"] is None else percent(row["basis_points"]).removesuffix(" %")
    return {
        "category": row["categories"][0],
        "cents": row["cents"],
        "rate": None if rate is None else Decimal(rate),
    }
