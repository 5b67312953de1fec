"""What a worksheet asks for. Each kind of input knows how to read what was typed."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass
from datetime import date
from typing import Any

from projects.amounts import AmountError as MoneyError
from projects.amounts import parse_amount
from worksheets.engine import amounts
from worksheets.engine.dimensions import DIMENSIONS, System


class Wrong(ValueError):
    """What was typed cannot be taken; the message is the sentence to show beside the field."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """``takes`` names a fact of the project that stands in while the field is empty.

    Of several, apart by spaces, the first that the project knows: “part.width site.width”.
    """

    name: str
    label: str
    help: str = ""
    takes: str = ""
    optional: bool = False

    def fact(self, facts: Container[str]) -> str:
        """The name of the fact that stands in, or nothing."""
        return next((name for name in self.takes.split() if name in facts), "")

    def default(self, system: System) -> str:
        return ""

    def read(self, text: str, system: System) -> Any:
        return text.strip()


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity(Input):
    """An amount with a unit. ``least`` and ``most`` are in SI; ``us`` and ``metric`` as typed."""

    of: str
    us: str = ""
    metric: str = ""
    least: float | None = None
    most: float | None = None
    above: bool = False  # more than ``least``, not equal to it

    def default(self, system: System) -> str:
        return (self.us if system == System.US else self.metric) or self.us or self.metric

    def read(self, text: str, system: System) -> float:
        try:
            value = amounts.parse(text, self.of, system)
        except amounts.AmountError as error:
            raise Wrong(str(error)) from None
        return self.checked(value, system)

    def checked(self, value: float, system: System) -> float:
        """Refuse what is out of range, with the range."""
        low = self.least is not None and (
            value < self.least - 1e-12 or (self.above and value <= self.least)
        )
        if low or (self.most is not None and value > self.most + 1e-12):
            raise Wrong(f"{amounts.both(value, self.of, system)} is {self.outside(system)}")
        return value

    def outside(self, system: System) -> str:
        low = "" if self.least is None else amounts.both(self.least, self.of, system)
        high = "" if self.most is None else amounts.both(self.most, self.of, system)
        if not high:
            return f"too small. Write {'more than' if self.above else 'at least'} {low}."
        if not low:
            return f"too much. Write at most {high}."
        return f"out of range. Write {DIMENSIONS[self.of].noun} from {low} to {high}."


def small_length(
    name: str, label: str, us: str, metric: str, *, least: float, most: float, **more: Any
) -> Quantity:
    """A length that is shown in inches and millimetres; ``least`` and ``most`` in metres."""
    return Quantity(
        name=name,
        label=label,
        of="small_length",
        us=us,
        metric=metric,
        least=least,
        most=most,
        **more,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Number(Input):
    """A plain number, such as a count of coats or a coefficient."""

    start: str = ""
    least: float | None = None
    most: float | None = None
    whole: bool = False

    def default(self, system: System) -> str:
        return self.start

    def read(self, text: str, system: System) -> float:
        plain = text.strip().replace("−", "-")
        try:
            value = float(plain.replace(",", "")) if plain.count(",") <= 1 else float("nan")
        except ValueError:
            value = float("nan")
        if value != value or abs(value) == float("inf") or not plain.isascii():
            raise Wrong(f"“{plain[:24]}” is not a number. Write digits, such as {self.sample}.")
        if self.whole and value != round(value):
            raise Wrong(f"{plain} is not a whole number. Write one such as {self.sample}.")
        return self.checked(value)

    @property
    def sample(self) -> str:
        return self.start or ("3" if self.whole else "1.5")

    def checked(self, value: float) -> float:
        low = self.least is not None and value < self.least
        high = self.most is not None and value > self.most
        if low or high:
            ends = [f"{end:g}" for end in (self.least, self.most) if end is not None]
            within = f"from {ends[0]} to {ends[1]}" if len(ends) == 2 else ""
            words = within or (f"of at least {ends[0]}" if low else f"of at most {ends[0]}")
            raise Wrong(f"{value:g} is out of range. Write a number {words}.")
        return value


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice(Input):
    options: tuple[tuple[str, str], ...]
    start: str = ""
    metric: str = ""  # what stands first where people think in metres

    def default(self, system: System) -> str:
        return (self.metric if system == System.METRIC else "") or self.start or self.options[0][0]

    def read(self, text: str, system: System) -> str:
        if text not in dict(self.options):
            raise Wrong("Choose one of the list.")
        return text


@dataclass(frozen=True, slots=True, kw_only=True)
class Flag(Input):
    """A tick: typed “yes” or nothing."""

    start: bool = False

    def default(self, system: System) -> str:
        return "yes" if self.start else "no"

    def read(self, text: str, system: System) -> bool:
        return text.strip().lower() in ("yes", "on", "true", "1")


@dataclass(frozen=True, slots=True, kw_only=True)
class Words(Input):
    """A line of text, or a pasted block when ``lines`` is more than one."""

    start: str = ""
    lines: int = 1
    most: int = 200

    def default(self, system: System) -> str:
        return self.start

    def read(self, text: str, system: System) -> str:
        if len(text) > self.most:
            raise Wrong(f"This has {len(text):,} characters; at most {self.most:,} can be read.")
        return text.strip()


@dataclass(frozen=True, slots=True, kw_only=True)
class Day(Input):
    start: str = ""

    def default(self, system: System) -> str:
        return self.start

    def read(self, text: str, system: System) -> date:
        try:
            found = date.fromisoformat(text.strip())
        except ValueError:
            raise Wrong("Write the day as year-month-day, such as 2031-06-14.") from None
        if not 2000 <= found.year <= 2100:
            raise Wrong("Choose a day between the years 2000 and 2100.")
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Price(Input):
    """Money, read to whole cents."""

    start: str = ""

    def default(self, system: System) -> str:
        return self.start

    def read(self, text: str, system: System) -> int:
        try:
            return parse_amount(text)
        except MoneyError as error:
            raise Wrong(str(error)) from None


@dataclass(frozen=True, slots=True, kw_only=True)
class Table(Input):
    """Rows of inputs; an empty row is left out. ``rows`` are those it starts with, as typed."""

    columns: tuple[Input, ...]
    rows: tuple[dict[str, str], ...] = ()
    metric_rows: tuple[dict[str, str], ...] = ()
    most: int = 60
    row_name: str = "row"

    def start(self, system: System) -> tuple[dict[str, str], ...]:
        return self.metric_rows if system == System.METRIC and self.metric_rows else self.rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Inputs that belong together, under a heading."""

    title: str
    inputs: tuple[Input, ...]
    note: str = ""
