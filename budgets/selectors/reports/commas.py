"""A table as comma separated values that a spreadsheet opens and cannot run."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from io import StringIO

from budgets.engine.reporting import safe_cell
from budgets.selectors.reports.table import Row, Table, plain

MARK = "\ufeff"  # by which a spreadsheet knows the encoding


def as_csv(table: Table) -> bytes:
    """UTF-8 with its mark; days as year-month-day, amounts as plain decimals; a group repeats."""
    return written(rows_of(table))


def rows_of(table: Table) -> Iterator[list[str]]:
    grouped = any(row.is_group for row in table.rows)
    titles = [column.title for column in table.columns]
    yield ["Group", *titles] if grouped else titles
    group = ""
    for row in table.rows:
        if row.is_group:
            group = str(row.values[0])
        elif not row.is_sum:
            cells = plain_cells(table, row)
            yield [group, *cells] if grouped else cells


def plain_cells(table: Table, row: Row) -> list[str]:
    pairs = zip(table.columns, row.values, strict=True)
    return [plain(value, column.kind) for column, value in pairs]


def written(rows: Iterable[Iterable[str]]) -> bytes:
    """Every cell that a spreadsheet would take for a formula is written as text."""
    out = StringIO(newline="")
    out.write(MARK)
    csv.writer(out).writerows([safe_cell(cell) for cell in row] for row in rows)
    return out.getvalue().encode()
