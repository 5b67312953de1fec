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
        words = f"{charge.fund.name} pays only for {in_words(self.categories)}: this expense is {in_words([found])}."
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


@rule_kind
@dataclass(frozen=True, slots=True)
class CategoryCap(Rule):
    """At most `cents` for the categories together."""

    code: ClassVar[str] = "category_cap"
    categories: frozenset[str]
    cents: int

    def __post_init__(self) -> None:
        need_names(self.code, self.categories, "category")
        need_number(self.code, self.cents, None, "The cap in cents")

    def sentence(self, symbol: str = "$") -> str:
        return f"Pays at most {dollars(self.cents, symbol)} for {in_words(self.categories)}."

    def cap(self, fund: Fund) -> Cap | None:
        return Cap(categories=self.categories, limit=self.cents)

    def check(self, charge: Charge) -> Refusal | None:
        return _check_cap(
            self,
            charge,
            f"pays at most {dollars(self.cents, charge.symbol)} for {in_words(self.categories)}",
        )


@rule_kind
@dataclass(frozen=True, slots=True)
class CategoryShareCap(Rule):
    """At most a share of the award, rounded down to the cent, for the categories together."""

    code: ClassVar[str] = "category_share_cap"
    categories: frozenset[str]
    basis_points: int

    def __post_init__(self) -> None:
        need_names(self.code, self.categories, "category")
        need_number(
            self.code, self.basis_points, WHOLE, "The share in hundredths of a percent"
        )

    def sentence(self, symbol: str = "$") -> str:
        return f"Pays at most {percent(self.basis_points)} of its award for {in_words(self.categories)}."

    def cap(self, fund: Fund) -> Cap | None:
        if fund.award is None:
            return None
        return Cap(
            categories=self.categories, limit=share_floor(fund.award, self.basis_points)
        )

    def check(self, charge: Charge) -> Refusal | None:
        return _check_cap(
            self,
            charge,
            f"pays at most {percent(self.basis_points)} for {in_words(self.categories)}",
        )


def _check_cap(rule: Rule, charge: Charge, what: str) -> Refusal | None:
    cap = rule.cap(charge.fund)
    if cap is None or charge.expense.category not in cap.categories:
        return None
    used = charge.used(cap.categories)
    if used + charge.cents <= cap.limit:
        return None
    return refuse(
        rule,
        charge,
        room_left(charge, what, cap.limit - used),
        cap.limit,
        used + charge.cents,
    )


@rule_kind
@dataclass(frozen=True, slots=True)
class PapersNeeded(Rule):
    """Every one of `papers` must be attached to an expense of `from_cents` or more."""

    code: ClassVar[str] = "papers_needed"
    papers: frozenset[str]
    from_cents: int = 0

    def __post_init__(self) -> None:
        need_names(self.code, self.papers, "paper")
        need_number(self.code, self.from_cents, None, "The smallest expense in cents")

    @property
    def binds_match(self) -> bool:
        return True

    def sentence(self, symbol: str = "$") -> str:
        start = (
            f" of {dollars(self.from_cents, symbol)} or more" if self.from_cents else ""
        )
        return f"Every expense{start} needs: {_papers(self.papers)}."

    def check(self, charge: Charge) -> Refusal | None:
        missing = self.papers - charge.expense.papers
        if not missing or charge.expense.amount < self.from_cents:
            return None
        words = f"{charge.fund.name} needs papers that this expense lacks: {_papers(missing)}."
        return refuse(self, charge, words, self.papers, missing)


def _papers(papers: frozenset[str]) -> str:
    return ", ".join(sorted(paper.replace("_", " ") for paper in papers))


@rule_kind
@dataclass(frozen=True, slots=True)
class CashOnly(Rule):
    """Gifts of work and goods cannot be charged; whether they count as match is the match rule's affair."""

    code: ClassVar[str] = "cash_only"

    def sentence(self, symbol: str = "$") -> str:
        return "Pays cash costs only."

    def check(self, charge: Charge) -> Refusal | None:
        if not charge.expense.in_kind:
            return None
        words = (
            f"{charge.fund.name} pays cash costs only: this expense is a gift in kind."
        )
        return refuse(self, charge, words, "cash", "in kind")
