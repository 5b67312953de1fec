"""What a worksheet answers: figures, findings, tables, drawings, and what it hands on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import Any

from worksheets.engine.amounts import Toward


class Standing(StrEnum):
    """Where a figure stands against the limit that was entered or that a rule sets."""

    OVER = "over"
    NEAR = "near"
    WITHIN = "within"
    NOTE = "note"  # no limit, only something to know


class Impossible(ValueError):
    """Inputs that cannot go together; ``name`` is the input to change (and its row and column)."""

    def __init__(self, name: str, says: str, *, row: int | None = None, column: str = "") -> None:
        super().__init__(says)
        self.name, self.row, self.column = name, row, column

    @property
    def at(self) -> str:
        """The field's name in the form: “rings-2-radius”."""
        if self.row is None:
            return self.name
        return f"{self.name}-{self.row}-{self.column}" if self.column else self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One line of the result. ``value`` is in SI of dimension ``of``; or ``text`` says it all."""

    key: str
    label: str
    value: float | None = None
    of: str = ""  # a key of DIMENSIONS, “money” (cents), or empty for a plain number
    text: str = ""
    unit: str = ""  # what a plain number counts, such as “bags”
    places: int | None = None
    toward: Toward = "near"
    standing: Standing = Standing.NOTE
    note: str = ""
    main: bool = False  # shown large


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What a limit says of the design. ``rule`` names the clause; ``part`` where it occurs."""

    standing: Standing
    says: str
    rule: str = ""
    part: str = ""
    word: str = ""  # in place of “over the limit”, where there is no number, such as “stop”


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A table of the result; the texts are ready to be shown."""

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numeric: tuple[int, ...] = ()  # columns set to the right
    note: str = ""
    foot: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing as SVG text (see worksheets.drawings), with a caption."""

    svg: str
    caption: str
    key: str = "drawing"


@dataclass(frozen=True, slots=True, kw_only=True)
class ToLine:
    """A quantity, and its price where it is known, for a budget line."""

    key: str
    label: str
    quantity: float
    unit: str
    cents: int | None = None  # of all of it
    category: str = "materials"


@dataclass(frozen=True, slots=True, kw_only=True)
class ToPart:
    """A mass and sizes, in SI, for a part."""

    key: str
    label: str
    mass: float | None = None
    width: float | None = None
    height: float | None = None
    depth: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ToRequest:
    """A purchase list, for suppliers to quote on."""

    key: str
    label: str
    title: str
    items: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ToTask:
    """Working days, or the first day on which it can be done, for a task of the schedule."""

    key: str
    label: str
    days: float | None = None
    not_before: date | None = None
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToCare:
    """Sentences for the maintenance plan."""

    key: str
    label: str
    text: str


Hand = ToLine | ToPart | ToRequest | ToTask | ToCare


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """``says`` is the one sentence that matters. ``kept`` comes back with the next run of the same
    inputs, for what took long to find. With ``licensed`` these inputs ask for a licensed
    person, whatever the caution of the sheet."""

    says: str
    figures: tuple[Figure, ...] = ()
    findings: tuple[Finding, ...] = ()
    grids: tuple[Grid, ...] = ()
    pictures: tuple[Picture, ...] = ()
    hands: tuple[Hand, ...] = ()
    assumptions: tuple[str, ...] = ()
    kept: Mapping[str, Any] = field(default_factory=dict)
    can_improve: bool = False
    licensed: bool = False

    def figure(self, key: str) -> Figure:
        return next(found for found in self.figures if found.key == key)

    @property
    def worst(self) -> Standing:
        rank = [Standing.OVER, Standing.NEAR, Standing.WITHIN, Standing.NOTE]
        every = [f.standing for f in self.figures] + [f.standing for f in self.findings]
        return min(every, key=rank.index, default=Standing.NOTE)
