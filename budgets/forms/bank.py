"""A bank's file, which column of it is which, and what becomes of each line."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from budgets.engine.bank import BankError, Columns, DayOrder, Entry, Table, guess, read_table
from budgets.forms.lines import grouped
from budgets.models import BudgetLine
from budgets.selectors.bank import OUT, BankRow, State
from projects.fields import Sentences

MOST_BYTES = 2_000_000
POINT, COMMA = "point", "comma"
BELOW, ABOVE = "below", "above"
NO_TEXT = (
    "This is no text. In the bank's own page, export the account as comma separated values (CSV)."
)
ORDERS = (
    (DayOrder.YEAR_FIRST, "year, month, day"),
    (DayOrder.DAY_FIRST, "day, month, year"),
    (DayOrder.MONTH_FIRST, "month, day, year"),
)


@dataclass(frozen=True, slots=True)
class BankText:
    name: str
    text: str
    sha256: str


class BankFileForm(Sentences, forms.Form):
    file = forms.FileField(
        label="The bank's file",
        help_text="Comma separated values, as the bank exports them: up to 2 MB, 5,000 lines.",
        widget=forms.FileInput(attrs={"accept": ".csv,.txt,.tsv,text/csv,text/plain"}),
        error_messages={
            "required": "Choose the file that you exported from the bank.",
            "empty": "This file is empty. Choose another.",
        },
    )

    def clean_file(self) -> BankText:
        upload = self.cleaned_data["file"]
        if upload.size > MOST_BYTES:
            raise ValidationError("This file has more than 2 MB. Export a shorter time.")
        data: bytes = upload.read()
        text = decoded(data)
        try:
            guess(read_table(text))
        except BankError as error:
            raise ValidationError(str(error)) from error
        return BankText(str(upload.name)[:120], text, hashlib.sha256(data).hexdigest())


def decoded(data: bytes) -> str:
    if b"\x00" in data or data[:2] == b"PK":
        raise ValidationError(NO_TEXT)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def place(label: str, *, required: bool = False) -> forms.TypedChoiceField:
    return forms.TypedChoiceField(label=label, coerce=int, empty_value=None, required=required)


class ColumnsForm(Sentences, forms.Form):
    """Which column is which; the choices are the header of the file."""

    day = place("Day", required=True)
    payee = place("Who was paid", required=True)
    amount = place("Amount, in and out in one column")
    out = place("or money out")
    into = place("and money in")
    memo = place("Note")
    reference = place("Reference or check number")
    order = forms.ChoiceField(label="Days are written", choices=ORDERS)
    comma = forms.TypedChoiceField(
        label="Before the cents stands",
        choices=((POINT, "a point, as in 1,234.50"), (COMMA, "a comma, as in 1.234,50")),
        coerce=lambda choice: choice == COMMA,
    )
    spent_below_zero = forms.TypedChoiceField(
        label="Money spent is",
        choices=((BELOW, "below zero, as in −12.40"), (ABOVE, "above zero, as on many cards")),
        coerce=lambda choice: choice == BELOW,
    )

    def __init__(self, *args: Any, table: Table, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        named = [(str(number), name) for number, name in enumerate(table.header)]
        for field in self.fields.values():
            if isinstance(field, forms.TypedChoiceField) and field.coerce is int:
                field.choices = [("", "None"), *named]
                field.error_messages["required"] = "Choose a column of the file."

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        if values.get("amount") is None and values.get("out") is None and not self.errors:
            self.add_error("amount", "Choose the column of amounts, or that of money out.")
        if values.get("amount") is not None and values.get("out") is not None:
            self.add_error("out", "Choose the one column of amounts or this one, not both.")
        return values

    def columns(self) -> Columns:
        return Columns(**{**self.cleaned_data, "order": DayOrder(self.cleaned_data["order"])})


def columns_initial(columns: Columns) -> dict[str, Any]:
    names = ("day", "payee", "amount", "out", "into", "memo", "reference")
    return {
        **{name: getattr(columns, name) for name in names},
        "order": columns.order.value,
        "comma": COMMA if columns.comma else POINT,
        "spent_below_zero": BELOW if columns.spent_below_zero else ABOVE,
    }


class RowsForm(Sentences, forms.Form):
    """What becomes of each line that is shown, or that was when the form was sent."""

    def __init__(
        self, *args: Any, rows: Iterable[BankRow], lines: Iterable[BudgetLine], **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.rows, self.groups = list(rows), grouped(lines)
        for row in self.rows:
            if isinstance(row.entry, Entry):
                self.fields[row.field] = self.choice(row)

    def choice(self, row: BankRow) -> forms.ChoiceField:
        assert isinstance(row.entry, Entry)
        field = forms.ChoiceField(
            label=f"What {row.entry.payee} is for", required=False, initial=row.choice
        )
        field.choices = [("", "Decide later"), *self.offered(row), (OUT, "Leave it out")]
        return field

    def offered(self, row: BankRow) -> list[Any]:
        if row.state == State.CAME_IN:
            return []
        same = [(f"pays-{row.same.pk}", f"Pays “{row.same}”, logged already")] if row.same else []
        lines = [
            (name, [(f"line-{pk}", line) for pk, line in members]) for name, members in self.groups
        ]
        return [*same, *lines]

    def chosen(self) -> dict[int, str]:
        found = {row.entry.row: self.cleaned_data.get(row.field, "") for row in self.rows}
        return {number: choice for number, choice in found.items() if choice}

    def shown(self) -> list[tuple[BankRow, forms.BoundField | None]]:
        return [(row, self[row.field] if row.field in self.fields else None) for row in self.rows]
