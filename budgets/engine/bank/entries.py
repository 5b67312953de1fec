"""The rows of a bank's file as money that went out or came in, each with a key of its own."""

import hashlib
from collections import Counter
from dataclasses import dataclass
from datetime import date

from budgets.engine.bank.cells import BankError, cents_in, day_in
from budgets.engine.bank.columns import Columns
from budgets.engine.bank.table import Table


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """`cents` went out when above zero, came in when below.

    `key` is the same whenever the same line of the bank is read, in whichever file: two lines that
    are alike in all count as the first and the second.
    """

    row: int
    day: date
    payee: str
    memo: str
    reference: str
    cents: int
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """A row that cannot be read, with a sentence that says why."""

    row: int
    text: str
    sentence: str


def entries(table: Table, columns: Columns) -> tuple[Entry | Wrong, ...]:
    """Every row in the order of the file; one that cannot be read is a Wrong, never dropped.

    >>> from budgets.engine.bank.columns import guess
    >>> from budgets.engine.bank.table import read_table
    >>> table = read_table("Day,Payee,Amount\\n2031-03-03,Weir Bakery,-12.40\\n")
    >>> [(entry.payee, entry.cents) for entry in entries(table, guess(table))]
    [('Weir Bakery', 1240)]
    """
    seen: Counter[tuple[object, ...]] = Counter()
    return tuple(_entry(number, row, columns, seen) for number, row in enumerate(table.rows))


def _entry(
    number: int, row: tuple[str, ...], columns: Columns, seen: Counter[tuple[object, ...]]
) -> Entry | Wrong:
    try:
        day, cents = day_in(row[columns.day], columns.order), _cents(row, columns)
    except BankError as error:
        return Wrong(row=number, text=" ".join(filter(None, row)), sentence=str(error))
    payee, memo, reference = (_text(row, place) for place in _text_places(columns))
    facts = (day.isoformat(), payee.casefold(), memo.casefold(), reference, cents)
    seen[facts] += 1
    return Entry(
        row=number,
        day=day,
        payee=payee,
        memo=memo,
        reference=reference,
        cents=cents,
        key=hashlib.sha256(repr((*facts, seen[facts])).encode()).hexdigest()[:40],
    )


def _text_places(columns: Columns) -> tuple[int | None, ...]:
    return columns.payee, columns.memo, columns.reference


def _text(row: tuple[str, ...], place: int | None) -> str:
    return "" if place is None else " ".join(row[place].split())


def _cents(row: tuple[str, ...], columns: Columns) -> int:
    """Money out is above zero, money in below, whichever way the bank writes them."""
    if columns.amount is not None:
        cents = cents_in(row[columns.amount], comma=columns.comma)
        return -cents if columns.spent_below_zero else cents
    out, into = (
        abs(cents_in(row[place], comma=columns.comma)) if place is not None and row[place] else 0
        for place in (columns.out, columns.into)
    )
    if not out and not into:
        raise BankError("This row holds no amount.")
    return out - into
