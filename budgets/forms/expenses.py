"""Forms for an expense and its papers."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from budgets.forms.audit import AuditFields, not_to_come
from budgets.forms.held import keep_told
from budgets.forms.lines import LineChoice
from budgets.models import BudgetLine, Expense, PaperKind
from budgets.selectors.expenses import logged_already, same_file
from budgets.selectors.held import held_above
from projects.fields import DayField, MoneyField, Sentences
from projects.files import Clean, clean_paper
from projects.meanwhile import Meanwhile
from projects.models import Project
from projects.words import day, money
from suppliers.models import Order, OrderState, Supplier

ACCEPT = "image/*,application/pdf"
ELSEWHERE = (
    "Fill in “Another currency” below: the amount, the rate and its day; the rest is reckoned."
)
AGAIN = "Choose the file again: a browser does not keep it when a form comes back."


class PaperField(forms.FileField):
    """A receipt or another paper: a picture or a PDF, known by its content."""

    widget = forms.FileInput(attrs={"accept": ACCEPT})

    def clean(self, data: Any, initial: Any = None) -> Clean | None:
        upload = super().clean(data, initial)
        return clean_paper(upload) if upload else None


class ExpenseForm(Sentences, AuditFields):
    """Five things at once from a phone; everything else unfolds."""

    cents = MoneyField(label="Amount", min_cents=1)
    line = LineChoice(label="What for")
    photo = PaperField(
        label="Receipt",
        required=False,
        help_text="A photo or a PDF. On a phone the camera opens from here.",
    )
    day = DayField(label="Day")
    unpaid = forms.BooleanField(label="Not paid yet: a bill to pay later", required=False)
    another = forms.BooleanField(label="It is another one: keep both", required=False)

    class Meta(AuditFields.Meta):
        fields: tuple[str, ...] = ("cents", "payee", "line", "day", *AuditFields.Meta.fields)
        labels = {**AuditFields.Meta.labels, "payee": "Paid to"}
        error_messages = {
            "payee": {"required": "Write who was paid, such as Ledger Street Paints."}
        }

    def __init__(
        self, *args: Any, project: Project, today: date, lines: Sequence[BudgetLine], **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.project, self.today = project, today
        self.same: Expense | None = None  # what looks like the same expense
        self.initial["unpaid"] = bool(self.instance.pk) and not self.instance.paid_on
        self.offer_choices(lines)
        self.describe()
        self.describe_audit()

    def offer_choices(self, lines: Sequence[BudgetLine]) -> None:
        line, supplier, order = (self.fields[name] for name in ("line", "supplier", "order"))
        assert isinstance(line, LineChoice)
        assert isinstance(supplier, forms.ModelChoiceField)
        assert isinstance(order, forms.ModelChoiceField)
        line.offer(self.project, lines, "Choose a budget line")
        supplier.queryset = Supplier.objects.filter(project=self.project)
        supplier.empty_label = order.empty_label = "None"
        orders = Order.objects.filter(supplier__project=self.project).select_related("supplier")
        order.queryset = orders.exclude(state=OrderState.CANCELLED)

    def describe(self) -> None:
        fields = self.fields
        amount = fields["cents"]
        assert isinstance(amount, MoneyField)
        amount.currency, amount.elsewhere = self.project.currency, ELSEWHERE
        fields["line"].error_messages["required"] = "Choose the budget line it belongs to."
        amount.widget.attrs.update(
            autocomplete="off", enterkeyhint="next", autofocus=not self.instance.pk
        )
        fields["payee"].widget.attrs.update(
            list="payees", autocomplete="off", autocapitalize="words", enterkeyhint="next"
        )
        fields["supplier"].help_text = "Found by its name when you leave this empty."

    def full_clean(self) -> None:
        super().full_clean()
        if self.errors and self.files and "photo" not in self.errors:
            self.add_error("photo", AGAIN)

    def clean_day(self) -> date:
        instead = (
            "An expense is money already spent: choose today "
            f"({day(self.today)}) or an earlier day."
        )
        return not_to_come(self.cleaned_data["day"], self.today, instead)

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        self.check_foreign(values)
        self.check_audit(values)
        self.check_paid(values)
        self.check_shares(values.get("cents"))
        keep_told(self, values)
        self.same, why = self.alike(values)
        if self.same and not values.get("another"):
            self.add_error("another", f"{why} Is this the same?")
        return values

    def check_paid(self, values: dict[str, Any]) -> None:
        if not values.get("unpaid"):
            values["paid_on"] = values.get("paid_on") or values.get("day")
        elif values.get("paid_on"):
            self.add_error(
                "paid_on", "It is marked as not paid yet. Empty this day, or take that mark away."
            )

    def check_shares(self, cents: int | None) -> None:
        """Neither what funds pay nor what a filed claim holds may be cut away."""
        if cents is None or not self.instance.pk:
            return
        back = sum(credit.cents for credit in self.instance.credits.all())
        shared = sum(share.cents for share in self.instance.shares.all())
        if claimed := held_above(self.instance, cents - back):
            self.add_error("cents", claimed)
        elif cents - back < shared:
            amount = money(shared, self.project.currency)
            self.add_error(
                "cents", f"Funds pay {amount} of it. Change the shares first, or write more."
            )

    def alike(self, values: dict[str, Any]) -> tuple[Expense | None, str]:
        paper = same_file(self.project, values["photo"].sha256) if values.get("photo") else None
        if paper:
            return paper.expense, f"This is the same file as the receipt of {named(paper.expense)}."
        if not all(values.get(name) for name in ("payee", "day", "cents")):
            return None, ""
        found = logged_already(
            self.project,
            payee=values["payee"],
            day=values["day"],
            cents=values["cents"],
            besides=self.instance.pk,
        )
        return found, f"You have already logged {named(found)}." if found else ""

    def values(self) -> dict[str, Any]:
        """What is kept of it, in the shape of the row."""
        rate, workings = self.cleaned_data.get("tax_rate"), dict(self.instance.workings)
        workings.pop("tax_rate", None)
        if rate:
            workings["tax_rate"] = f"{rate.normalize():f}"
        kept = {name: self.cleaned_data[name] for name in self.Meta.fields}
        return {**kept, "foreign": self.cleaned_data["foreign"], "workings": workings}


def named(expense: Expense) -> str:
    amount = money(expense.cents, expense.project.currency)
    return f"{amount} to {expense.payee} on {day(expense.day)}"


class ExpenseEdit(Meanwhile, ExpenseForm):
    """The same without the receipt (papers have their own place), and safe beside another's."""

    photo = None  # type: ignore[assignment]


class PaperForm(Sentences, forms.Form):
    file = PaperField(label="Photo or PDF")
    kind = forms.ChoiceField(label="What it is", choices=PaperKind.choices)

    another = forms.BooleanField(label="Keep it here too", required=False)

    def __init__(
        self,
        project: Project,
        data: Any = None,
        files: MultiValueDict[str, Any] | None = None,
        *,
        kind: str = PaperKind.RECEIPT,
    ) -> None:
        super().__init__(data, files, auto_id="paper_%s", initial={"kind": kind})
        self.project = project
        self.fields["file"].error_messages["required"] = "Choose a photo or a PDF."

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        same = same_file(self.project, values["file"].sha256) if values.get("file") else None
        if same and not values.get("another"):
            self.add_error(
                "another",
                f"This is the same file as the receipt of {named(same.expense)}. Is this the same?",
            )
        if self.errors and "file" not in self.errors:
            self.add_error("file", AGAIN)
        return values
