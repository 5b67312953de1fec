"""A trip by car and nights away: what an allowance needs to be reckoned and believed."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError

from budgets.engine.travel import LONGEST
from budgets.forms.audit import not_to_come
from budgets.forms.lines import LineChoice
from budgets.forms.quantities import HundredthsField
from budgets.models import BudgetLine, Expense
from budgets.selectors.travel import NAMES, MealTable
from projects.fields import DayField, MoneyField, Sentences, ShortText, in_order
from projects.meanwhile import Meanwhile
from projects.words import day as day_words
from projects.words import money

MEALS = [(name, name.capitalize()) for name in NAMES]
ROWS_AT_FIRST, ROWS_MORE, ROWS_MOST = 2, 3, 60


class LegForm(Sentences, forms.Form):
    """One drive."""

    day = DayField(label="Day")
    start = ShortText(label="From", max_length=80)
    end = ShortText(label="To", max_length=80)
    miles = HundredthsField(label="Miles", example="14.2")
    purpose = ShortText(label="Why", max_length=160)

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        for name, said in (
            ("start", "Write where it began, such as Studio, Tannery Bank."),
            ("end", "Write where it led, such as Saltglaze Metalworks."),
            ("purpose", "Write what for, such as Fit check of the frame."),
        ):
            self.fields[name].error_messages["required"] = said

    def clean_day(self) -> date:
        instead = "Log a trip once it was driven."
        return not_to_come(self.cleaned_data["day"], self.today, instead)


class Legs(forms.BaseFormSet):  # type: ignore[type-arg]
    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        kwargs.setdefault("prefix", "legs")
        kwargs["form_kwargs"] = {"today": today}
        super().__init__(*args, **kwargs)

    def clean(self) -> None:
        if not any(self.errors) and not self.rows():
            raise ValidationError("Write at least one drive: day, from, to, miles and why.")

    def rows(self) -> list[dict[str, Any]]:
        found = [form.cleaned_data for form in self.forms if form.has_changed()]
        return sorted((row for row in found if row), key=lambda row: row["day"])


def legs_formset(extra: int) -> type[Legs]:
    made = forms.formset_factory(LegForm, formset=Legs, extra=extra, max_num=ROWS_MOST)
    return cast("type[Legs]", made)


class JourneyForm(Sentences, forms.Form):
    """What a trip and a stay have in common: who, and which budget line."""

    payee = ShortText(label="Who travelled", max_length=120)
    line = LineChoice(label="What for")

    def __init__(
        self, *args: Any, instance: Expense, lines: Iterable[BudgetLine], **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.instance, self.project = instance, instance.project
        line = self.fields["line"]
        assert isinstance(line, LineChoice)
        line.offer(self.project, lines, "Choose a budget line")
        line.error_messages["required"] = "Choose the budget line it belongs to."
        self.fields["payee"].error_messages["required"] = "Write who travelled, such as Artist."


class TripForm(JourneyForm):
    """The drives themselves are lines beside it."""


class TripEdit(Meanwhile, TripForm):
    pass


class StayDays(Sentences, forms.Form):
    """From when to when: asked first, so that each day can be shown."""

    first = DayField(label="First day away")
    last = DayField(label="Last day away")

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        in_order(self, "first", "last")
        first, last = values.get("first"), values.get("last")
        if first and last and (last - first).days >= LONGEST:
            self.add_error("last", "That is more than a year. Check the dates.")
        return values


class StayForm(JourneyForm):
    """Nights and meals of the days between; a provided meal is ticked on its day."""

    place = ShortText(label="Town", max_length=80)
    purpose = ShortText(label="Why", max_length=160)
    night = MoneyField(
        label="A night, if the place has a rate of its own",
        required=False,
        help_text="Empty: the standard rate. If less was paid, write what was paid.",
    )
    meals = forms.TypedChoiceField(
        label="Meals and incidentals of a full day", required=False, coerce=int, empty_value=None
    )

    def __init__(
        self, *args: Any, days: list[date], table: MealTable, today: date, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.days, self.today = days, today
        currency = self.project.currency
        night, tier = self.fields["night"], self.fields["meals"]
        assert isinstance(night, MoneyField) and isinstance(tier, forms.TypedChoiceField)
        night.currency = currency
        tiers = [(each.tier, money(each.tier, currency)) for each in table.tiers]
        tier.choices = [("", "The standard tier"), *tiers]
        self.fields["place"].error_messages["required"] = "Write where the nights were spent."
        self.fields["purpose"].error_messages["required"] = (
            "Write what for, such as Fit check at the sewing loft."
        )
        for each in days:
            self.fields[field_of(each)] = meals_field(each, days)

    def provided(self) -> dict[date, list[str]]:
        ticked = {each: self.cleaned_data.get(field_of(each)) or [] for each in self.days}
        return {each: names for each, names in ticked.items() if names}

    def day_fields(self) -> list[Any]:
        return [self[field_of(each)] for each in self.days]

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        if self.days[-1] > self.today:
            self.add_error(
                None,
                f"{day_words(self.days[-1])} is still to come. Log nights away once you are back.",
            )
        return values


class StayEdit(Meanwhile, StayForm):
    pass


def field_of(day: date) -> str:
    return f"meals_{day.isoformat()}"


def meals_field(day: date, days: list[date]) -> forms.MultipleChoiceField:
    edge = ", three quarters of a day" if day in (days[0], days[-1]) else ""
    return forms.MultipleChoiceField(
        label=f"{day_words(day)}{edge}",
        choices=MEALS,
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )
