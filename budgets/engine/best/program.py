"""The problem as rows of whole numbers: terms at most a constant, every unknown zero or more."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from budgets.engine.model import Row, Term

Parts = dict[int, int]  # unknown -> weight


@dataclass(frozen=True, slots=True)
class Limit:
    """One row: the parts together are at most `most`. `fund` is its place, -1 when nobody's."""

    parts: Parts
    most: int
    fund: int = -1
    row: Row | None = None

    def value(self, values: Sequence[int]) -> int:
        return sum(weight * values[unknown] for unknown, weight in self.parts.items())


@dataclass
class Program:
    """Unknowns by number, each from zero to `upper`; objectives in order, each to be made most."""

    upper: list[int] = field(default_factory=list)
    limits: list[Limit] = field(default_factory=list)
    objectives: list[Parts] = field(default_factory=list)
    charge: dict[tuple[int, int], int] = field(default_factory=dict)  # bucket, fund
    match: dict[tuple[int, int], int] = field(default_factory=dict)  # flow, award
    overhead: dict[int, int] = field(default_factory=dict)  # fund
    over: dict[tuple[int, Term], int] = field(default_factory=dict)
    claimed: dict[int, int] = field(default_factory=dict)  # overhead that is locked, by fund
    whole: list[list[tuple[int, int]]] = field(default_factory=list)  # one of these, all or nothing

    def unknown(self, upper: int) -> int:
        self.upper.append(max(0, upper))
        return len(self.upper) - 1

    def limit(self, parts: Parts, most: int, fund: int = -1, row: Row | None = None) -> None:
        """Left out when nothing can break it."""
        reach = sum(weight * self.upper[key] for key, weight in parts.items() if weight > 0)
        if reach > most:
            self.limits.append(Limit(parts, most, fund, row))
