"""A gift in kind: the fields that its kind asks for, and the lines of a time sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError

from budgets.engine.gifts import Line, NotLater, hundredths_between, overlaps, too_long
from budgets.forms.audit import not_to_come
from budgets.forms.lines import LineChoice
from budgets.forms.quantities import ClockField, HundredthsField, plain
from budgets.models import BudgetLine, Expense, Hours, Unit
from budgets.selectors.gift_kinds import Kind
from projects.fields import MOST_TYPED, DayField, MoneyField, Sentences, ShortText
from projects.models import Project

ROWS_MOST = 80
PARTS: dict[str, Callable[[Kind], bool]] = {
    "day": lambda kind: not kind.by_hours and not kind.asks_for("legs"),
    "skill": lambda kind: kind.asks_for("skill"),
    "rate": lambda kind: kind.asks_for("rate"),
    "quantity": lambda kind: kind.asks_for("quantity"),
    "unit": lambda kind: kind.asks_for("unit"),
    "listed": lambda kind: kind.asks_for("listed"),
    "paid": lambda kind: kind.asks_for("paid"),
}
RATE_OF = {
    "hour": "For one hour",
    "day": "Hire for one day",
    "item": "Worth of one piece",
}


class GiftForm(Sentences, forms.Form):
    payee = ShortText(label="Given by", max_length=120)
    line = LineChoice(label="What for")
    what = ShortText(label="What was given", max_length=240)
    day = DayField(label="Day")
    quantity = HundredthsField(label="How many", example="9")
    unit = forms.ChoiceField(label="Measured in")
    rate = MoneyField(label="Rate", min_cents=1)
    skill = forms.BooleanField(label="The work needed that trade’s skill")
    listed = MoneyField(label="List price", min_cents=1)
    paid = MoneyField(label="Price paid")
    basis = ShortText(label="Where the value comes from", max_length=240, required=False)
    need = ShortText(label="Why the work needed it", max_length=240, required=False)

    def __init__(
        self,
        *args: Any,
        kind: Kind,
        instance: Expense,
        today: date,
        lines: Iterable[BudgetLine],
        **kwargs: Any,
    ) -> None:
        self.kind, self.instance, self.today = kind, instance, today
        self.project: Project = instance.project
        super().__init__(*args, **kwargs)
        for name, needed in PARTS.items():
            if not needed(kind):
                del self.fields[name]
        self.describe(lines)

    def describe(self, lines: Iterable[BudgetLine]) -> None:
        fields, kind = self.fields, self.kind
        line = fields["line"]
        assert isinstance(line, LineChoice)
        line.offer(self.project, lines, "Choose a budget line")
        line.error_messages["required"] = "Choose the budget line it belongs to."
        fields["payee"].error_messages["required"] = "Write who gave it, such as Volunteer crew."
        fields["what"].error_messages["required"] = "Write what it was, in a few words."
        fields["basis"].label = kind.basis
        fields["basis"].help_text = f"Such as: {kind.basis_example}."
        for name in ("rate", "listed", "paid"):
            if name in fields:
                fields[name].currency = self.project.currency  # type: ignore[attr-defined]
        if "rate" in fields and "unit" not in fields:
            fields["rate"].label = RATE_OF.get(kind.unit, "Rate")
        if "unit" in fields:
            choice = fields["unit"]
            assert isinstance(choice, forms.ChoiceField)
            names = dict(Unit.choices)
            choice.choices = [(key, names[key].capitalize()) for key in kind.units]
        if "skill" in fields:
            fields["skill"].error_messages["required"] = (
                "A trade’s rate is only for work that needs the trade. For other work choose "
                "“Volunteer hours, at the published value”."
            )

    def clean_day(self) -> date:
        instead = "A gift is logged once it was given."
        return not_to_come(self.cleaned_data["day"], self.today, instead)

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        listed, paid = values.get("listed"), values.get("paid")
        if listed is not None and paid is not None and paid >= listed:
            self.add_error(
                "paid", "That is no less than the list price, so nothing was given. Check both."
            )
        return values

    def check_worth(self, cents: int) -> bool:
        """A gift is worth something, and not more than a project is."""
        if cents < 1:
            self.add_error(None, "It comes to less than a cent. Check the number and the rate.")
        elif cents > MOST_TYPED:
            self.add_error(None, "It comes to more than 10,000,000. Check the number and the rate.")
        return 1 <= cents <= MOST_TYPED


class HoursForm(Sentences, forms.Form):
    """One line of a time sheet: hours, or start and end, or both when there was a pause."""

    person = ShortText(label="Name", max_length=120)
    day = DayField(label="Day")
    starts = ClockField(label="Start", required=False)
    ends = ClockField(label="End", required=False)
    hundredths = HundredthsField(label="Hours", required=False, example="3.5")
    what = ShortText(label="Work", max_length=200)
    supervisor = ShortText(label="Who saw it", max_length=120, required=False)
    signed = forms.BooleanField(label="Signed", required=False)

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        self.fields["person"].error_messages["required"] = "Write who worked."
        self.fields["what"].error_messages["required"] = "Write what was done."

    def clean_day(self) -> date:
        instead = "Write hours down once they were worked."
        return not_to_come(self.cleaned_data["day"], self.today, instead)

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        starts, ends, said = (values.get(name) for name in ("starts", "ends", "hundredths"))
        if "hundredths" in self.errors or "starts" in self.errors or "ends" in self.errors:
            return values
        if bool(starts) != bool(ends):
            self.add_error("ends" if starts else "starts", "Start and end belong together.")
        elif starts and ends:
            self.between(values)
        elif not said:
            self.add_error("hundredths", "Write how many hours, or when they started and ended.")
        return values

    def between(self, values: dict[str, Any]) -> None:
        try:
            span = hundredths_between(values["starts"], values["ends"])
        except NotLater:
            self.add_error(
                "ends",
                "The end is not after the start. Work past midnight is two lines, one a day.",
            )
            return
        said = values.get("hundredths") or span
        if said > span:
            self.add_error(
                "hundredths",
                f"Start and end are {plain(span)} hours apart; {plain(said)} do not fit. Leave "
                "the hours empty, or write fewer when there was a pause.",
            )
        values["hundredths"] = said


class Sheet(forms.BaseFormSet):  # type: ignore[type-arg]
    """The lines together: nobody works twice at the same time."""

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        kwargs.setdefault("prefix", "rows")
        kwargs["form_kwargs"] = {"today": today}
        super().__init__(*args, **kwargs)

    def clean(self) -> None:
        if any(self.errors):
            return
        if not self.rows():
            raise ValidationError("Write at least one line: name, day, hours and work.")
        lines = [line_of(str(at), row) for at, row in enumerate(self.rows())]
        kept = [form for form in self.forms if form.cleaned_data]
        for one, other in overlaps(lines):
            kept[int(other)].add_error(
                "starts", f"{lines[int(one)].person} has another line at that time."
            )
        for key in too_long(lines):
            kept[int(key)].add_error(
                "hundredths", f"That makes more than 24 hours of {lines[int(key)].person} that day."
            )
        if any(form.errors for form in self.forms):
            raise ValidationError("Some lines do not fit together: see beside them.")

    def rows(self) -> list[dict[str, Any]]:
        return [form.cleaned_data for form in self.forms if form.cleaned_data]


def line_of(key: str, row: dict[str, Any]) -> Line:
    return Line(
        key=key,
        person=row["person"],
        day=row["day"],
        hundredths=row["hundredths"],
        starts=row["starts"],
        ends=row["ends"],
        signed=row["signed"],
    )


def sheet_formset(extra: int) -> type[Sheet]:
    made = forms.formset_factory(HoursForm, formset=Sheet, extra=extra, max_num=ROWS_MOST)
    return cast("type[Sheet]", made)


def rows_of(hours: Iterable[Hours]) -> list[dict[str, Any]]:
    names = ("person", "day", "starts", "ends", "hundredths", "what", "supervisor", "signed")
    return [{name: getattr(row, name) for name in names} for row in hours]
