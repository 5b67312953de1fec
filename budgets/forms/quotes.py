"""What people type about quotes: what is asked for, what came back, and which is taken."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.db.models import Q, QuerySet

from budgets.forms.expenses import PaperField
from budgets.forms.lines import LineChoice
from budgets.models import BudgetLine, Purchase
from projects.fields import (
    DayField,
    LongText,
    MoneyField,
    PercentField,
    Sentences,
    ShortText,
    not_ahead,
    whole_days,
)
from projects.models import Project
from projects.words import day_year
from schedules.models import Task
from suppliers.models import Quote, QuoteRequest, Supplier

LONGEST_LEAD = 999


class RequestForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    title = ShortText(
        label="What is to be priced",
        max_length=160,
        help_text="Such as Powder coat for the lantern frame.",
    )
    what = LongText(
        label="What exactly",
        required=True,
        help_text="Quantities, sizes, material, finish, how it is packed and delivered. Everybody "
        "is asked in these words.",
        error_messages={"required": "Write what they are to price: how many, how large, of what."},
    )
    line = LineChoice(label="Budget line that pays", required=False)
    task = forms.ModelChoiceField(
        queryset=Task.objects.none(),
        label="Task whose length the lead time sets",
        required=False,
        help_text="With it you see what each quote does to the public date.",
    )
    wanted_on = DayField(label="Wanted on site by", required=False)
    answer_by = DayField(label="Answers until", required=False)
    suppliers = forms.ModelMultipleChoiceField(
        queryset=Supplier.objects.none(),
        label="Who is asked",
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text="Two or three are enough to compare.",
    )

    class Meta:
        model = QuoteRequest
        fields = ("title", "what", "part", "wanted_on", "answer_by")
        labels = {"part": "Part it belongs to"}

    field_order = (
        "title", "what", "suppliers", "answer_by", "wanted_on", "line", "task", "part",
    )  # fmt: skip

    def __init__(self, *args: Any, project: Project, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.project, self.today = project, today
        rows = self.instance.quotes.select_related("supplier") if self.instance.pk else ()
        self.asked = {row.supplier_id: row for row in rows}
        self.purchased = Purchase.objects.filter(request=self.instance.pk or 0).first()
        self.offer_choices()

    def offer_choices(self) -> None:
        line = self.fields["line"]
        assert isinstance(line, LineChoice)
        line.offer(self.project, BudgetLine.objects.filter(project=self.project), "No line yet")
        task = self.purchased.task_id if self.purchased else None
        tasks = self.project.tasks.filter(Q(started_on=None) | Q(pk=task))
        self.offer("part", self.project.parts.all(), "No part in particular")
        self.offer("task", tasks, "None: the lead time moves nothing")
        self.offer("suppliers", Supplier.objects.filter(project=self.project), None)
        self.initial["suppliers"] = list(self.asked)
        if self.purchased:
            self.initial["line"], self.initial["task"] = self.purchased.line_id, task

    def offer(self, name: str, rows: QuerySet[Any], empty: str | None) -> None:
        choice = self.fields[name]
        assert isinstance(choice, forms.ModelChoiceField)
        choice.queryset, choice.empty_label = rows, empty

    def clean_suppliers(self) -> list[Supplier]:
        """Whoever was asked already stays: their answer is logged or declined."""
        chosen = list(self.cleaned_data["suppliers"])
        fixed = [row.supplier for row in self.asked.values() if row.asked_on or row.cents]
        return chosen + [row for row in fixed if row not in chosen]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        wanted, answers = data.get("wanted_on"), data.get("answer_by")
        if wanted and answers and answers > wanted:
            self.add_error(
                "answer_by",
                f"This is after {day_year(wanted)}, when it is wanted. Choose an earlier day.",
            )
        if wanted and wanted < self.today and "wanted_on" in self.changed_data:
            self.add_error("wanted_on", "That day has passed. Choose a day that is still to come.")
        return data

    def purchase(self) -> dict[str, Any]:
        return {"line": self.cleaned_data["line"], "task": self.cleaned_data["task"]}


class AnswerForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    cents = MoneyField(label="Price, without tax", min_cents=1)
    tax_cents = MoneyField(label="Sales tax", required=False)
    delivery_cents = MoneyField(label="Delivery", required=False)
    lead_days = whole_days(
        "Lead time, working days", most=LONGEST_LEAD, help_text="From the order to the delivery."
    )
    valid_until = DayField(label="Price holds until", required=False)
    received_on = DayField(label="Came on")
    deposit_basis_points = PercentField(
        label="Deposit with the order, percent", required=False, help_text="Such as 50."
    )
    net_days = whole_days("Rest due, days after delivery", help_text="0: on delivery.")
    note = LongText(label="Note", widget=forms.Textarea(attrs={"rows": 3}))
    upload = PaperField(
        label="Their quote as a file", required=False, help_text="A PDF or a picture, up to 20 MB."
    )

    class Meta:
        model = Quote
        fields = (
            "cents", "tax_cents", "delivery_cents", "lead_days", "valid_until", "received_on",
            "deposit_basis_points", "net_days", "note",
        )  # fmt: skip

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        for name in ("tax_cents", "delivery_cents", "deposit_basis_points", "net_days"):
            if not self.initial.get(name):
                self.initial[name] = None
        if not self.initial.get("received_on"):
            self.initial["received_on"] = today
        if self.instance.file:
            self.fields["upload"].help_text = "A file is kept. Choose one only to replace it."

    def clean_received_on(self) -> date:
        return not_ahead(self.cleaned_data["received_on"], self.today)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        for name in ("tax_cents", "delivery_cents", "deposit_basis_points", "net_days"):
            data[name] = data.get(name) or 0
        came, until = data.get("received_on"), data.get("valid_until")
        if came and until and until < came:
            self.add_error(
                "valid_until", f"This is before {day_year(came)}, when it came. Choose a later day."
            )
        if data.get("upload") and self.errors:
            self.add_error("upload", "Choose the file again: a browser does not keep it.")
        return data


class ChooseForm(Sentences, forms.Form):
    reason = ShortText(
        label="Why this one",
        max_length=240,
        help_text="Kept with the quotes: a funder may ask.",
        error_messages={"required": "Write why, such as: the only one that keeps the date."},
    )
    on = DayField(label="Ordered on")
    placed = forms.BooleanField(
        label="The order is placed", required=False, help_text="Else it is planned for that day."
    )
    number = forms.CharField(label="Number of the order or contract", max_length=60, required=False)
    retainage_basis_points = PercentField(
        label="Kept back from each bill, percent",
        required=False,
        help_text="Until the work is accepted; nothing is kept back from a deposit.",
    )

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        on = data.get("on")
        if on and data.get("placed") and on > self.today:
            self.add_error(
                "on",
                "An order that is placed has a day up to today. Choose it, or clear the tick.",
            )
        if on and not data.get("placed") and on < self.today:
            self.add_error("on", "That day has passed: tick that the order is placed.")
        return data

    def deal(self) -> dict[str, Any]:
        rate = self.cleaned_data["retainage_basis_points"] or 0
        return {**self.cleaned_data, "retainage_basis_points": rate}


class ReasonForm(Sentences, forms.Form):
    reason = ShortText(
        label="Why",
        max_length=240,
        error_messages={"required": "Write why, in a few words: it stays in the log."},
    )
