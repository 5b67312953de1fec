"""Bring expenses in from a bank's file; each line becomes one expense, once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from datetime import date

from django.db import transaction

from budgets.engine.bank import Columns, Entry
from budgets.models import BankFile, BankLayout, BudgetLine, Expense
from budgets.selectors.bank import (
    OUT,
    BankRow,
    State,
    bank_rows,
    columns_of,
    layout_for,
    table_of,
)
from budgets.services.expenses import supplier_called
from budgets.services.lines import Who, say
from projects.models import Project
from projects.words import money, plural


class Changed(Exception):
    """Somebody has brought in, or removed, what was chosen here."""


@transaction.atomic
def keep_file(*, project: Project, name: str, text: str, sha256: str, user: Who) -> BankFile:
    """A file on its way in; the same bytes are one file. Raises the engine's BankError."""
    same = BankFile.objects.filter(project=project, sha256=sha256).first()
    if same:
        return same
    file = BankFile(project=project, name=name, text=text, sha256=sha256)
    table = table_of(file)
    file.layout = layout_for(project, table)
    columns_of(file, table)
    file.save()
    say(project, user, f"Opened the bank's file “{name}” with {plural(len(table.rows), 'line')}.")
    return file


@transaction.atomic
def keep_columns(*, file: BankFile, columns: Columns, user: Who) -> None:
    """Told once for every file with this header."""
    values = {**asdict(columns), "order": columns.order.value, "order_sure": True}
    header = list(table_of(file).header)
    layout, made = BankLayout.objects.update_or_create(
        project=file.project, header=header, defaults={"columns": values, "name": file.name[:80]}
    )
    file.layout = layout
    file.save(update_fields=["layout"])
    verb = "Told" if made else "Changed"
    say(file.project, user, f"{verb} which column is which in the bank's file “{file.name}”.")


@transaction.atomic
def bring_in(*, file: BankFile, chosen: Mapping[int, str], today: date, user: Who) -> str:
    """Make of each chosen line what was chosen for it; the rest waits. Raises Changed."""
    project = Project.objects.select_for_update().get(pk=file.project_id)
    rows = {row.entry.row: row for row in bank_rows(file, today)}
    lines = {line.pk: line for line in BudgetLine.objects.filter(project=project)}
    made, paid, left = [], [], list(file.choices.get(OUT, ()))
    for number, choice in chosen.items():
        entry = new_entry(rows.get(number))
        kind, _, pk = choice.partition("-")
        if choice == OUT:
            left.append(entry.key)
        elif kind == "pays":
            paid.append(pay(project, entry, int(pk)))
        else:
            made.append(make(file, rows[number], entry, lines.get(int(pk))))
    file.choices = {**file.choices, OUT: left}
    file.save(update_fields=["choices"])
    return told(file, made, paid, user)


def new_entry(row: BankRow | None) -> Entry:
    if row is None or row.state not in (State.NEW, State.CAME_IN):
        raise Changed
    assert isinstance(row.entry, Entry)
    return row.entry


def pay(project: Project, entry: Entry, pk: int) -> Expense:
    """The bank's line is the payment of a bill that is logged already."""
    bill = Expense.objects.filter(project=project, pk=pk, bank_ref="", cents=entry.cents).first()
    if bill is None:
        raise Changed
    bill.paid_on = entry.day
    bill.payment_ref = bill.payment_ref or entry.reference[:80]
    bill.bank_ref = entry.key
    bill.version += 1
    bill.save(update_fields=["paid_on", "payment_ref", "bank_ref", "version"])
    return bill


def make(file: BankFile, row: BankRow, entry: Entry, line: BudgetLine | None) -> Expense:
    if line is None:
        raise Changed
    expense = Expense(
        project=file.project,
        line=line,
        payee=row.payee[:120] or "Not named by the bank",
        cents=entry.cents,
        day=entry.day,
        paid_on=entry.day,
        payment_ref=entry.reference[:80],
        what=" ".join(filter(None, (entry.payee, entry.memo)))[:240],
        bank_ref=entry.key,
    )
    expense.supplier = supplier_called(expense)
    expense.save()
    return expense


def told(file: BankFile, made: list[Expense], paid: list[Expense], user: Who) -> str:
    amount = money(sum(row.cents for row in made), file.project.currency)
    parts = [f"{plural(len(made), 'expense')} of {amount}"] if made else []
    if paid:
        parts.append(f"the payment of {plural(len(paid), 'bill')}")
    if not parts:
        return "Nothing was brought in; what was left out is remembered."
    sentence = f"Brought in {' and '.join(parts)} from the bank's file “{file.name}”."
    say(file.project, user, sentence)
    return sentence


@transaction.atomic
def forget_file(*, file: BankFile, user: Who) -> str:
    sentence = f"Took the bank's file “{file.name}” away; what was brought in from it stays."
    say(file.project, user, sentence)
    file.delete()
    return sentence
