"""An earlier version of a worksheet as it was kept, and what differs from the one before."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from worksheets.models import Run, Worksheet
from worksheets.run import differences
from worksheets.sheets import sheets


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
    inputs = list(sheet.inputs) if sheet else []
    return [(each.label, in_words(run, each.name)) for each in inputs]


def in_words(run: Run, name: str) -> str:
    typed = run.typed.get(name, "")
    if isinstance(typed, list):
        return "; ".join(row_words(row) for row in typed) or taken_words(run, name)
    return str(typed) or taken_words(run, name)


def row_words(row: dict[str, Any]) -> str:
    return ", ".join(str(value) for value in row.values() if value)


def taken_words(run: Run, name: str) -> str:
    value, says = run.taken.get(name, ["", ""])
    if not says:
        return "left empty"
    return f"from {says}" if value in (None, "") else f"{value} (SI), from {says}"
