"""From what was typed to the amounts that a worksheet computes with."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from projects.words import money
from worksheets.engine import amounts
from worksheets.engine.amounts import Toward
from worksheets.engine.dimensions import System
from worksheets.engine.example import is_example
from worksheets.engine.inputs import Flag, Input, Table, Wrong


@dataclass(frozen=True, slots=True)
class Fact:
    """Something the project knows: an SI amount, a text, or the rows of a table."""

    value: Any
    says: str  # where it stands: “the part’s width”


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """The inputs in SI. Amounts are floats, money is cents, a table is a row of Givens."""

    values: Mapping[str, Any]
    system: System = System.US
    currency: str = "USD"
    facts: Mapping[str, Fact] = field(default_factory=dict)
    kept: Mapping[str, Any] = field(default_factory=dict)

    def __getitem__(self, name: str) -> float:
        """An amount that must be there."""
        return float(self.values[name])

    def maybe(self, name: str) -> float | None:
        value = self.values.get(name)
        return None if value is None else float(value)

    def count(self, name: str) -> int:
        return round(self[name])

    def choice(self, name: str) -> str:
        return str(self.values[name])

    def flag(self, name: str) -> bool:
        return bool(self.values.get(name))

    def words(self, name: str) -> str:
        return str(self.values.get(name) or "")

    def day(self, name: str) -> date:
        found: date = self.values[name]
        return found

    def cents(self, name: str) -> int | None:
        value = self.values.get(name)
        return None if value is None else int(value)

    def rows(self, name: str) -> tuple[Given, ...]:
        return tuple(self.values.get(name) or ())

    def show(
        self, value: float, of: str, *, toward: Toward = "near", places: int | None = None
    ) -> str:
        """An amount in the person's own units."""
        return amounts.show(value, of, self.system, toward=toward, places=places)

    def money(self, cents: int) -> str:
        """“$1,234.50”, in the project’s currency."""
        return money(cents, self.currency)

    def both(
        self, value: float, of: str, *, toward: Toward = "near", places: int | None = None
    ) -> str:
        """An amount in both systems, the person's own first."""
        return amounts.both(value, of, self.system, toward=toward, places=places)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    given: Given
    problems: Mapping[str, str]  # field name -> sentence
    taken: Mapping[str, str]  # input name -> where it was taken from


class Reader:
    """Reads the inputs of one sheet, collecting sentences on the way."""

    def __init__(self, facts: Mapping[str, Fact], system: System) -> None:
        self.facts, self.system = facts, system
        self.problems: dict[str, str] = {}
        self.taken: dict[str, str] = {}

    def value(self, each: Input, typed: Mapping[str, Any], at: str) -> Any:
        """One input: as typed, else the project's own fact, else its default."""
        text = str(typed.get(each.name, "")).strip()
        if not text and each.fact(self.facts):
            return self.from_project(each, at)
        if not text and each.name not in typed:
            text = each.default(self.system)
        if not text:
            return self.left_empty(each, at)
        return self.tried(each, text, at)

    def from_project(self, each: Input, at: str) -> Any:
        fact = self.facts[each.fact(self.facts)]
        self.taken[at] = fact.says
        checked = getattr(each, "checked", None)
        if checked is None or not isinstance(fact.value, int | float):
            return fact.value
        try:
            return checked(fact.value, self.system) if hasattr(each, "of") else checked(fact.value)
        except Wrong as wrong:
            self.problems[at] = f"Taken from {fact.says}: {wrong}"
            return None

    def left_empty(self, each: Input, at: str) -> Any:
        if isinstance(each, Flag):
            return False
        if not each.optional:
            self.problems[at] = f"This is needed. {self.asked(each)}"
        return None

    def asked(self, each: Input) -> str:
        if hasattr(each, "options"):
            return "Choose one of the list."
        sample = each.default(self.system) or getattr(each, "sample", "")
        tail = f", such as {sample}" if sample and not is_example(sample) else ""
        return f"Write it here{tail}."

    def tried(self, each: Input, text: str, at: str) -> Any:
        try:
            return each.read(text, self.system)
        except Wrong as wrong:
            self.problems[at] = str(wrong)
            return None

    def table(self, each: Table, typed: Mapping[str, Any]) -> tuple[Mapping[str, Any], ...]:
        rows = typed.get(each.name)
        if rows is None:
            rows = [] if each.fact(self.facts) else each.start(self.system)
        filled = [(n, row) for n, row in enumerate(rows) if any_typed(row, each)]
        if not filled and (known := each.fact(self.facts)):
            self.taken[each.name] = self.facts[known].says
            return tuple(self.facts[known].value)
        if len(filled) > each.most:
            self.problems[each.name] = (
                f"At most {each.most} rows can be read; {len(filled)} are here."
            )
        if not filled and not each.optional:
            self.problems[each.name] = f"Write at least one {each.row_name}."
        return tuple(self.row(each, row, n) for n, row in filled[: each.most])

    def row(self, each: Table, typed: Mapping[str, Any], number: int) -> dict[str, Any]:
        found: dict[str, Any] = {"row": number}
        for column in each.columns:
            cell = {name: text for name, text in typed.items() if name == column.name}
            found[column.name] = self.value(column, cell, f"{each.name}-{number}-{column.name}")
        return found


def any_typed(row: Mapping[str, Any], table: Table) -> bool:
    """A choice or a tick alone does not make a row."""
    told = [c for c in table.columns if not hasattr(c, "options") and not isinstance(c, Flag)]
    return any(str(row.get(column.name, "")).strip() for column in told or table.columns)


def read(
    inputs: Sequence[Input],
    typed: Mapping[str, Any],
    *,
    facts: Mapping[str, Fact],
    system: System,
    currency: str,
    kept: Mapping[str, Any],
) -> Reading:
    """Every input; a missing key takes the default, an empty text what the project knows."""
    reader = Reader(facts, system)
    values: dict[str, Any] = {}
    for each in inputs:
        if isinstance(each, Table):
            rows = reader.table(each, typed)
            values[each.name] = tuple(
                Given(values=row, system=system, currency=currency) for row in rows
            )
        else:
            values[each.name] = reader.value(each, typed, each.name)
    given = Given(values=values, system=system, currency=currency, facts=facts, kept=kept)
    return Reading(given=given, problems=reader.problems, taken=reader.taken)


def typed_rows(rows: Sequence[Given]) -> Iterator[tuple[int, Given]]:
    """Rows with the place each has in the form, for a sentence beside the right one."""
    return ((int(row.values.get("row", n)), row) for n, row in enumerate(rows))
