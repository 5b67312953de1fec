"""The rows of each fund, and which of their sums an expense falls into."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from budgets.engine.limits import indirect_of, rows_of
from budgets.engine.model import Fund, Row, Sum, Term
from budgets.engine.rules.indirect import IndirectRate

OF_MATCH = frozenset({Sum.MATCH_CASH, Sum.MATCH_KIND})


@dataclass(frozen=True, slots=True)
class Filter:
    """Which expenses a term adds up: of these categories (none: all), of these days."""

    categories: frozenset[str] = frozenset()
    first: date | None = None
    last: date | None = None

    def lets_in(self, category: str, day: date) -> bool:
        return (
            (not self.categories or category in self.categories)
            and (self.first is None or self.first <= day)
            and (self.last is None or day <= self.last)
        )


def filter_of(term: Term) -> Filter:
    return Filter(term.categories, term.first, term.last)


@dataclass(frozen=True)
class Asked:
    """One fund and all it asks. Each filter has a bit; `charges` are those that add up charges."""

    fund: Fund
    rows: tuple[Row, ...]
    indirect: IndirectRate | None
    bits: dict[Filter, int] = field(default_factory=dict)
    charges: int = 0
    matches: int = 0

    @property
    def wants_match(self) -> bool:
        return any(term.of in OF_MATCH for row in self.rows for term in row.terms)

    @property
    def of_charges(self) -> int:
        """The bits that tell charges apart: those of its rows, and whether they bear overhead."""
        return self.charges | 1 << len(self.bits)

    def bears_overhead(self, category: str) -> bool:
        return self.indirect is not None and category not in self.indirect.excluded


def asked_of(fund: Fund, project_total: int) -> Asked:
    rows = rows_of(fund, project_total=project_total)
    bits: dict[Filter, int] = {}
    sums = {True: 0, False: 0}
    for term in (term for row in rows for term in row.terms):
        if term.of is not Sum.INDIRECT:
            bit = bits.setdefault(filter_of(term), 1 << len(bits))
            sums[term.of in OF_MATCH] |= bit
    return Asked(fund, rows, indirect_of(fund), bits, sums[False], sums[True])


class Patterns:
    """For a category and a day: the bits of every fund's filters, as one number."""

    def __init__(self, asked: Sequence[Asked]) -> None:
        self.asked = asked
        self.edges = sorted(edges_of(asked))
        self.known: dict[tuple[str, int], tuple[int, ...]] = {}

    def cell(self, day: date) -> int:
        """The same for days between the same edges."""
        return bisect_right(self.edges, day) if self.edges else 0

    def of(self, category: str, day: date) -> tuple[int, ...]:
        cell = (category, self.cell(day))
        found = self.known.get(cell)
        if found is None:
            found = self.known[cell] = tuple(pattern(one, category, day) for one in self.asked)
        return found


def pattern(asked: Asked, category: str, day: date) -> int:
    """The bits of the filters that let an expense in; the highest: it bears overhead."""
    bits = sum(bit for rule, bit in asked.bits.items() if rule.lets_in(category, day))
    return bits | asked.bears_overhead(category) << len(asked.bits)


def edges_of(asked: Sequence[Asked]) -> set[date]:
    """The days on which a filter begins to hold, or no longer does."""
    filters = [rule for one in asked for rule in one.bits]
    starts = {rule.first for rule in filters if rule.first}
    return starts | {rule.last + timedelta(days=1) for rule in filters if rule.last}
