"""Form fields that take what people type and answer in sentences."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from projects.amounts import AmountError, OtherCurrency, parse_amount, plain_amount

LONGEST_TEXT = 20_000
EARLIEST, LATEST = date(2000, 1, 1), date(2100, 12, 31)


class DayField(forms.DateField):
    """A date from the browser's own date picker, or typed as 2026-10-24."""

    widget = forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
    default_error_messages = {
        "invalid": "There is no such day. Write it as year-month-day, such as 2026-10-24.",
        "required": "Choose a day.",
    }

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(input_formats=["%Y-%m-%d"], **kwargs)

    def clean(self, value: Any) -> date | None:
        found: date | None = super().clean(value)
        if found and not EARLIEST <= found <= LATEST:
            raise ValidationError("Choose a day between the years 2000 and 2100.")
        return found


def not_ahead(
    day: date,
    today: date,
    says: str = "That day has not come yet. Choose today or an earlier day.",
) -> date:
    """A day on which something has happened; one still to come is refused."""
    if day > today:
        raise ValidationError(says)
    return day


def in_order(form: forms.BaseForm, first: str, last: str) -> None:
    """Of two days that may each be left empty, the last is not before the first."""
    start, end = form.cleaned_data.get(first), form.cleaned_data.get(last)
    if start and end and end < start:
        form.add_error(last, "The last day is before the first. Change one of them.")


class DaysField(forms.DecimalField):
    """A duration in working days: whole, half or quarter days."""

    default_error_messages = {
        "invalid": "Write a number of days, such as 3 or 1.5.",
        "required": "Write how many working days it takes.",
        "min_value": "A task cannot take less than no time. Write 0 or more.",
        "max_value": "That is more than 999 working days. Split it into smaller tasks.",
        "max_decimal_places": "Write at most two decimals, such as 1.25.",
    }

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("min_value", 0)
        kwargs.setdefault("max_value", 999)
        kwargs.setdefault("decimal_places", 2)
        kwargs.setdefault("widget", forms.TextInput(attrs={"inputmode": "decimal", "size": 6}))
        super().__init__(**kwargs)


class ShortText(forms.CharField):
    """A line of text, with sentences for what can be wrong with it."""

    default_error_messages = {
        "required": "This cannot stay empty. Write it in a few words.",
        "max_length": "This has %(show_value)d characters; at most %(limit_value)d can be kept. "
        "Shorten it.",
    }


class LongText(forms.CharField):
    """Text in paragraphs, up to a length that a reader could read."""

    widget = forms.Textarea(attrs={"rows": 6})

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("required", False)
        super().__init__(**kwargs)

    def validate(self, value: str) -> None:
        super().validate(value)
        if len(value) > LONGEST_TEXT:
            raise ValidationError(
                f"This text has {len(value):,} characters; at most {LONGEST_TEXT:,} can be kept. "
                "Shorten it."
            )


LENGTH = re.compile(
    r"""^\s*(?:(?P<ft>\d+(?:\.\d+)?)\s*(?:ft|feet|foot|'|′)\s*)?
        (?:(?P<inch>\d+(?:\.\d+)?)\s*(?:in|inches|inch|"|″)\s*)?$""",
    re.VERBOSE | re.IGNORECASE,
)
METRIC = re.compile(r"^\s*(?P<n>\d+(?:\.\d+)?)\s*(?P<unit>mm|cm|m)\s*$", re.IGNORECASE)
METRIC_MM = {"mm": Decimal(1), "cm": Decimal(10), "m": Decimal(1000)}
MASS = re.compile(r"^\s*(?P<n>\d+(?:\.\d+)?)\s*(?P<unit>kg|g|lb|lbs)\s*$", re.IGNORECASE)
POUND_G = Decimal("453.59237")
MASS_G = {"kg": Decimal(1000), "g": Decimal(1), "lb": POUND_G, "lbs": POUND_G}


class LengthField(forms.CharField):
    """A length as people write it: “12 ft”, “4 ft 6 in”, “3.6 m”. Cleans to millimetres.

    With ``zero`` it may be nothing, such as a lowest edge on the ground: “0” is enough then.
    """

    def __init__(self, *, zero: bool = False, **kwargs: Any) -> None:
        self.zero = zero
        kwargs.setdefault("required", False)
        super().__init__(**kwargs)

    def prepare_value(self, value: Any) -> Any:
        return length_as_typed(value) if isinstance(value, int) else value

    def clean(self, value: Any) -> int | None:
        text = super().clean(value)
        if not text:
            return None
        found = 0 if self.zero and text.strip() == "0" else millimetres_in(text)
        least = 0 if self.zero else 1
        if found is None or not least <= found < 1_000_000:
            raise ValidationError(
                "Write a length with its unit, such as 12 ft, 4 ft 6 in or 3.6 m."
            )
        return found


