"""From a sent form to what was typed, and back to fields that can be shown."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django.http import QueryDict

from worksheets.engine import amounts
from worksheets.engine.dimensions import DIMENSIONS, System
from worksheets.engine.given import Fact
from worksheets.engine.inputs import (
    Block,
    Choice,
    Day,
    Flag,
    Input,
    Number,
    Price,
    Quantity,
    Table,
    Words,
)
from worksheets.engine.sheet import Sheet

SPARE, MORE = 2, 6  # empty rows that a table shows, and those that are added when asked
LONGEST_CELL, LONGEST_PASTE = 200, 60_000
KINDS = {Choice: "choice", Flag: "flag", Day: "day", Price: "price", Number: "number"}


def sent(sheet: Sheet, data: QueryDict) -> dict[str, Any]:
    """What the form holds, as text; a paste is spread over its table."""
    typed: dict[str, Any] = {}
    for each in sheet.inputs:
        if isinstance(each, Table):
            typed[each.name] = [*sent_rows(each, data), *pasted(each, data)]
        elif isinstance(each, Flag):
            typed[each.name] = "yes" if data.get(each.name) else "no"
        elif each.name in data:  # one that the form did not have keeps its default
            typed[each.name] = data.get(each.name, "")[:LONGEST_PASTE]
    return typed


def sent_rows(table: Table, data: QueryDict) -> list[dict[str, str]]:
    pattern = re.compile(rf"{re.escape(table.name)}-(\d{{1,4}})-")
    numbers = sorted({int(m[1]) for key in data if (m := pattern.match(key))})
    rows = [
        {c.name: cell(c, data.get(f"{table.name}-{n}-{c.name}", "")) for c in table.columns}
        for n in numbers[: table.most + MORE * 2]
    ]
    while rows and not any(told(rows[-1], table)):
        rows.pop()
    return rows


def cell(column: Input, text: str) -> str:
    if isinstance(column, Flag):
        return "yes" if text else ""
    return text.strip()[:LONGEST_CELL]


def told(row: Mapping[str, str], table: Table) -> Iterator[str]:
    """The cells somebody filled in: choices and ticks alone make no row."""
    plain = [c.name for c in table.columns if not isinstance(c, Choice | Flag)]
    return (row[name] for name in plain or row if row.get(name))


def pasted(table: Table, data: QueryDict) -> list[dict[str, str]]:
    """Rows copied from a spreadsheet: tabs between columns, else semicolons, else commas."""
    lines = data.get(f"{table.name}-pasted", "")[:LONGEST_PASTE].splitlines()
    names = [column.name for column in table.columns]
    found = [dict(zip(names, split(line), strict=False)) for line in lines if line.strip()]
    return found[: table.most + 1]


def split(line: str) -> list[str]:
    mark = next((mark for mark in ("\t", ";") if mark in line), ",")
    return [text.strip()[:LONGEST_CELL] for text in line.split(mark)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One input as the page shows it."""

    input: Input
    name: str
    value: str
    kind: str
    problem: str = ""
    instead: str = ""  # what stands in while it is empty, and from where
    hint: str = ""
    unit: str = ""  # that a bare number is taken in
    options: tuple[tuple[str, str], ...] = ()

    @property
    def label(self) -> str:
        return self.input.label

    @property
    def help(self) -> str:
        return self.input.help

    @property
    def lines(self) -> int:
        return getattr(self.input, "lines", 1)

    @property
    def is_table(self) -> bool:
        return False


@dataclass(frozen=True, slots=True, kw_only=True)
class TableField:
    input: Table
    name: str
    rows: tuple[tuple[Field, ...], ...]
    problems: tuple[str, ...]
    instead: str = ""

    @property
    def is_table(self) -> bool:
        return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Fieldset:
    title: str
    note: str
    fields: tuple[Field | TableField, ...]


def fieldsets(
    sheet: Sheet,
    typed: Mapping[str, Any],
    *,
    problems: Mapping[str, str],
    facts: Mapping[str, Fact],
    system: System,
    more: str = "",
) -> list[Fieldset]:
    """The inputs in their blocks; ``more`` is a table that shows further empty rows."""
    show = Shower(typed, problems, facts, system, more)
    return [show.block(block) for block in sheet.blocks]


class Shower:
    def __init__(
        self,
        typed: Mapping[str, Any],
        problems: Mapping[str, str],
        facts: Mapping[str, Fact],
        system: System,
        more: str,
    ) -> None:
        self.typed, self.problems, self.facts = typed, problems, facts
        self.system, self.more = system, more

    def block(self, block: Block) -> Fieldset:
        fields = tuple(
            self.table(each) if isinstance(each, Table) else self.field(each, each.name, self.typed)
            for each in block.inputs
        )
        return Fieldset(title=block.title, note=block.note, fields=fields)

    def field(self, each: Input, at: str, typed: Mapping[str, Any]) -> Field:
        known = bool(each.fact(self.facts))
        value = typed.get(each.name, "" if known else each.default(self.system))
        return Field(
            input=each,
            name=at,
            value=str(value),
            kind=kind_of(each),
            problem=self.problems.get(at, ""),
            instead=self.instead(each) if known else "",
            unit=unit_words(each, self.system),
            hint=self.instead(each).split(", the ")[0] if known else unit_words(each, self.system),
            options=each.options if isinstance(each, Choice) else (),
        )

    def instead(self, each: Input) -> str:
        fact = self.facts[each.fact(self.facts)]
        if isinstance(each, Choice):
            return f"{dict(each.options).get(fact.value, fact.value)}, {fact.says}"
        of = getattr(each, "of", "")
        if isinstance(each, Number):
            return f"{fact.value:g}, {fact.says}"
        if of and isinstance(fact.value, int | float):
            return f"{amounts.show(fact.value, of, self.system)}, {fact.says}"
        return fact.says if isinstance(fact.value, tuple) else f"{fact.value}, {fact.says}"

    def table(self, each: Table) -> TableField:
        rows = self.typed.get(each.name)
        if rows is None:
            rows = [] if each.fact(self.facts) else each.start(self.system)
        spare = MORE if self.more == each.name else SPARE
        every = [*rows, *({} for _ in range(spare))]
        cells = tuple(self.cells(each, row, n) for n, row in enumerate(every))
        known = each.fact(self.facts) if not rows else ""
        return TableField(
            input=each,
            name=each.name,
            rows=cells,
            problems=tuple(table_problems(each, self.problems)),
            instead=self.facts[known].says if known else "",
        )

    def cells(self, table: Table, row: Mapping[str, Any], number: int) -> tuple[Field, ...]:
        filled = {column.name: row.get(column.name, "") for column in table.columns}
        return tuple(
            self.field(column, f"{table.name}-{number}-{column.name}", filled)
            for column in table.columns
        )


def kind_of(each: Input) -> str:
    if isinstance(each, Words):
        return "lines" if each.lines > 1 else "text"
    return KINDS.get(type(each), "text")


def table_problems(table: Table, problems: Mapping[str, str]) -> Iterator[str]:
    """Each with its row and column, for below the table."""
    labels = {column.name: column.label for column in table.columns}
    for at, says in problems.items():
        name, _, rest = at.partition("-")
        if name == table.name:
            row, _, column = rest.partition("-")
            where = f"Row {int(row) + 1}, {labels.get(column, '').lower()}: " if row else ""
            yield f"{where}{says}"


def unit_words(each: Input, system: System) -> str:
    """The unit in which a bare number is taken: shown beside the field."""
    return DIMENSIONS[each.of].unit(system).symbol if isinstance(each, Quantity) else ""
