"""What the rules of a fund are made of, as people write it; each cleans to what is stored."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from budgets.engine.rules.ceilings import MILLS
from budgets.models import CATEGORY_CHOICES, FundKind, PaperKind, Relation
from projects.fields import DayField, MoneyField, PercentField, ShortText

TICKS = forms.CheckboxSelectMultiple
MONTHS_MOST, DAYS_MOST, TIMES_MOST, YEARS_MOST = 60, 1000, 1000, 100


class MillsField(forms.DecimalField):
    """Money for a mile or an hour, to a tenth of a cent; cleans to tenths of a cent."""

    default_error_messages = {
        "invalid": "Write an amount for one of them, such as 0.725.",
        "required": "Write the amount for one of them, such as 0.725.",
        "min_value": "An amount is 0 or more.",
        "max_decimal_places": "Write at most three decimals, such as 0.725.",
        "max_whole_digits": "That is too much for one of them. Write such as 0.725.",
        "max_digits": "That is too much for one of them. Write such as 0.725.",
    }

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("widget", forms.TextInput(attrs={"inputmode": "decimal", "size": 8}))
        super().__init__(min_value=0, max_digits=9, decimal_places=3, **kwargs)

    def prepare_value(self, value: Any) -> Any:
        return f"{Decimal(value) / MILLS:.3f}" if isinstance(value, int) else value

    def clean(self, value: Any) -> Any:
        found = super().clean(value)
        return None if found is None else int(found * MILLS)


class NamesField(forms.CharField):
    """Names with commas between; cleans to a list."""

    def prepare_value(self, value: Any) -> Any:
        return ", ".join(value) if isinstance(value, list | tuple) else value

    def clean(self, value: Any) -> Any:
        names = [name.strip() for name in super().clean(value).split(",")]
        found = list(dict.fromkeys(name for name in names if name))
        if self.required and not found:
            raise ValidationError("Write at least one name.")
        return found


class DatesField(NamesField):
    """Days with commas between; cleans to a list of days as they are stored."""

    def clean(self, value: Any) -> Any:
        try:
            return [date.fromisoformat(name).isoformat() for name in super().clean(value)]
        except ValueError as error:
            raise ValidationError(
                "Write each day as year-month-day, with commas between, such as "
                "2031-06-30, 2031-12-31."
            ) from error


def categories(label: str = "Categories", *, required: bool = True, **more: Any) -> forms.Field:
    return ticks(label, CATEGORY_CHOICES, "Tick at least one category.", required=required, **more)


def papers() -> forms.Field:
    return ticks("Papers", PaperKind.choices, "Tick at least one paper.")


def relations() -> forms.Field:
    known = [(key, label) for key, label in Relation.choices if key]
    return ticks("It does not pay", known, "Tick at least one of them.")


def payers() -> forms.Field:
    kinds = [(key, label) for key, label in FundKind.choices if key != FundKind.IN_KIND]
    words = "Tick none if it does not say. Federal money never matches a federal award."
    return ticks("Only money from", kinds, "", required=False, help_text=words)


def ticks(label: str, choices: Any, missing: str, **more: Any) -> forms.Field:
    field = forms.MultipleChoiceField(label=label, choices=choices, widget=TICKS, **more)
    field.error_messages["required"] = missing
    return field


def choice(label: str, choices: Any) -> forms.Field:
    return forms.ChoiceField(label=label, choices=choices)


def percent(label: str, **more: Any) -> forms.Field:
    field = PercentField(label=label, **more)
    field.error_messages["required"] = "Write a percent, such as 15."
    return field


def money(label: str, **more: Any) -> forms.Field:
    return MoneyField(label=label, **more)


def number(label: str, most: int, *, least: int = 0, **more: Any) -> forms.Field:
    widget = forms.TextInput(attrs={"inputmode": "numeric", "size": 5})
    field = forms.IntegerField(label=label, min_value=least, max_value=most, widget=widget, **more)
    span = f"Write a whole number from {least} to {most:,}."
    wrong = ("invalid", "required", "min_value", "max_value")
    field.error_messages.update(dict.fromkeys(wrong, span))
    return field


def lag(label: str = "Days until the money comes") -> forms.Field:
    return number(label, DAYS_MOST, initial=30, required=False)


def day(label: str, *, required: bool = False, **more: Any) -> forms.Field:
    return DayField(label=label, required=required, **more)


def words(label: str, **more: Any) -> forms.Field:
    return ShortText(label=label, max_length=80, **more)


def tick(label: str) -> forms.Field:
    return forms.BooleanField(label=label, required=False)
