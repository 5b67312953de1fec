"""What an expense needs to survive an audit: fields in named groups, each left empty at will."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from django import forms
from django.forms.boundfield import BoundField

from budgets.engine.foreign import Foreign, NotForeign, from_words, in_words
from budgets.forms.quantities import HundredthsField
from budgets.models import Expense, Payer, Relation, Unit
from projects.amounts import CURRENCIES
from projects.fields import DayField, MoneyField, not_ahead
from projects.words import day, money

GROUPS = (
    (
        "Invoice and payment",
        ("invoice_no", "invoice_on", "due_on", "paid_on", "paid_from", "payment_ref", "payer",
         "tax_cents", "tax_rate", "fee_cents"),
    ),
    (
        "Order and delivery",
        ("supplier", "order", "is_deposit", "ordered_on", "delivered_on", "quantity_hundredths",
         "unit"),
    ),
    ("Why and where", ("what", "need", "place")),
    ("Another currency", ("foreign_cents", "foreign_currency", "foreign_rate", "foreign_day")),
    ("Shared with another project", ("allocation",)),
    ("Whom it belongs to", ("relation", "partner")),
)  # fmt: skip
PAST = {
    "invoice_on": "An invoice that has not come yet is no expense",
    "paid_on": "Tick “Not paid yet” and write the day under “To be paid by”",
    "ordered_on": "Write the day on which it was ordered",
    "delivered_on": "Leave it empty until it is here",
    "foreign_day": "The rate of a day to come is not known",
}
FOREIGN = ("foreign_cents", "foreign_currency", "foreign_rate", "foreign_day")
LABELS = {
    "what": "What it was",
    "need": "Why it was needed, and the price fair",
    "place": "Town",
    "order": "Order it settles",
    "is_deposit": "It is a deposit on that order; the last bill takes it off",
    "invoice_no": "Invoice number",
    "paid_from": "Paid from",
    "payment_ref": "Number of the payment",
    "payer": "Who paid",
    "unit": "Unit",
    "allocation": "How the bill was divided",
    "relation": "Is it one of these?",
    "partner": "Partner who carries out this part",
}
HELP = {
    "need": "A funder asks for it above some amount, an auditor always: “Cheapest of three, and in "
    "stock before the primer had to go on.”",
    "paid_from": "The account, or the last four figures of the card.",
    "payment_ref": "Of the cheque, the transfer or the card slip.",
    "allocation": "The measure and the part that is booked here: “60 %, by painted area; the rest "
    "is Pollen Steps”. Write only your part as the amount.",
    "partner": "Only when somebody else does part of what an award pays for, under an agreement.",
    "place": "Where it was bought, or where the trip went.",
    "relation": "Most funders bar these, whoever is paid.",
}


@dataclass(frozen=True)
class Unfolded:
    """A group of fields on the page; it stands open when something in it is filled or wrong."""

    name: str
    fields: Sequence[BoundField]
    open: bool


class AuditFields(forms.ModelForm):  # type: ignore[type-arg]
    """The groups, their fields and what may be wrong between them."""

    project: Any
    today: date

    invoice_on = DayField(label="Day of the invoice", required=False)
    due_on = DayField(label="To be paid by", required=False)
    paid_on = DayField(label="Paid on", required=False)
    tax_cents = MoneyField(
        label="Sales tax, as printed",
        required=False,
        help_text="Part of the amount. It is kept as it stands on the paper.",
    )
    tax_rate = forms.DecimalField(
        label="Rate of the tax, in percent",
        required=False,
        min_value=0,
        max_value=30,
        decimal_places=4,
        max_digits=6,
        widget=forms.TextInput(attrs={"inputmode": "decimal", "size": 6}),
        help_text="Only to check the printed tax.",
        error_messages={
            "invalid": "Write a percentage such as 6.25.",
            "max_value": "Write a percentage of 30 or less, such as 6.25.",
            "min_value": "A tax is 0 or more.",
            "max_decimal_places": "Write at most four decimals.",
            "max_digits": "Write a percentage such as 6.25.",
        },
    )
    fee_cents = MoneyField(label="Tip, delivery or bank fee", required=False)
    ordered_on = DayField(label="Ordered on", required=False)
    delivered_on = DayField(label="Delivered on", required=False)
    quantity_hundredths = HundredthsField(label="Quantity", required=False)
    payer = forms.ChoiceField(label="Who paid", choices=Payer.choices, required=False)
    foreign_cents = MoneyField(label="How much of it", required=False, min_cents=1)
    foreign_currency = forms.ChoiceField(label="Currency", required=False)
    foreign_rate = forms.DecimalField(
        label="Rate",
        required=False,
        min_value=Decimal("0.000001"),
        max_value=100_000,
        decimal_places=6,
        max_digits=12,
        widget=forms.TextInput(attrs={"inputmode": "decimal", "size": 10}),
        error_messages={
            "invalid": "Write the rate as a plain number, such as 1.0850.",
            "min_value": "A rate is above zero, such as 1.0850.",
            "max_value": "That rate is too large. Check the digits.",
            "max_decimal_places": "Write at most six decimals, such as 1.085012.",
            "max_digits": "Write at most six decimals, such as 1.085012.",
        },
    )
    foreign_day = DayField(label="Day of the rate", required=False)

    class Meta:
        model = Expense
        fields: tuple[str, ...] = (
            "what", "need", "place", "supplier", "order", "is_deposit", "ordered_on",
            "delivered_on", "quantity_hundredths", "unit", "invoice_no", "invoice_on", "due_on",
            "paid_on", "paid_from", "payment_ref", "payer", "tax_cents", "fee_cents",
            "allocation", "relation", "partner",
        )  # fmt: skip
        labels = LABELS
        help_texts = HELP

    def describe_audit(self) -> None:
        fields, currency = self.fields, self.project.currency
        for name in ("tax_cents", "fee_cents"):
            fields[name].currency = currency  # type: ignore[attr-defined]
        here = CURRENCIES.get(currency, currency)
        fields[
            "foreign_rate"
        ].help_text = f"What one unit of it cost in {here}, from the card slip."
        choice = fields["foreign_currency"]
        assert isinstance(choice, forms.ChoiceField)
        others = [(code, f"{name} ({code})") for code, name in CURRENCIES.items()]
        choice.choices = [("", "None"), *(row for row in others if row[0] != currency)]
        choose(fields["unit"], Unit.choices)
        choose(fields["relation"], Relation.choices)
        self.initial.update(self.as_kept())

    def as_kept(self) -> dict[str, Any]:
        """What is kept in another shape than the form's."""
        kept: dict[str, Any] = {"tax_rate": self.instance.workings.get("tax_rate")}
        try:
            other = from_words(self.instance.foreign)
        except NotForeign:
            return kept
        values = (other.hundredths, other.currency, other.rate, other.day)
        return kept | dict(zip(FOREIGN, values, strict=True))

    def groups(self) -> list[Unfolded]:
        return [
            Unfolded(name, [self[field] for field in fields], any(map(self.stands_open, fields)))
            for name, fields in GROUPS
        ]

    def stands_open(self, name: str) -> bool:
        value = self[name].value()
        usual = name == "payer" and value in ("", None, Payer.ARTIST)
        return name in self.errors or (value not in (None, "", False) and not usual)

    def clean_payer(self) -> str:
        return self.cleaned_data.get("payer") or Payer.ARTIST

    def check_audit(self, values: dict[str, Any]) -> None:
        for name, instead in PAST.items():
            if values.get(name) and values[name] > self.today:
                self.add_error(name, f"{day(values[name])} is still to come. {instead}.")
        self.check_order(values)
        self.check_tax(values)
        if values.get("unit") and not values.get("quantity_hundredths"):
            self.add_error("quantity_hundredths", "How many? Write a number, such as 2.5.")

    def check_order(self, values: dict[str, Any]) -> None:
        ordered, delivered = values.get("ordered_on"), values.get("delivered_on")
        if ordered and delivered and delivered < ordered:
            self.add_error(
                "delivered_on",
                f"It cannot have come before it was ordered ({day(ordered)}). Change one of them.",
            )
        if values.get("is_deposit") and not values.get("order") and "order" not in self.errors:
            self.add_error("order", "Choose the order that it is a deposit on.")

    def check_tax(self, values: dict[str, Any]) -> None:
        parts = (values.get("tax_cents") or 0) + (values.get("fee_cents") or 0)
        if values.get("cents") and parts >= values["cents"]:
            whole = money(values["cents"], self.project.currency)
            self.add_error(
                "tax_cents", f"Tax and fees are part of the {whole}: they must come to less."
            )

    def other_currency(self, values: dict[str, Any]) -> Foreign | None:
        """What was paid in another currency; none of its four fields, or all of them."""
        given = [name for name in FOREIGN if values.get(name)]
        if not given or any(name in self.errors for name in FOREIGN):
            return None
        for name in FOREIGN:
            if name not in given:
                self.add_error(
                    name, "Amount, currency, rate and day belong together: fill this in too."
                )
        if len(given) < len(FOREIGN):
            return None
        return Foreign(
            currency=values["foreign_currency"],
            hundredths=values["foreign_cents"],
            rate=values["foreign_rate"],
            day=values["foreign_day"],
        )

    def check_foreign(self, values: dict[str, Any]) -> None:
        """The amount is reckoned from the other currency, or agrees with it to the cent."""
        other = self.other_currency(values)
        values["foreign"] = in_words(other) if other else ""
        if other is None:
            return
        said, found = values.get("cents"), other.cents
        if not str(self["cents"].value() or "").strip() and found:
            self.errors.pop("cents", None)
            values["cents"] = said = found
        if said is not None and said != found:
            currency = self.project.currency
            self.add_error(
                "cents",
                f"{in_words(other)} makes {money(found, currency)}. Leave the amount empty, or "
                "take the rate that the card slip shows.",
            )


def choose(field: forms.Field, choices: Any) -> None:
    assert isinstance(field, forms.ChoiceField)
    field.choices = choices


def not_to_come(value: date, today: date, instead: str) -> date:
    return not_ahead(value, today, f"{day(value)} is still to come. {instead}")
