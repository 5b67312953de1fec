"""What people type about suppliers, papers and orders."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from projects.access import type_user
from projects.fields import DayField, LongText, MoneyField, PercentField, Sentences, whole_days
from projects.files import Clean, clean_paper
from projects.models import Project
from projects.words import day_year
from suppliers.models import Document, Order, OrderState, Supplier
from suppliers.selectors import to_bring

LONGEST_LEAD = 999


class SupplierForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    lead_days = forms.IntegerField(
        label="Lead time, working days",
        required=False,
        min_value=0,
        max_value=LONGEST_LEAD,
        widget=forms.TextInput(attrs={"inputmode": "numeric"}),
        help_text="From the order to the delivery.",
        error_messages={
            "invalid": "Write a whole number of working days, such as 15.",
            "min_value": "A lead time cannot be below zero. Write 0 or more.",
            "max_value": "That is more than 999 working days. Check the number.",
        },
    )
    note = LongText(label="Note", widget=forms.Textarea(attrs={"rows": 3}))

    class Meta:
        model = Supplier
        fields = ("name", "kind", "trades", "lead_days", "contact", "email", "phone", "note")
        labels = {
            "kind": "What they are",
            "trades": "Trades",
            "contact": "Person to ask for",
            "email": "Email",
            "phone": "Telephone",
        }
        help_texts = {"trades": "Such as welding, powder coat."}
        error_messages = {
            "name": {"required": "Write a name."},
            "email": {"invalid": "Write a whole address, such as shop@example.org."},
        }

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        same = Supplier.objects.filter(project=self.instance.project, name__iexact=name)
        if same.exclude(pk=self.instance.pk).exists():
            raise ValidationError(
                f"This project already has a supplier called “{name}”. Choose another name."
            )
        return name


class DocumentForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    upload = forms.FileField(
        label="File",
        required=False,
        help_text="A PDF or a picture, up to 20 MB.",
        error_messages={"empty": "This file is empty. Choose another."},
    )
    issued_on = DayField(label="Issued", required=False)
    expires_on = DayField(label="Expires", required=False)

    class Meta:
        model = Document
        fields = ("kind", "title", "issued_on", "expires_on")
        labels = {"kind": "What it is", "title": "Title"}
        help_texts = {"title": "Give a renewal the same title: it takes the old one's place."}
        error_messages = {"title": {"required": "Write a title, such as General liability."}}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.file:
            self.fields["upload"].label = "New file"
            self.fields["upload"].help_text = "A file is kept. Choose one only to replace it."

    def clean_upload(self) -> Clean | None:
        upload = self.cleaned_data["upload"]
        return clean_paper(upload) if upload else None

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        issued, expires = data.get("issued_on"), data.get("expires_on")
        if issued and expires and expires < issued:
            self.add_error(
                "expires_on",
                f"This is before {day_year(issued)}, when it was issued. Choose a later day.",
            )
        if data.get("upload") and self.errors:
            self.add_error("upload", "Choose the file again: a browser does not keep it.")
        return data


DAYS_KEPT = "retainage_days"
BLANK_AT_ZERO = ("deposit_basis_points", "net_days", "retainage_basis_points", "left_to_do_cents")
TERMS = (
    "number", "deposit_basis_points", "net_days", "retainage_basis_points",
    "retainage_stop_basis_points", "retainage_after_basis_points", "retainage_release_half",
    DAYS_KEPT, "left_to_do_cents",
)  # fmt: skip


class OrderForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    cents = MoneyField(label="Price agreed", help_text="All in, such as 1,500.00.")
    window_start = DayField(label="First day", required=False)
    window_end = DayField(
        label="Last day",
        required=False,
        help_text="The days of a hire, or between which a delivery comes.",
    )
    placed_on = DayField(label="Placed on", required=False)
    delivered_on = DayField(label="Delivered on", required=False)
    deposit_basis_points = PercentField(
        label="Deposit with the order, percent", required=False, help_text="Such as 50."
    )
    net_days = whole_days("Rest due, days after delivery", help_text="0: on delivery.")
    retainage_basis_points = PercentField(
        label="Kept back from each bill, percent",
        required=False,
        help_text="Until the work is accepted; nothing is kept back from a deposit.",
    )
    retainage_stop_basis_points = PercentField(
        label="Until so much is billed, percent",
        required=False,
        help_text="Empty: from every bill.",
    )
    retainage_after_basis_points = PercentField(
        label="Kept back after that, percent", required=False
    )
    retainage_days = whole_days("What was kept is paid, days after delivery")
    left_to_do_cents = MoneyField(
        label="Worth of what is to be put right",
        required=False,
        help_text="One and a half times as much stays kept back.",
    )
    note = LongText(label="Note", widget=forms.Textarea(attrs={"rows": 3}))

    class Meta:
        model = Order
        fields = (
            "title", "state", "cents", "number", "placed_on", "window_start", "window_end",
            "delivered_on", "deposit_basis_points", "net_days", "retainage_basis_points",
            "retainage_stop_basis_points", "retainage_after_basis_points",
            "retainage_release_half", "retainage_days", "left_to_do_cents", "note",
        )  # fmt: skip
        labels = {
            "title": "What is ordered",
            "state": "State",
            "number": "Number of the order or contract",
            "retainage_release_half": "Half of what is held is freed then",
        }
        error_messages = {"title": {"required": "Write what is ordered, such as Lift hire."}}

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        for name in BLANK_AT_ZERO:
            self.initial[name] = self.initial.get(name) or None

    @property
    def facts(self) -> list[forms.BoundField]:
        return [field for field in self.visible_fields() if field.name not in TERMS]

    @property
    def terms(self) -> list[forms.BoundField]:
        """What a contract says beside the price: folded away until it is wanted."""
        return [field for field in self.visible_fields() if field.name in TERMS]

    @property
    def has_terms(self) -> bool:
        return any(field.errors or field.value() for field in self.terms if field.name != DAYS_KEPT)

    def clean_placed_on(self) -> date | None:
        return self.past(self.cleaned_data["placed_on"])

    def clean_delivered_on(self) -> date | None:
        return self.past(self.cleaned_data["delivered_on"])

    def past(self, day: date | None) -> date | None:
        if day and day > self.today:
            raise ValidationError(
                "That day has not come yet. Choose today or an earlier day, or leave it empty."
            )
        return day

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        start, end = data.get("window_start"), data.get("window_end")
        if start and end and end < start:
            self.add_error(
                "window_end",
                f"This is before the first day, {day_year(start)}. Choose that day or a later one.",
            )
        if data.get("placed_on") and data.get("state") == OrderState.PLANNED:
            self.add_error("state", "An order with a day in “Placed on” is placed. Choose Placed.")
        for name in ("deposit_basis_points", "net_days", "retainage_basis_points"):
            data[name] = data.get(name) or 0
        if data.get("retainage_days") is None:
            data["retainage_days"] = 30
        data["left_to_do_cents"] = data.get("left_to_do_cents") or 0
        self.check_days(data)
        return data

    def check_days(self, data: dict[str, Any]) -> None:
        """What came was ordered before, and is delivered."""
        placed, came = data.get("placed_on"), data.get("delivered_on")
        if placed and came and came < placed:
            self.add_error(
                "delivered_on",
                f"This is before {day_year(placed)}, when it was placed. Choose a later day.",
            )
        if came and data.get("state") in (OrderState.PLANNED, OrderState.PLACED):
            self.add_error(
                "state", "An order with a day in “Delivered on” is delivered. Choose Delivered."
            )
        if data.get("retainage_after_basis_points") and not data.get("retainage_stop_basis_points"):
            self.add_error(
                "retainage_stop_basis_points",
                "Write from which point on the later percent holds, such as 50.",
            )

    def _get_validation_exclusions(self) -> set[str]:
        """The window is checked here, beside its field."""
        skipped: set[str] = super()._get_validation_exclusions()  # type: ignore[misc]
        return {*skipped, "window_start", "window_end"}


class AnyOrderForm(OrderForm):
    """An order whose supplier is still to be chosen."""

    class Meta(OrderForm.Meta):
        fields = ("supplier", *OrderForm.Meta.fields)  # type: ignore[assignment]
        labels = {**OrderForm.Meta.labels, "supplier": "From"}
        error_messages = {
            **OrderForm.Meta.error_messages,
            "supplier": {"required": "Choose who it is ordered from."},
        }

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choice = self.fields["supplier"]
        assert isinstance(choice, forms.ModelChoiceField)
        choice.queryset = Supplier.objects.filter(project=project)
        choice.empty_label = "Choose a supplier"


class FromProject(forms.ModelChoiceField):  # type: ignore[type-arg]
    def label_from_instance(self, obj: Supplier) -> str:
        return f"{obj.name}, {obj.project.name}"


class BringForm(Sentences, forms.Form):
    supplier = FromProject(
        queryset=Supplier.objects.none(),
        label="Supplier",
        empty_label="Choose a supplier",
        help_text="A copy comes here, with the papers that have not ended.",
        error_messages={"required": "Choose a supplier."},
    )

    def __init__(self, *args: Any, user: type_user, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choice = self.fields["supplier"]
        assert isinstance(choice, forms.ModelChoiceField)
        choice.queryset = to_bring(user, project)
