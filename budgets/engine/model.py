"""What the money engine reads and answers. Amounts are integer cents, days are dates."""

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import ClassVar, TypeAlias

from budgets.engine.money import WHOLE, NegativeMoney, Rounding

Fact: TypeAlias = int | str | date | frozenset[str] | None


class Status(StrEnum):
    APPLIED = "applied"
    OFFERED = "offered"
    SIGNED = "signed"
    CLOSED = "closed"


class Base(StrEnum):
    """What a percent is taken of. The base matters more than the rate."""

    AWARD = "award"
    CLAIMED = "claimed"
    TOTAL = "total"  # of the whole project
    LINE = "line"  # of the agreed budget
    EXPENSE = "expense"


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule(ABC):
    """One rule of one fund. To add a kind, write one class in the package `rules`.

    `starts_on` and `ends_on` bound the days of the expenses it binds; none: the whole life of the
    fund. `clause` is where the fund's own paper says so.
    """

    code: ClassVar[str]
    static: ClassVar[bool] = True  # bars an expense whatever else is charged
    mendable: ClassVar[bool] = False  # asks for what can still be brought; lets a forecast through
    base: ClassVar[Base | None] = None  # what its percent is taken of
    rounding: ClassVar[Rounding | None] = None
    starts_on: date | None = None
    ends_on: date | None = None
    clause: str = ""

    @property
    def binds_match(self) -> bool:
        """Whether an expense that breaks this rule is also barred from counting as match."""
        return False

    @abstractmethod
    def sentence(self, symbol: str = "$") -> str:
        """The rule in plain words, with its numbers."""

    def check(self, charge: "Charge") -> Refusal | None:
        """A refusal when this charge breaks the rule, else None."""
        return None

    def day_of(self, expense: "Expense") -> date:
        """The day that decides whether the rule is in force for an expense."""
        return expense.day

    def holds_for(self, expense: "Expense") -> bool:
        if self.starts_on is None and self.ends_on is None:
            return True  # so that a rule without days looks at no day
        return self.holds_on(self.day_of(expense))

    def holds_on(self, day: date) -> bool:
        return (self.starts_on or day) <= day <= (self.ends_on or day)

    def caps(self, fund: "Fund", project_total: int | None = None) -> tuple[Cap, ...]:
        """The limits in cents that this rule sets for categories, whatever else is charged."""
        return ()

    def room(self, charge: "Charge") -> int | None:
        """The most cents that this rule leaves for the expense; None when it sets no limit."""
        return None

    def rows(self, fund: "Fund", project_total: int) -> tuple["Row", ...]:
        """What this rule asks of all that is charged together."""
        return ()

    def asked_match(self, project_total: int | None = None) -> "Match | None":
        """The match that this rule asks for in other words."""
        return None

    def warn(self, fund: "Fund", now: "Now") -> Refusal | None:
        """What is not barred and yet should be known."""
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """Money from elsewhere that a fund asks for: a fraction of what is charged to it.

    `cash_basis_points` of the required match must be cash; gifts in kind fill at most
    `kind_basis_points` of it. Money paid by the funds in `never_from` does not count; `payers`
    names the kinds of fund whose money does (none named: all). No federal award is matched by
    federal money.
    """

    numerator: int = 1
    denominator: int = 1
    in_kind: bool = True
    cash_basis_points: int = 0
    never_from: frozenset[str] = frozenset()
    kind_basis_points: int = WHOLE
    payers: frozenset[str] = frozenset()


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
    symbol: str = "$"  # of its money, where a sentence says so

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
    """`weight` times a sum over the categories (none named: all of them).

    `first` and `last` bound the days of the expenses that are added up, both included.
    """

    weight: int
    of: Sum
    categories: frozenset[str] = frozenset()
    base: int = 0  # of Sum.OVER
    first: date | None = None
    last: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A limit that depends on the whole assignment: the terms together are at most `most`."""

    code: str
    sentence: str
    terms: tuple[Term, ...]
    most: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Charge:
    """A share under judgement, beside what the fund and the expense already carry (in cents).

    `charges` are the shares of the fund one by one, for rules that are not always in force.
    """

    fund: Fund
    expense: Expense
    cents: int
    charged: int = 0
    by_category: Mapping[str, int]
    charges: Sequence[Share] = ()
    shared: int = 0
    project_total: int | None = None

    @property
    def symbol(self) -> str:
        return self.fund.symbol

    def used(self, categories: frozenset[str], rule: Rule | None = None) -> int:
        """Cents charged in the categories; with a rule, on the days it is in force."""
        if rule is None or not (rule.starts_on or rule.ends_on):
            return sum(self.by_category.get(key, 0) for key in categories)
        return sum(
            share.cents
            for share in self.charges
            if share.expense.category in categories and rule.holds_for(share.expense)
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Now:
    """How a fund stands on a day, in cents, for what is a warning and no bar."""

    today: date
    project_total: int = 0
    charged: int = 0
    claimed: int = 0
    match: int = 0
    match_needed: int = 0
    by_category: Mapping[str, int] = field(default_factory=dict)
    symbol: str = "$"
