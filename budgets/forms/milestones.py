"""Parts of a fee or an award: one by one, or split by percent; their invoices and their money."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from budgets.engine.money import percent
from budgets.forms.claims import Past
from budgets.models import Fund, Milestone
from projects.fields import DayField, LongText, MoneyField, Sentences, ShortText
from schedules.models import KeyDate, Task

WHENS = ("task", "key_date", "on")
LINE = re.compile(r"(?P<whole>\d{1,3})(?:\.(?P<part>\d{1,2}))?\s*%?\s*[,:;-]?\s*(?P<title>.*)")
WHOLE = 10_000
EXAMPLE = "50 % When the agreement is signed\n50 % When the work is open"


class MilestoneForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    cents = MoneyField(label="Amount", min_cents=1)
    on = DayField(label="Or on a day", required=False)
    pay_days = forms.IntegerField(
        label="Days from the invoice to the money", min_value=0, max_value=999, initial=30
    )

    class Meta:
        model = Milestone
        fields = ("title", "cents", "task", "key_date", "on", "pay_days")
        labels = {
            "title": "What must be done",
            "task": "Due when this task is done",
            "key_date": "Or on this key date",
        }
        error_messages = {"title": {"required": "Name it, such as Half when the frame hangs."}}

    def __init__(self, *args: Any, fund: Fund, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        tasks = Task.objects.filter(project=fund.project_id)
        days = KeyDate.objects.filter(project=fund.project_id)
        for name, rows in (("task", tasks), ("key_date", days)):
            field = self.fields[name]
            assert isinstance(field, forms.ModelChoiceField)
            field.queryset, field.empty_label = rows, "No"
        self.fields["pay_days"].error_messages.update(
            required="Write a number of days, such as 30.",
            invalid="Write a whole number of days, such as 30.",
            min_value="Money does not come before its invoice. Write 0 or more.",
            max_value="Write at most 999 days.",
        )

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        told = [name for name in WHENS if values.get(name)]
        if not told and not any(name in self.errors for name in WHENS):
            self.add_error("task", "Choose a task, a key date or a day: one of the three.")
        if told[1:]:
            self.add_error(told[1], "Choose one: a task, a key date or a day.")
        return values


class SplitForm(Sentences, forms.Form):
    """“25 % When the agreement is signed”, a part a line."""

    parts = LongText(
        label="Parts, one on a line: percent, then what must be done",
        required=True,
        error_messages={"required": "Write at least one part, such as: 100 % When it is open"},
        initial=EXAMPLE,
        widget=forms.Textarea(attrs={"rows": 5}),
        help_text="Together 100 %. The amounts add up to the award to the cent.",
    )

    def clean_parts(self) -> list[tuple[str, int]]:
        """Titles with their basis points."""
        lines = [line.strip() for line in self.cleaned_data["parts"].splitlines() if line.strip()]
        found = [part_in(line) for line in lines]
        whole = sum(points for _, points in found)
        if whole != WHOLE:
            raise ValidationError(f"The parts come to {percent(whole)}. Make them 100 % together.")
        return found


def part_in(line: str) -> tuple[str, int]:
    found = LINE.fullmatch(line)
    if not found or not found["title"]:
        raise ValidationError(
            f"“{line[:40]}” cannot be read. Write a percentage, then what must be done, "
            "such as: 40 % When the frame hangs."
        )
    points = int(found["whole"]) * 100 + int((found["part"] or "0").ljust(2, "0"))
    if not points:
        raise ValidationError(f"“{line[:40]}” is a part of nothing. Write more than 0 %.")
    return found["title"][:120], points


class InvoiceForm(Past, forms.Form):
    invoice_no = ShortText(label="Invoice number", max_length=60)
    invoiced_on = DayField(label="Date of the invoice")

    def clean_invoiced_on(self) -> date:
        return self.past("invoiced_on", "An invoice is noted once it is sent")
