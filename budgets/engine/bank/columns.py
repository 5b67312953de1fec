"""Which column of a bank's file holds what, guessed from what stands in it."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from budgets.engine.bank.cells import BankError, DayOrder, cents_in, is_amount, is_day
from budgets.engine.bank.table import Table

MOSTLY = 0.8
WORDS = {
    "balance": r"balance|saldo",
    "out": r"debit|withdraw|paid out|money out|spent|out\b",
    "into": r"credit|deposit|paid in|money in|received|in\b",
    "payee": r"payee|merchant|counterpart|name|description|details|narrative|text",
    "memo": r"memo|note|message|type|category",
    "reference": r"\bref|reference|check|cheque|number|\bid\b|transaction id",
}
DECIMALS = re.compile(r"([.,])\d{2}\D*$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Places of columns, counted from 0. Either `amount`, or `out` with perhaps `into`.

    `order_sure` is False when the days of the file leave open which number is the month.
    """

    day: int
    payee: int
    amount: int | None = None
    out: int | None = None
    into: int | None = None
    memo: int | None = None
    reference: int | None = None
    order: DayOrder = DayOrder.YEAR_FIRST
    comma: bool = False
    spent_below_zero: bool = True
    order_sure: bool = True


def guess(table: Table) -> Columns:
    """The columns of a table by their content and the words of the header.

    Raises BankError when no column holds days, or none holds amounts.

    >>> from budgets.engine.bank.table import read_table
    >>> found = guess(read_table("Date,Payee,Out,In\\n31/03/2031,Weir Bakery,12.40,\\n"))
    >>> found.day, found.payee, found.out, found.into, found.order.value
    (0, 1, 2, 3, 'day_first')
    """
    days = [place for place in _places(table) if _mostly(is_day, _cells(table, place))]
    if not days:
        raise BankError("No column of this file holds days.")
    numbers = [place for place in _amounts(table) if place not in days]
    if not numbers:
        raise BankError("No column of this file holds amounts.")
    order, sure = _order(_cells(table, days[0]))
    money = _money(table, numbers)
    texts = [place for place in _places(table) if place not in {*days, *_amounts(table)}]
    shown = [cell for place in numbers for cell in _cells(table, place)]
    return Columns(
        day=days[0],
        **money,
        **_texts(table, texts or [days[0]]),
        order=order,
        order_sure=sure,
        comma=_comma(shown),
        spent_below_zero=_below_zero(table, money.get("amount"), _comma(shown)),
    )


def _places(table: Table) -> range:
    return range(len(table.header))


def _cells(table: Table, place: int) -> list[str]:
    return [row[place] for row in table.rows if row[place]]


def _mostly(holds: object, cells: Sequence[str]) -> bool:
    assert callable(holds)
    return bool(cells) and sum(bool(holds(cell)) for cell in cells) >= MOSTLY * len(cells)


def _amounts(table: Table) -> list[int]:
    """Columns of amounts, without the running balance; those with cents before those without."""
    found = [
        place
        for place in _places(table)
        if not _is_called(table, place, "balance")
        and not _is_called(table, place, "reference")
        and (_mostly(is_amount, _cells(table, place)) or _is_empty_money(table, place))
    ]
    return sorted(found, key=lambda place: not any(map(DECIMALS.search, _cells(table, place))))


def _is_empty_money(table: Table, place: int) -> bool:
    return not _cells(table, place) and any(_is_called(table, place, w) for w in ("out", "into"))


def _is_called(table: Table, place: int, what: str) -> bool:
    return bool(re.search(WORDS[what], table.header[place].casefold()))


def _money(table: Table, numbers: Sequence[int]) -> dict[str, int]:
    out = next((place for place in numbers if _is_called(table, place, "out")), None)
    into = next((p for p in numbers if p != out and _is_called(table, p, "into")), None)
    if out is not None and into is not None:
        return {"out": out, "into": into}
    return {"amount": numbers[0]} if out is None else {"out": out}


def _texts(table: Table, places: Sequence[int]) -> dict[str, int]:
    """The payee by its header, else the longest text; then a note and a reference by theirs."""
    named = [place for place in places if _is_called(table, place, "payee")]
    payee = named[0] if named else max(places, key=lambda p: len("".join(_cells(table, p))))
    found = {"payee": payee}
    for what in ("reference", "memo"):
        rest = [p for p in _places(table) if p not in found.values() and _is_called(table, p, what)]
        if rest:
            found[what] = rest[0]
    return found


def _order(cells: Iterable[str]) -> tuple[DayOrder, bool]:
    pairs = [re.match(r"(\d{1,4})[-/. ](\d{1,2})", cell) for cell in cells]
    numbers = [(int(found[1]), int(found[2]), len(found[1])) for found in pairs if found]
    if not numbers or any(length == 4 for *_, length in numbers):
        return DayOrder.YEAR_FIRST, True
    if any(first > 12 for first, *_ in numbers):
        return DayOrder.DAY_FIRST, True
    return DayOrder.MONTH_FIRST, any(second > 12 for _, second, _ in numbers)


def _comma(cells: Iterable[str]) -> bool:
    marks = [found[1] for cell in cells if (found := DECIMALS.search(cell))]
    return marks.count(",") > marks.count(".")


def _below_zero(table: Table, amount: int | None, comma: bool) -> bool:
    """Whether money spent is below zero: when any amount is, or there is no telling."""
    if amount is None:
        return False
    found = [cell for cell in _cells(table, amount) if is_amount(cell)]
    below = [cell for cell in found if _signed(cell, comma) < 0]
    return bool(below)


def _signed(cell: str, comma: bool) -> int:
    try:
        return cents_in(cell, comma=comma)
    except BankError:
        return 0
