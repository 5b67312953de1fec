"""Limits that move with what is charged: known only once everything is charged."""

from dataclasses import dataclass, replace
from typing import ClassVar

from budgets.engine.categories import in_words
from budgets.engine.model import Base, Charge, Fund, Now, Refusal, Row, Rule, Sum, Term
from budgets.engine.money import WHOLE, Rounding, dollars, percent, share_ceil, share_floor
from budgets.engine.registry import need_names, need_number, refuse, room_left, rule_kind


@dataclass(frozen=True, slots=True)
class ClaimedShare(Rule):
    """Base of the two; `used` never judges a share by what happens to be charged before it."""

    static: ClassVar[bool] = False
    base: ClassVar[Base | None] = Base.CLAIMED
    categories: frozenset[str]
    basis_points: int

    def __post_init__(self) -> None:
        need_names(self.code, self.categories, "category")
        need_number(self.code, self.basis_points, "The share in basis points", most=WHOLE)

    def spent(self, now: Now) -> int:
        return sum(now.by_category.get(key, 0) for key in self.categories)

    def terms(self, weight: int, share: int) -> tuple[Term, ...]:
        """`weight` times the categories, and `share` times all that is charged, overhead too."""
        everything = Term(weight=share, of=Sum.CHARGED, first=self.starts_on, last=self.ends_on)
        return (
            replace(everything, weight=weight, categories=self.categories),
            everything,
            Term(weight=share, of=Sum.INDIRECT),
        )

    def warned(self, sentence: str, limit: int, actual: int, symbol: str) -> Refusal:
        return Refusal(
            code=self.code,
            rule=self.sentence(symbol),
            sentence=sentence,
            limit=limit,
            actual=actual,
        )


@rule_kind
@dataclass(frozen=True, slots=True)
class CategoryClaimedCap(ClaimedShare):
    """At most a share of what is charged. One share alone breaks it when it is more than the whole
    award could ever allow; below that, only the sum tells, and it is a warning until claimed."""

    code: ClassVar[str] = "category_claimed_cap"
    rounding: ClassVar[Rounding | None] = Rounding.FLOOR

    def sentence(self, symbol: str = "$") -> str:
        words = in_words(self.categories)
        return f"Pays at most {percent(self.basis_points)} of what is claimed for {words}."

    def rows(self, fund: Fund, project_total: int) -> tuple[Row, ...]:
        terms = self.terms(WHOLE, -self.basis_points)
        return (Row(code=self.code, sentence=self.sentence(fund.symbol), terms=terms, most=0),)

    def room(self, charge: Charge) -> int | None:
        award = charge.fund.award
        if award is None or charge.expense.category not in self.categories:
            return None
        return share_floor(award, self.basis_points) - charge.used(self.categories, self)

    def check(self, charge: Charge) -> Refusal | None:
        left = self.room(charge)
        if left is None or charge.cents <= left:
            return None
        what = f"pays at most {percent(self.basis_points)} for {in_words(self.categories)}"
        limit = share_floor(charge.fund.award or 0, self.basis_points)
        words = room_left(charge, what, left)
        return refuse(self, charge, words, limit, limit - left + charge.cents)

    def warn(self, fund: Fund, now: Now) -> Refusal | None:
        used, most = self.spent(now), share_floor(now.charged, self.basis_points)
        if used <= most:
            return None
        named, over = in_words(self.categories), dollars(used - most, now.symbol)
        share = f"{percent(self.basis_points)} of what is charged so far"
        words = f"{fund.name}: {share} may be {named}, {over} is too much."
        return self.warned(words, most, used, now.symbol)


@rule_kind
@dataclass(frozen=True, slots=True)
class CategoryFloor(ClaimedShare):
    """At least a share of what is charged, such as artists' pay (common practice, no source)."""

    code: ClassVar[str] = "category_floor"
    rounding: ClassVar[Rounding | None] = Rounding.CEIL

    def sentence(self, symbol: str = "$") -> str:
        words = in_words(self.categories)
        return f"At least {percent(self.basis_points)} of what is claimed is for {words}."

    def rows(self, fund: Fund, project_total: int) -> tuple[Row, ...]:
        terms = self.terms(-WHOLE, self.basis_points)
        return (Row(code=self.code, sentence=self.sentence(fund.symbol), terms=terms, most=0),)

    def warn(self, fund: Fund, now: Now) -> Refusal | None:
        used, least = self.spent(now), share_ceil(now.charged, self.basis_points)
        if used >= least:
            return None
        named, short = in_words(self.categories), dollars(least - used, now.symbol)
        words = f"{fund.name}: at least {percent(self.basis_points)} of what is charged must be"
        return self.warned(f"{words} {named}, {short} is missing.", least, used, now.symbol)
