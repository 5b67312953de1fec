"""A report as plain values: the same rows become the page, the PDF and the CSV."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import TypeAlias

from budgets.engine.money import CENTS, percent
from budgets.selectors.appendix import Appendix, Bound
from projects.hooks import Level

Papers: TypeAlias = tuple[Bound, ...]
Value: TypeAlias = str | int | date | Papers | None


class Kind(StrEnum):
    TEXT = "text"
    MONEY = "money"  # whole cents
    DAY = "day"
    RATE = "rate"  # basis points
    PAPERS = "papers"


NUMBERS = (Kind.MONEY, Kind.RATE)
NONE, NO_PAPER = "–", "no paper"


@dataclass(frozen=True, slots=True)
class Column:
    title: str
    kind: Kind = Kind.TEXT
    warns: bool = False  # what is below zero here is wrong

    @property
    def is_number(self) -> bool:
        return self.kind in NUMBERS


@dataclass(frozen=True, slots=True)
class Cell:
    """A value with its words, and what it links to."""

    column: Column
    value: Value
    whole: bool = False
    url: str = ""
    span: int = 1

    @property
    def text(self) -> str:
        return words_of(self.value, self.column.kind, whole=self.whole)

    @property
    def papers(self) -> Papers:
        return self.value if isinstance(self.value, tuple) else ()

    @property
    def is_day(self) -> bool:
        return self.column.kind is Kind.DAY

    @property
    def is_below(self) -> bool:
        return self.column.warns and isinstance(self.value, int) and self.value < 0


@dataclass(frozen=True, slots=True)
class Row:
    values: tuple[Value, ...]
    url: str = ""  # what the first cell links to on the page
    is_group: bool = False  # the name of a group, alone in its row
    is_sum: bool = False


@dataclass(frozen=True, kw_only=True)
class Table:
    """Rows under columns. The first column names the row; `total` is the last row, or none."""

    key: str
    heading: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    total: Row | None = None
    note: str = ""
    empty: str = ""
    whole: bool = False

    def cells(self, row: Row) -> tuple[Cell, ...]:
        if row.is_group:
            return (Cell(self.columns[0], row.values[0], span=len(self.columns)),)
        return tuple(
            Cell(column, value, self.whole, row.url if place == 0 else "")
            for place, (column, value) in enumerate(zip(self.columns, row.values, strict=True))
        )

    @property
    def lines(self) -> list[tuple[Row, tuple[Cell, ...]]]:
        return [(row, self.cells(row)) for row in self.rows]

    @property
    def total_cells(self) -> tuple[Cell, ...]:
        return self.cells(self.total) if self.total else ()


@dataclass(frozen=True, slots=True)
class Finding:
    """What a reader of the report would stop at: a sentence, its colour, where to mend it."""

    says: str
    level: Level = Level.NEAR
    url: str = ""
    action: str = ""


@dataclass(frozen=True, kw_only=True)
class Report:
    """One report of one fund, or of the whole project, up to the end of a day."""

    key: str
    title: str
    sentence: str
    through: date
    facts: tuple[tuple[str, str], ...] = ()
    tables: tuple[Table, ...] = ()
    findings: tuple[Finding, ...] = ()
    notes: tuple[str, ...] = ()
    whole: bool = False
    wide: bool = False  # as wide as a page turned on its side
    appendix: Appendix = field(default_factory=Appendix)


def words_of(value: Value, kind: Kind, *, whole: bool = False) -> str:
    """A value as it stands in a table of a page or a PDF.

    >>> words_of(-121240, Kind.MONEY), words_of(418000, Kind.MONEY, whole=True)
    ('−1,212.40', '4,180')
    """
    if value is None:
        return ""
    if isinstance(value, tuple):
        return ", ".join(bound.name for bound in value) or NO_PAPER
    if isinstance(value, date):
        return f"{value.day} {value:%b %Y}"
    if isinstance(value, int):
        return (
            percent(value) if kind is Kind.RATE else amount(value, whole=whole) if value else NONE
        )
    return value


def amount(cents: int, *, whole: bool = False) -> str:
    """Money in a column: no symbol, always or never with its cents."""
    units, rest = divmod(abs(cents), CENTS)
    tail = "" if whole else f".{rest:02d}"
    return f"{'−' if cents < 0 else ''}{units:,}{tail}"


def plain(value: Value, kind: Kind) -> str:
    """A value as it stands in a CSV: ISO days, plain decimals, numbers of papers.

    >>> plain(-121240, Kind.MONEY), plain(1050, Kind.RATE), plain(date(2031, 3, 3), Kind.DAY)
    ('-1212.40', '10.50', '2031-03-03')
    """
    if value is None:
        return ""
    if isinstance(value, tuple):
        return " ".join(bound.kept_as for bound in value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, int):
        units, rest = divmod(abs(value), CENTS)
        return f"{'-' if value < 0 else ''}{units}.{rest:02d}"
    return value
