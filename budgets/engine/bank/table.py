"""The text of a bank's file as a header and rows, whatever stands above them."""

import csv
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from io import StringIO

from budgets.engine.bank.cells import BankError, is_amount, is_day

DELIMITERS = ",;\t|"
MOST_ROWS = 5_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """`first` is the line number of the first row, counted from 1, for sentences about a row."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    first: int


def read_table(text: str) -> Table:
    """The rows of a file, without the lines above the header and those of totals.

    A line with fewer cells filled than any that holds a day and an amount is no row. The delimiter
    is the one with which most lines are such entries. Raises BankError for a file without rows,
    with one column, or of more than 5,000 rows.

    >>> table = read_table("Account;1234\\n\\nDay;Payee;Amount\\n2031-03-03;Weir Bakery;-12,40\\n")
    >>> table.header, table.rows
    (('Day', 'Payee', 'Amount'), (('2031-03-03', 'Weir Bakery', '-12,40'),))
    """
    lines = max((_split(text, mark) for mark in DELIMITERS), key=_evenness)
    width = _width(lines)
    if width < 2:
        raise BankError("This file has no columns. Export it from the bank as comma separated.")
    kept = [(number, row) for number, row in lines if any(row)]
    places = [place for place, (_, row) in enumerate(kept) if _is_entry(row)]
    if not places:
        raise BankError("No line of this file holds a day and an amount.")
    heads = [place for place in range(places[0]) if _is_header(kept[place][1])]
    header = _header(kept[heads[-1]][1], width) if heads else _numbered(width)
    start = heads[-1] + 1 if heads else places[0]
    least = min(_filled(kept[place][1]) for place in places)
    rows = [_wide(row, width) for _, row in kept[start:] if _filled(row) >= least]
    if len(rows) > MOST_ROWS:
        raise BankError(f"This file has {len(rows):,} rows; bring at most {MOST_ROWS:,} at once.")
    return Table(header=header, rows=tuple(rows), first=kept[start][0])


Lines = list[tuple[int, tuple[str, ...]]]


def _split(text: str, mark: str) -> Lines:
    reader = csv.reader(StringIO(text.lstrip("\ufeff"), newline=""), delimiter=mark)
    try:
        return [(reader.line_num, tuple(cell.strip() for cell in row)) for row in reader]
    except csv.Error as error:
        raise BankError(
            "This file cannot be read as rows. Export it as comma separated."
        ) from error


def _width(lines: Lines) -> int:
    counts = Counter(len(row) for _, row in lines if any(row))
    return max(counts, key=lambda width: (counts[width], width), default=0)


def _evenness(lines: Lines) -> tuple[int, int]:
    """How many lines are entries, then how many columns they have."""
    return sum(_is_entry(row) for _, row in lines), _width(lines)


def _is_entry(row: Sequence[str]) -> bool:
    return any(is_day(cell) for cell in row) and any(
        is_amount(cell) and not is_day(cell) for cell in row
    )


def _filled(row: Sequence[str]) -> int:
    return sum(bool(cell) for cell in row)


def _wide(row: Sequence[str], width: int) -> tuple[str, ...]:
    return tuple([*row, *[""] * width][:width])


def _is_header(row: Sequence[str]) -> bool:
    """The names of columns hold no figures."""
    return _filled(row) > 1 and not any(sign.isdigit() for cell in row for sign in cell)


def _header(row: Sequence[str], width: int) -> tuple[str, ...]:
    """The line above the first row, with a name for every column."""
    pairs = zip(_wide(row, width), _numbered(width), strict=True)
    return tuple(name or number for name, number in pairs)


def _numbered(width: int) -> tuple[str, ...]:
    return tuple(f"Column {number}" for number in range(1, width + 1))
