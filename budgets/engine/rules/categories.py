"""Which kinds of cost a fund pays for at all."""

from dataclasses import dataclass
from typing import ClassVar

from budgets.engine.categories import in_words
from budgets.engine.model import Charge, Refusal, Rule
from budgets.engine.registry import need_names, refuse, rule_kind


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
        tail = "" if self.match_too else ", which may still count as match"
        return f"Does not pay for {in_words(self.categories)}{tail}."

    def check(self, charge: Charge) -> Refusal | None:
        found = charge.expense.category
        if found not in self.categories:
            return None
        words = f"{charge.fund.name} does not pay for {in_words([found])}."
        return refuse(self, charge, words, self.categories, found)


@rule_kind
@dataclass(frozen=True, slots=True)
class MatchOnlyCategories(Rule):
    """Source of the pattern: Florida Division of Arts and Culture, specific cultural projects."""

    code: ClassVar[str] = "match_only"
    categories: frozenset[str]

    def __post_init__(self) -> None:
        need_names(self.code, self.categories, "category")

    def sentence(self, symbol: str = "$") -> str:
        return f"Counts {in_words(self.categories)} as match only, and does not pay for it."

    def check(self, charge: Charge) -> Refusal | None:
        found = charge.expense.category
        if found not in self.categories:
            return None
        words = f"{charge.fund.name} takes {in_words([found])} as match only: let others pay it."
        return refuse(self, charge, words, self.categories, found)


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
