"""Where the money of the project comes from, by name, and how sure it is."""

from __future__ import annotations

from collections.abc import Iterator

from budgets.engine.reporting import in_dollars
from budgets.models import Fund
from budgets.selectors.reports.source import Source, is_gifts, is_own
from budgets.selectors.reports.table import Column, Kind, Row, Table

CENTS = 100
COLUMNS = (
    Column("Source"),
    Column("Kind"),
    Column("Standing"),
    Column("Promised", Kind.MONEY),
    Column("Came in", Kind.MONEY),
    Column("Used", Kind.MONEY),
)
Line = tuple[str, str, str, int, int, int]


def income_table(source: Source, fund: Fund | None = None) -> Table:
    """This fund first; gifts in kind stand on this side too, at the value they have as costs."""
    rows = list(lines(source, fund))
    money = [list(column) for column in zip(*(row[3:] for row in rows), strict=True)]
    if source.whole:
        money = [[CENTS * part for part in in_dollars(column)] for column in money]
    amounts = list(zip(*money, strict=True))
    return Table(
        key="income",
        heading="Where the money comes from",
        columns=COLUMNS,
        rows=tuple(Row((*row[:3], *cents)) for row, cents in zip(rows, amounts, strict=True)),
        total=Row(("In all", "", "", *(sum(column) for column in money))) if rows else None,
        whole=source.whole,
    )


def lines(source: Source, first: Fund | None) -> Iterator[Line]:
    books = source.books
    others = [row for row in books.funds if first is None or row.pk != first.pk]
    for row in [first, *others] if first else others:
        if not is_gifts(row) and not is_own(row):
            yield fund_line(source, row)
    own = [row for row in books.funds if is_own(row)]
    free = sum(books.unassigned.values())
    used = sum(source.charged(row) for row in own) + free
    put_in = max(sum(row.award_cents for row in own), used)
    if put_in:
        yield ("Own money", "Own money", "Put in", put_in, used, used)
    gifts = sum(books.expense_values[row.pk].amount for row in books.expenses if row.in_kind)
    if gifts:
        yield ("Gifts in kind", "In-kind", "Given", gifts, gifts, gifts)


def fund_line(source: Source, row: Fund) -> Line:
    return (
        row.name,
        row.get_kind_display(),
        row.get_status_display(),
        row.award_cents,
        source.received[row.pk],
        source.charged(row),
    )
