"""An earlier version of a worksheet as it was kept, and what differs from the one before."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from worksheets.engine import amounts
from worksheets.engine.dimensions import System
from worksheets.engine.inputs import Choice, Input, Table, Words
from worksheets.models import Run, Worksheet
from worksheets.run import differences, system_of
from worksheets.sheets import sheets

LINES_SHOWN = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Earlier:
    inputs: list[tuple[str, str]]
    changed: list[str]
    before: Run | None


def earlier_run(worksheet: Worksheet, run: Run) -> Earlier:
    before = worksheet.runs.filter(number__lt=run.number).first()
    return Earlier(inputs=inputs_of(run), changed=differences(before, run), before=before)


def inputs_of(run: Run) -> list[tuple[str, str]]:
    """Each input in words: as typed, or as it was taken from the project."""
    sheet = sheets().get(run.worksheet.sheet)
    system = system_of(run.worksheet.project)
    return [(each.label, in_words(run, each, system)) for each in (sheet.inputs if sheet else ())]


def in_words(run: Run, each: Input, system: System) -> str:
    if isinstance(each, Table):
        rows = run.typed.get(each.name, () if each.name in run.taken else each.start(system))
        words = "; ".join(row_words(row, each) for row in rows)
    else:
        told = each.name in run.typed or each.name in run.taken
        words = cell_words(each, run.typed.get(each.name, "") if told else each.default(system))
    return words or taken_words(run, each, system)


def row_words(row: Mapping[str, Any], table: Table) -> str:
    columns = ((column, str(row.get(column.name, ""))) for column in table.columns)
    return ", ".join(cell_words(column, text) for column, text in columns if text)


def cell_words(each: Input, text: str) -> str:
    """A long paste by its ends: the table that was read from it stands in the result."""
    lines = text.strip().splitlines()
    if isinstance(each, Words) and len(lines) > LINES_SHOWN:
        return f"{len(lines)} lines, “{lines[0]}” to “{lines[-1]}”"
    return dict(each.options).get(text, text) if isinstance(each, Choice) else text


def taken_words(run: Run, each: Input, system: System) -> str:
    value, says = run.taken.get(each.name, ["", ""])
    if not says:
        return "left empty"
    of = getattr(each, "of", "")
    if of and isinstance(value, int | float):
        return f"{amounts.both(value, of, system)}, from {says}"
    return f"from {says}" if value in (None, "") else f"{value}, from {says}"
