"""A bill on an order, an agreed change of its price, and the end of one that is cancelled."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from budgets.forms.expenses import PaperField
from budgets.forms.lines import LineChoice
from budgets.models import BudgetLine, Expense, Paper
from budgets.selectors.orders import OrderAccount
from projects.fields import DayField, MoneyField, Sentences, ShortText, not_ahead
from projects.words import day as in_words
from projects.words import money
from suppliers.models import OrderState


class BillForm(Sentences, forms.Form):
    """Filled in with what is due by the terms; the bill itself has the last word."""

    cents = MoneyField(label="To pay on this bill", min_cents=1)
    retained_cents = MoneyField(
        label="Kept back from it", required=False, help_text="Paid once the work is accepted."
    )
    release = forms.BooleanField(
        label="It pays out what was kept back from earlier bills", required=False
    )
    is_deposit = forms.BooleanField(label="It is the deposit", required=False)
    day = DayField(label="Date of the bill")
    invoice_no = forms.CharField(label="Number of the bill", max_length=60, required=False)
    due_on = DayField(label="To be paid by", required=False)
    paid_on = DayField(label="Paid on", required=False, help_text="Empty while it is not paid.")
    line = LineChoice(
        label="Budget line", error_messages={"required": "Choose the line that pays this order."}
    )
    photo = PaperField(
        label="The bill", required=False, help_text="A photo or a PDF; the camera opens from here."
    )
    anyway = forms.BooleanField(
        label="It is right as it is: log it", required=False, widget=forms.HiddenInput
    )  # shown once there is something to ask

    def __init__(self, *args: Any, row: OrderAccount, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.row, self.today = row, today
        self.asks = ""
        line = self.fields["line"]
        assert isinstance(line, LineChoice)
        project = row.order.supplier.project
        line.offer(project, BudgetLine.objects.filter(project=project), "Choose a line")
        if not row.account.retained:
            del self.fields["release"]

    def clean_day(self) -> date:
        return not_ahead(self.cleaned_data["day"], self.today)

    def clean_paid_on(self) -> date | None:
        found: date | None = self.cleaned_data["paid_on"]
        return not_ahead(found, self.today) if found else None

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        kept, held = data.get("retained_cents") or 0, self.row.account.retained
        if data.get("release"):
            if (data.get("cents") or 0) > held:
                self.add_error("cents", f"Only {self.cash(held)} is kept back from earlier bills.")
            kept = -(data.get("cents") or 0)
        data["retained_cents"] = kept
        if not self.errors and not data["anyway"]:
            self.asks = self.doubt(data, kept)
            if self.asks:
                self.ask()
        if data.get("photo") and self.errors:
            self.add_error("photo", "Choose the file again: a browser does not keep it.")
        return data

    def ask(self) -> None:
        self.fields["anyway"].widget = forms.CheckboxInput()
        self.order_fields(["anyway"])
        self.add_error("cents", self.asks)

    def doubt(self, data: dict[str, Any], kept: int) -> str:
        """What is unusual about a bill, with what would be right; nothing when it is as agreed."""
        cents, day = data["cents"], data["day"]
        if self.row.order.state == OrderState.CANCELLED:
            return "This order is cancelled. Tick above if the bill is for what was done before."
        over = cents + kept - self.row.account.to_bill
        if over > 0:
            left = self.cash(self.row.account.to_bill)
            return (
                f"That is {self.cash(over)} more than the {left} which is not billed yet. "
                "Log the change that was agreed, or tick above."
            )
        return self.twice(cents, day, data)

    def twice(self, cents: int, day: date, data: dict[str, Any]) -> str:
        """The same bill again: on this order, as an expense beside it, or its very paper."""
        alike = (cents, day, data["is_deposit"])
        if any((bill.cents, bill.day, bill.is_deposit) == alike for bill in self.row.bills):
            logged = f"A bill of {self.cash(cents)} of {in_words(day)} is logged already."
            return f"{logged} Tick above if this is another."
        order, paper = self.row.order, data.get("photo")
        beside = Expense.objects.filter(project=order.supplier.project, order=None, cents=cents)
        if beside.filter(payee__iexact=order.supplier.name, day=day).exists():
            logged = f"An expense of {self.cash(cents)} of that day is logged without an order."
            return f"{logged} Tie it to this order instead, or tick above if this is another."
        kept = Paper.objects.filter(expense__project=order.supplier.project)
        if paper and kept.filter(sha256=paper.sha256).exists():
            return "This very paper is kept with another expense. Tick above if it bills both."
        return ""

    def cash(self, cents: int) -> str:
        return money(cents, self.row.order.supplier.project.currency)

    def values(self) -> dict[str, Any]:
        names = ("cents", "retained_cents", "is_deposit", "day", "invoice_no", "due_on", "paid_on")
        return {name: self.cleaned_data[name] for name in (*names, "line")}


class ChangeForm(Sentences, forms.Form):
    way = forms.ChoiceField(
        label="The price goes",
        choices=(("up", "up"), ("down", "down")),
        widget=forms.RadioSelect,
        initial="up",
    )
    cents = MoneyField(label="By", min_cents=1)
    day = DayField(label="Agreed on")
    reason = ShortText(
        label="Why",
        max_length=240,
        error_messages={"required": "Write what was changed, such as: a fifth ring."},
    )

    def __init__(self, *args: Any, row: OrderAccount, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.row, self.today = row, today

    def clean_day(self) -> date:
        return not_ahead(self.cleaned_data["day"], self.today)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        total = self.row.order.total_cents
        if data.get("way") == "down" and (data.get("cents") or 0) > total:
            amount = money(total, self.row.order.supplier.project.currency)
            self.add_error("cents", f"The order is {amount}: it cannot go down by more.")
        return data

    @property
    def signed(self) -> int:
        cents: int = self.cleaned_data["cents"]
        return cents if self.cleaned_data["way"] == "up" else -cents


class CancelForm(Sentences, forms.Form):
    back = MoneyField(
        label="Of what was paid, they send back",
        required=False,
        help_text="Empty if nothing comes back. Log it as a credit on its bill once it is here.",
    )
    reason = ShortText(
        label="Why",
        max_length=240,
        error_messages={"required": "Write why it is cancelled: it stays in the log."},
    )

    def __init__(self, *args: Any, row: OrderAccount, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.row = row
        if not row.account.paid:
            del self.fields["back"]

    def clean_back(self) -> int:
        back, paid = self.cleaned_data["back"] or 0, self.row.account.paid
        if back > paid:
            amount = money(paid, self.row.order.supplier.project.currency)
            raise ValidationError(f"Only {amount} was paid on it. Write that or less.")
        return back
