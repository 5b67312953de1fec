"""A worksheet as comma separated values: inputs, figures, findings and tables."""

from __future__ import annotations

from collections.abc import Iterator

from budgets.selectors.reports.commas import written
from worksheets.models import Worksheet
from worksheets.run import last_run, work_saved
from worksheets.selectors.earlier import inputs_of
from worksheets.selectors.shown import Outcome, outcome


def as_csv(worksheet: Worksheet) -> bytes:
    last = last_run(worksheet)
    found = outcome(work_saved(worksheet))
    inputs = inputs_of(last) if last else []
    return written([*([["Input", "As typed"], *map(list, inputs), []]), *rows(found)])


def rows(found: Outcome) -> Iterator[list[str]]:
    yield ["Figure", "Amount", "Standing"]
    for shown in (*found.main, *found.figures):
        yield [shown.figure.label, shown.words, shown.said]
    for finding in found.findings:
        yield ["Finding", finding.finding.says, finding.said]
    for grid in found.grids:
        yield []
        yield [grid.title]
        yield [text for text, _ in grid.head]
        yield from ([text for text, _ in row] for row in grid.rows)
    yield []
    yield ["Caution", found.caution]
