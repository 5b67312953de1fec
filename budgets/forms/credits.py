"""Money that came back of an expense."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms

from budgets.forms.audit import not_to_come
from budgets.forms.expenses import AGAIN, PaperField
from budgets.models import Expense
from projects.fields import DayField, MoneyField, Sentences, ShortText
from projects.words import day, money


class CreditForm(Sentences, forms.Form):
    cents = MoneyField(label="Amount that came back", min_cents=1)
    day = DayField(label="On")
    what = ShortText(label="Why", max_length=240)
    slip = PaperField(label="Refund slip or credit note", required=False)

    def __init__(self, *args: Any, expense: Expense, today: date, **kwargs: Any) -> None:
        kwargs.setdefault("auto_id", "credit_%s")
        kwargs.setdefault("initial", {"day": today})
        super().__init__(*args, **kwargs)
        self.expense, self.today = expense, today
        amount = self.fields["cents"]
        assert isinstance(amount, MoneyField)
        amount.currency = expense.project.currency
        self.fields["what"].error_messages["required"] = (
            "Write why, such as Two tins of primer returned."
        )

    def clean_day(self) -> date:
        chosen = not_to_come(self.cleaned_data["day"], self.today, "Add it once the money is back.")
        if chosen < self.expense.day:
            raise forms.ValidationError(
                f"The expense is of {day(self.expense.day)}; nothing came back before it."
            )
        return chosen

    def clean_cents(self) -> int:
        cents: int = self.cleaned_data["cents"]
        left = self.expense.cents - sum(each.cents for each in self.expense.credits.all())
        if cents > left:
            most = money(left, self.expense.project.currency)
            raise forms.ValidationError(f"At most {most} can come back of this expense.")
        return cents

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        if self.expense.in_kind:
            self.add_error("cents", "Nobody paid for a gift, so nothing comes back of it.")
        if self.errors and self.files and "slip" not in self.errors:
            self.add_error("slip", AGAIN)
        return values
