"""What the money engine reads and answers. Amounts are integer cents, days are dates."""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import ClassVar, TypeAlias

from budgets.engine.money import NegativeMoney

Fact: TypeAlias = int | str | date | frozenset[str] | None


class Status(StrEnum):
    APPLIED = "applied"
    OFFERED = "offered"
    SIGNED = "signed"
    CLOSED = "closed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why a share is barred: the rule, a sentence with its numbers, the limit, what was found."""

    code: str
    rule: str
    sentence: str
    limit: Fact = None
    actual: Fact = None
    expense: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cap:
    """The most that a fund pays, in cents, for some categories together."""

    categories: frozenset[str]
    limit: int


class Rule(ABC):
    """One rule of one fund. To add a kind, write one class in rules.py."""

    __slots__ = ()
    code: ClassVar[str]

    @property
    def binds_match(self) -> bool:
        """Whether an expense that breaks this rule is also barred from counting as match."""
        return False

    @abstractmethod
    def sentence(self, symbol: str = "$") -> str:
        """The rule in plain words, with its numbers."""

    @abstractmethod
    def check(self, charge: "Charge") -> Refusal | None:
        """A refusal when this charge breaks the rule, else None."""

    def cap(self, fund: "Fund") -> Cap | None:
        """The cap that this rule sets, if it is one about categories."""
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """Money from elsewhere that a fund asks for: a fraction of what is charged to it.

    `cash_basis_points` of the required match must be cash. Money paid by the funds in `never_from`
    does not count (a federal award is not matched by federal money).
    """

    numerator: int = 1
    denominator: int = 1
    in_kind: bool = True
    cash_basis_points: int = 0
    never_from: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Fund:
    """A source of money. An `award` of None has no stated end (own money)."""

    key: str
    name: str
    award: int | None = None
    status: Status = Status.SIGNED
    period_start: date | None = None
    period_end: date | None = None
    rules: tuple[Rule, ...] = ()
    match: Match | None = None
    gifts: bool = False  # holds gifts in kind, which pay no bill
    kind: str = "grant"
    federal: bool = False
    pool: str = ""  # a cent is match at most once inside a pool; federal awards share one
    issued: date | None = None  # the rulebook of that day applies
    budget: Mapping[str, int] = field(default_factory=dict)  # agreed, in cents by category

    def __post_init__(self) -> None:
        if self.award is not None and self.award < 0:
            raise NegativeMoney(f"The award of {self.name}", self.award)
        object.__setattr__(self, "status", Status(self.status))  # a plain word would pass unnoticed


@dataclass(frozen=True, slots=True, kw_only=True)
class Expense:
    """Money spent, or a gift in kind. `papers` are the kinds of paper attached."""

    key: str
    amount: int
    day: date
    category: str
    in_kind: bool = False
    papers: frozenset[str] = frozenset()
    ordered: date | None = None
    delivered: date | None = None
    paid: date | None = None
    place: str = ""
    relation: str = ""  # such as "related" or "own_space"
    quotes: int = 0
    reasoned: bool = False  # it says why it was necessary
    units: int = 0  # hundredths of `unit`
    unit: str = ""  # hour, mile, night, day
    gift: str = ""  # the kind of a gift
    partner: str = ""  # whoever carries out part of an award
    forecast: bool = False  # still to be spent

    def __post_init__(self) -> None:
        if self.amount < 0:
            raise NegativeMoney(f"The expense {self.key}", self.amount)


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """Part of an expense that a fund pays, in cents; `fund` is the fund's key."""

    expense: Expense
    fund: str
    cents: int

    def __post_init__(self) -> None:
        if self.cents < 0:
            raise NegativeMoney(f"A share of the expense {self.expense.key}", self.cents)


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """Cents of an expense that count as match for `fund`, paid by the fund `payer`.

    A `payer` of "" is the artist's own money, or nobody when the expense is a gift.
    """

    expense: Expense
    fund: str
    payer: str
    cents: int


class Sum(StrEnum):
    """What a row of rules may add up, for one fund, in cents."""

    CHARGED = "charged"  # direct cents charged
    INDIRECT = "indirect"  # overhead charged at a rate
    MATCH_CASH = "match_cash"
    MATCH_KIND = "match_kind"
    OVER = "over"  # what is charged beyond `base`, never below zero


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """`weight` times a sum over the categories (none named: all of them)."""

    weight: int
    of: Sum
    categories: frozenset[str] = frozenset()
    base: int = 0  # of Sum.OVER


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A limit that depends on the whole assignment: the terms together are at most `most`."""

    code: str
    sentence: str
    terms: tuple[Term, ...]
    most: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Charge:
    """A share under judgement, beside what the fund and the expense already carry (in cents)."""

    fund: Fund
    expense: Expense
    cents: int
    charged: int = 0
    by_category: Mapping[str, int]
    shared: int = 0
    symbol: str = "$"

    def used(self, categories: frozenset[str]) -> int:
        return sum(self.by_category.get(key, 0) for key in categories)
