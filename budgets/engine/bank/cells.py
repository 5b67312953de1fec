"""One cell of a bank's file: a day or an amount, in the ways in which banks write them."""

import re
from datetime import date
from enum import StrEnum

from budgets.engine.money import CENTS, MoneyError

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
NUMBERS = re.compile(r"(\d{1,4})[-/. ](\d{1,2})[-/. ](\d{1,4})", re.ASCII)
PACKED = re.compile(r"(\d{4})(\d{2})(\d{2})", re.ASCII)
DAY_NAMED = re.compile(r"(\d{1,2})[- ]([a-z]{3})[a-z]*\.?[- ,]+(\d{2,4})", re.ASCII)
MONTH_NAMED = re.compile(r"([a-z]{3})[a-z]*\.?[- ](\d{1,2})[ ,]+(\d{2,4})", re.ASCII)
SIGNS = str.maketrans({"\u2212": "-", "\u2013": "-", "\u00a0": " ", "\u202f": " ", "\u2019": "'"})
MONEY = re.compile(r"[A-Z]{3}|[$£€]", re.ASCII)
POINT = re.compile(r"(?:\d{1,3}(?:[, ']\d{3})+|\d+)(?:\.(\d{1,2}))?", re.ASCII)
COMMA = re.compile(r"(?:\d{1,3}(?:[. ']\d{3})+|\d+)(?:,(\d{1,2}))?", re.ASCII)
CENTURY = 2000


class BankError(MoneyError):
    """A file or a cell that cannot be read; the message says what would be right."""

    code = "bank"


class DayOrder(StrEnum):
    """How a bank writes a day in numbers."""

    YEAR_FIRST = "year_first"
    DAY_FIRST = "day_first"
    MONTH_FIRST = "month_first"


def day_in(text: str, order: DayOrder = DayOrder.YEAR_FIRST) -> date:
    """The day in a cell. A year of four digits in front needs no order; a named month neither.

    Raises BankError.

    >>> day_in("2031-03-04"), day_in("20310304"), day_in("4 March 2031")
    (datetime.date(2031, 3, 4), datetime.date(2031, 3, 4), datetime.date(2031, 3, 4))
    >>> [day_in("03/04/31", order).month for order in (DayOrder.DAY_FIRST, DayOrder.MONTH_FIRST)]
    [4, 3]
    """
    year, month, day = _parts(_without_clock(text.strip().casefold()), order, text)
    try:
        return date(year + CENTURY if year < 100 else year, month, day)
    except ValueError as error:
        raise BankError(f"“{text}” is no day. Choose how this bank writes its days.") from error


def _without_clock(text: str) -> str:
    return re.sub(r"[ t]\d{1,2}:\d{2}.*$", "", text)


def _parts(text: str, order: DayOrder, shown: str) -> tuple[int, int, int]:
    if found := PACKED.fullmatch(text):
        return int(found[1]), int(found[2]), int(found[3])
    if (found := DAY_NAMED.fullmatch(text)) and found[2] in MONTHS:
        return int(found[3]), MONTHS.index(found[2]) + 1, int(found[1])
    if (found := MONTH_NAMED.fullmatch(text)) and found[1] in MONTHS:
        return int(found[3]), MONTHS.index(found[1]) + 1, int(found[2])
    if found := NUMBERS.fullmatch(text):
        return _in_order(int(found[1]), int(found[2]), int(found[3]), len(found[1]) == 4, order)
    raise BankError(f"“{shown[:24]}” is no day such as 2031-03-04.")


def _in_order(
    one: int, two: int, three: int, year_first: bool, order: DayOrder
) -> tuple[int, int, int]:
    if year_first or order is DayOrder.YEAR_FIRST:
        return one, two, three
    return (three, two, one) if order is DayOrder.DAY_FIRST else (three, one, two)


def cents_in(text: str, *, comma: bool = False) -> int:
    """The cents in a cell; below zero with a minus before or behind, or in brackets.

    `comma` says that a comma stands before the cents. Raises BankError.

    >>> [cents_in(text) for text in ("1,234.50", "-12", "(7.5)", "$3.00", "8.25-")]
    [123450, -1200, -750, 300, -825]
    >>> cents_in("1.234,50", comma=True)
    123450
    """
    bare = MONEY.sub("", text.translate(SIGNS)).strip()
    below = bare.startswith(("-", "(")) or bare.endswith("-")
    digits = bare.strip("-+() ")
    found = (COMMA if comma else POINT).fullmatch(digits)
    if found is None:
        mark = "a comma" if comma else "a point"
        raise BankError(f"“{text[:24]}” is no amount with {mark} before the cents.")
    whole = re.sub(r"\D", "", digits[: found.start(1) - 1] if found[1] else digits)
    cents = int(whole) * CENTS + int((found[1] or "0").ljust(2, "0"))
    return -cents if below else cents


def is_day(text: str) -> bool:
    """Whether a cell is a day in any order."""
    for order in (DayOrder.MONTH_FIRST, DayOrder.DAY_FIRST):
        try:
            day_in(text, order)
            return True
        except BankError:
            continue
    return False


def is_amount(text: str) -> bool:
    for comma in (False, True):
        try:
            cents_in(text, comma=comma)
            return True
        except BankError:
            continue
    return False
