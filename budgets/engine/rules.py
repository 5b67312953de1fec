"""The kinds of rule that a fund may be given: one class each, found by its code.

To add a kind, write a class here under `@rule_kind`, and its test. The parameters of a stored rule
are the fields of its class by name; a list stands for a set.
"""

from dataclasses import dataclass
from typing import ClassVar

from budgets.engine.categories import in_words
from budgets.engine.model import Cap, Charge, Fund, Refusal, Rule
from budgets.engine.money import WHOLE, dollars, percent, share_floor
from budgets.engine.registry import need_names, need_number, refuse, room_left, rule_kind


@rule_kind
@dataclass(frozen=True, slots=True)
class AllowedCategories(Rule):
    code: ClassVar[str] = "allowed_categories"
    categories: frozenset[str]

    def __post_init__(self) -> None:
        need_names(self.code, self.categories, "category")

    @property
    def binds_match(self) -> bool:
        return True

    def sentence(self, symbol: str = "$") -> str:
        return f"Pays only for {in_words(self.categories)}."

    def check(self, charge: Charge) -> Refusal | None:
        found = charge.expense.category
        if found in self.categories:
            return None
        allowed = f"{charge.fund.name} pays only for {in_words(self.categories)}"
        words = f"{allowed}: this expense is {in_words([found])}."
        return refuse(self, charge, words, self.categories, found)


@rule_kind
@dataclass(frozen=True, slots=True)
class BarredCategories(Rule):
    """With `match_too`, the barred categories do not count as match either."""

    code: ClassVar[str] = "barred_categories"
    categories: frozenset[str]
    match_too: bool = True

    def __post_init__(self) -> None:
        need_names(self.code, self.categories, "category")

    @property
    def binds_match(self) -> bool:
        return self.match_too

    def sentence(self, symbol: str = "$") -> str:
        return f"Does not pay for {in_words(self.categories)}."

    def check(self, charge: Charge) -> Refusal | None:
        found = charge.expense.category
        if found not in self.categories:
            return None
        return refuse(
            self,
            charge,
            f"{charge.fund.name} does not pay for {in_words([found])}.",
            self.categories,
            found,
        )


@dataclass(frozen=True, slots=True)
class CategoryLimit(Rule):
    """Base of the caps: a limit in cents for some categories together."""

    categories: frozenset[str]

    def pays(self, symbol: str) -> str:
        raise NotImplementedError

    def sentence(self, symbol: str = "$") -> str:
        return f"P{self.pays(symbol)[1:]}."

    def check(self, charge: Charge) -> Refusal | None:
        cap = self.cap(charge.fund)
        if cap is None or charge.expense.category not in cap.categories:
            return None
        used = charge.used(cap.categories)
        if used + charge.cents <= cap.limit:
            return None
        words = room_left(charge, self.pays(charge.symbol), cap.limit - used)
        return refuse(self, charge, words, cap.limit, used + charge.cents)


@rule_kind
@dataclass(frozen=True, slots=True)
class CategoryCap(CategoryLimit):
    """At most `cents` for the categories together."""

    code: ClassVar[str] = "category_cap"
    cents: int

    def __post_init__(self) -> None:
        need_names(self.code, self.categories, "category")
        need_number(self.code, self.cents, "The cap in cents")

    def pays(self, symbol: str) -> str:
        return f"pays at most {dollars(self.cents, symbol)} for {in_words(self.categories)}"

    def cap(self, fund: Fund) -> Cap | None:
        return Cap(categories=self.categories, limit=self.cents)


@rule_kind
@dataclass(frozen=True, slots=True)
class CategoryShareCap(CategoryLimit):
    """At most a share of the award, rounded down to the cent, for the categories together."""

    code: ClassVar[str] = "category_share_cap"
    basis_points: int

    def __post_init__(self) -> None:
        need_names(self.code, self.categories, "category")
        need_number(self.code, self.basis_points, "The share in basis points", most=WHOLE)

    def sentence(self, symbol: str = "$") -> str:
        words = in_words(self.categories)
        return f"Pays at most {percent(self.basis_points)} of its award for {words}."

    def pays(self, symbol: str) -> str:
        return f"pays at most {percent(self.basis_points)} for {in_words(self.categories)}"

    def cap(self, fund: Fund) -> Cap | None:
        if fund.award is None:
            return None
        limit = share_floor(fund.award, self.basis_points)
        return Cap(categories=self.categories, limit=limit)


@rule_kind
@dataclass(frozen=True, slots=True)
class PapersNeeded(Rule):
    """Every one of `papers` must be attached to an expense of `cents` or more."""

    code: ClassVar[str] = "papers_needed"
    papers: frozenset[str]
    cents: int = 0

    def __post_init__(self) -> None:
        need_names(self.code, self.papers, "paper")
        need_number(self.code, self.cents, "The smallest expense in cents")

    @property
    def binds_match(self) -> bool:
        return True

    def sentence(self, symbol: str = "$") -> str:
        start = f" of {dollars(self.cents, symbol)} or more" if self.cents else ""
        return f"Every expense{start} needs: {_papers(self.papers)}."

    def check(self, charge: Charge) -> Refusal | None:
        missing = self.papers - charge.expense.papers
        if not missing or charge.expense.amount < self.cents:
            return None
        words = f"{charge.fund.name} needs a paper that this expense lacks: {_papers(missing)}."
        return refuse(self, charge, words, self.papers, missing)


PAPERS = {"receipt": "receipt or invoice", "payment": "proof of payment"}


def _papers(papers: frozenset[str]) -> str:
    return ", ".join(sorted(PAPERS.get(paper, paper.replace("_", " ")) for paper in papers))


@rule_kind
@dataclass(frozen=True, slots=True)
class CashOnly(Rule):
    """Gifts in kind cannot be charged; whether they count as match, the match rule says."""

    code: ClassVar[str] = "cash_only"

    def sentence(self, symbol: str = "$") -> str:
        return "Pays cash costs only."

    def check(self, charge: Charge) -> Refusal | None:
        if not charge.expense.in_kind:
            return None
        words = f"{charge.fund.name} pays cash costs only: this expense is a gift in kind."
        return refuse(self, charge, words, "cash", "in kind")
