"""A bank's file beside what is already logged: what each line would become."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from functools import lru_cache

from django.core.paginator import Page, Paginator

from budgets.engine.bank import Columns, DayOrder, Entry, Table, Wrong, entries, guess, read_table
from budgets.models import BankFile, BankLayout, Expense
from projects.models import Project
from projects.words import money, plural

PAGE = 100
NEAR = timedelta(days=10)  # between a bill and the line of the bank that pays it
OUT = "out"


class State(StrEnum):
    NEW = "new"
    BROUGHT = "brought"  # it is an expense by now
    LEFT = "left"  # somebody said that it is none
    WRONG = "wrong"
    TO_COME = "to_come"  # a pending payment, of a day that is still to come
    CAME_IN = "came_in"


@dataclass(frozen=True, slots=True, kw_only=True)
class BankRow:
    """One line of the file; `choice` is what is offered for it, `same` what it seems to pay."""

    entry: Entry | Wrong
    state: State
    choice: str = ""
    same: Expense | None = None
    payee: str = ""

    @property
    def field(self) -> str:
        return f"row_{self.entry.row}"


@dataclass(frozen=True, slots=True, kw_only=True)
class BankSheet:
    file: BankFile
    rows: Page[BankRow]
    counts: Mapping[str, int]
    sentence: str


def table_of(file: BankFile) -> Table:
    """Raises ``budgets.engine.bank.BankError``; it was read when the file was kept."""
    return read_table(file.text)


def columns_of(file: BankFile, table: Table) -> Columns:
    return stored_columns(file.layout) if file.layout else guess(table)


def stored_columns(layout: BankLayout) -> Columns:
    values = dict(layout.columns)
    return Columns(**{**values, "order": DayOrder(values["order"])})


def layout_for(project: Project, table: Table) -> BankLayout | None:
    """The layout that was told once for files with this header."""
    return BankLayout.objects.filter(project=project, header=list(table.header)).first()


def bank_sheet(file: BankFile, today: date, *, page: str = "1") -> BankSheet:
    rows = bank_rows(file, today)
    waiting = [row for row in rows if row.state == State.NEW]
    rest = [row for row in rows if row.state in (State.WRONG, State.TO_COME, State.CAME_IN)]
    counts = {state.value: sum(row.state == state for row in rows) for state in State}
    return BankSheet(
        file=file,
        rows=Paginator([*waiting, *rest], PAGE).get_page(page),
        counts=counts,
        sentence=sentence(file.project, waiting, counts),
    )


def bank_rows(file: BankFile, today: date) -> list[BankRow]:
    """Every line in the order of the file; one query."""
    table = table_of(file)
    return rows_of(file, entries(table, columns_of(file, table)), today)


def rows_of(file: BankFile, found: Iterable[Entry | Wrong], today: date) -> list[BankRow]:
    known = list(Expense.objects.filter(project=file.project, in_kind=False).order_by("day", "pk"))
    brought = {expense.bank_ref for expense in known if expense.bank_ref}
    open_bills = [expense for expense in known if not expense.bank_ref]
    left = set(file.choices.get(OUT, ()))
    rows = []
    for entry in found:
        row = row_of(entry, today, brought, left, open_bills, known)
        if row.same:
            open_bills.remove(row.same)
        rows.append(row)
    return rows


def row_of(
    entry: Entry | Wrong,
    today: date,
    brought: set[str],
    left: set[str],
    open_bills: list[Expense],
    known: list[Expense],
) -> BankRow:
    if isinstance(entry, Wrong):
        return BankRow(entry=entry, state=State.WRONG)
    if entry.day > today:
        return BankRow(entry=entry, state=State.TO_COME)
    if entry.key in brought:
        return BankRow(entry=entry, state=State.BROUGHT)
    if entry.key in left:
        return BankRow(entry=entry, state=State.LEFT)
    if entry.cents <= 0:
        return BankRow(entry=entry, state=State.CAME_IN)
    same = logged_as(entry, open_bills)
    before = paid_before(entry, known)
    choice = f"pays-{same.pk}" if same else f"line-{before.line_id}" if before else ""
    payee = before.payee if before else entry.payee
    return BankRow(entry=entry, state=State.NEW, choice=choice, same=same, payee=payee)


def logged_as(entry: Entry, bills: Iterable[Expense]) -> Expense | None:
    """The bill of the same amount nearest to the day; of the same payee if there is one."""
    near = [
        bill for bill in bills if bill.cents == entry.cents and abs(bill.day - entry.day) <= NEAR
    ]
    return min(
        near,
        key=lambda bill: (not alike(bill.payee, entry.payee), abs(bill.day - entry.day)),
        default=None,
    )


def paid_before(entry: Entry, known: list[Expense]) -> Expense | None:
    """The last expense of the same payee: its name and its line are offered again."""
    return next((row for row in reversed(known) if alike(row.payee, entry.payee)), None)


def alike(one: str, other: str) -> bool:
    """Banks write names in capitals, cut short, with a town behind."""
    short, long = sorted((squeezed(one), squeezed(other)), key=len)
    return len(short) >= 4 and short in long


@lru_cache(maxsize=4096)  # the same names stand in line after line
def squeezed(name: str) -> str:
    return "".join(sign for sign in name.casefold() if sign.isalnum())


def sentence(project: Project, waiting: list[BankRow], counts: Mapping[str, int]) -> str:
    total = sum(row.entry.cents for row in waiting if isinstance(row.entry, Entry))
    if waiting:
        lines = plural(len(waiting), "payment")
        return (
            f"{lines} of {money(total, project.currency)} in all wait to be put on a budget line."
        )
    if counts[State.WRONG]:
        return f"{plural(counts[State.WRONG], 'line')} of this file cannot be read."
    return "Every payment of this file is brought in or left out."


def files_of(project: Project) -> list[BankFile]:
    return list(BankFile.objects.filter(project=project).defer("text"))