def millimetres_in(text: str) -> int | None:
    if metric := METRIC.match(text):
        return round(Decimal(metric["n"]) * METRIC_MM[metric["unit"].lower()])
    parts = LENGTH.match(text)
    if not parts or not (parts["ft"] or parts["inch"]):
        return None
    inches = Decimal(parts["ft"] or 0) * 12 + Decimal(parts["inch"] or 0)
    return round(inches * Decimal("25.4"))


def length_as_typed(value: int) -> str:
    """In feet and inches where it was whole inches, else in metres: it cleans to the same again."""
    inches = round(value / 25.4)
    if round(inches * 25.4) != value:
        return f"{value / 1000:g} m"
    feet, rest = divmod(inches, 12)
    if not inches:
        return "0 in"
    return " ".join(part for part in (f"{feet} ft" * bool(feet), f"{rest} in" * bool(rest)) if part)


class MassField(forms.CharField):
    """A mass as people write it: “64 lb”, “29 kg”. Cleans to grams."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("required", False)
        super().__init__(**kwargs)

    def prepare_value(self, value: Any) -> Any:
        return mass_as_typed(value) if isinstance(value, int) else value

    def clean(self, value: Any) -> int | None:
        text = super().clean(value)
        if not text:
            return None
        found = MASS.match(text)
        grams = round(Decimal(found["n"]) * MASS_G[found["unit"].lower()]) if found else 0
        if not 0 < grams < 100_000_000:
            raise ValidationError("Write a mass with its unit, such as 64 lb or 29 kg.")
        return grams


MOST_TYPED = 10_000_000_00
YEAR = 365  # days


def mass_as_typed(value: int) -> str:
    """In pounds where it was whole pounds, else in kilograms: it cleans to the same again."""
    pounds = round(value / POUND_G)
    if round(pounds * POUND_G) == value:
        return f"{pounds} lb"
    return f"{Decimal(value) / 1000:.3f}".rstrip("0").rstrip(".") + " kg"


class MoneyField(forms.CharField):
    """An amount as people write it: “1,200”, “1200.50”, “$1,200.00”. Cleans to whole cents.

    With a `currency` the sign or code of another is refused; `elsewhere` says where it may go.
    """

    currency = ""
    elsewhere = ""

    def __init__(self, *, min_cents: int = 0, **kwargs: Any) -> None:
        self.min_cents = min_cents
        kwargs.setdefault("widget", forms.TextInput(attrs={"inputmode": "decimal", "size": 12}))
        super().__init__(**kwargs)
        self.error_messages["required"] = "Write an amount, such as 1,200 or 1,200.50."

    def prepare_value(self, value: Any) -> Any:
        return plain_amount(value) if isinstance(value, int) else value

    def clean(self, value: Any) -> int | None:
        text = super().clean(value)
        if not text:
            return None
        try:
            cents = parse_amount(text, most=MOST_TYPED, currency=self.currency)
        except OtherCurrency as error:
            right = self.elsewhere or error.right
            raise ValidationError(f"{error.wrong} {right}") from error
        except AmountError as error:
            raise ValidationError(str(error)) from error
        if cents < self.min_cents:
            raise ValidationError("Write an amount above zero, such as 12.50.")
        return cents


class PercentField(forms.DecimalField):
    """A percent of something, from 0 to 100; cleans to basis points (1 % = 100)."""

    default_error_messages = {
        "invalid": "Write a percent, such as 50 or 12.5.",
        "min_value": "A percent is 0 or more.",
        "max_value": "A percent is 100 at most.",
        "max_decimal_places": "Write at most two decimals, such as 12.5.",
        "max_digits": "Write at most two decimals, such as 12.5.",
        "max_whole_digits": "A percent is 100 at most.",
    }

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("widget", forms.TextInput(attrs={"inputmode": "decimal", "size": 6}))
        super().__init__(min_value=0, max_value=100, max_digits=5, decimal_places=2, **kwargs)

    def prepare_value(self, value: Any) -> Any:
        if isinstance(value, int):
            return f"{Decimal(value) / 100:.2f}".rstrip("0").rstrip(".")
        return value

    def clean(self, value: Any) -> Any:
        text = value.strip().removesuffix("%").rstrip() if isinstance(value, str) else value
        found = super().clean(text)
        return None if found is None else int(found * 100)


def whole_days(label: str, *, most: int = YEAR, help_text: str = "") -> forms.IntegerField:
    """A number of days that may be left empty."""
    return forms.IntegerField(
        label=label,
        required=False,
        min_value=0,
        max_value=most,
        help_text=help_text,
        widget=forms.TextInput(attrs={"inputmode": "numeric", "size": 6}),
        error_messages={
            "invalid": "Write a whole number of days, such as 15.",
            "min_value": "A number of days cannot be below zero. Write 0 or more.",
            "max_value": f"That is more than {most} days. Check the number.",
        },
    )


class Sentences:
    """A form whose built-in complaints say what would be right."""

    fields: dict[str, forms.Field]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            field.error_messages["max_length"] = (
                "That has %(show_value)s characters; at most %(limit_value)s can be kept. "
                "Shorten it."
            )
            field.error_messages["invalid_choice"] = "That is not in the list. Choose again."
