"""The most that a fund pays for some categories: an amount, or a share known at once."""

from dataclasses import dataclass
from typing import ClassVar

from budgets.engine.categories import in_words
from budgets.engine.model import Base, Cap, Charge, Fund, Refusal, Row, Rule, Sum, Term
from budgets.engine.money import WHOLE, Rounding, dollars, percent, share_floor
from budgets.engine.registry import need_names, need_number, refuse, room_left, rule_kind


@dataclass(frozen=True, slots=True)
class CategoryLimit(Rule):
    """Base of the caps: a limit in cents for some categories together."""

    static: ClassVar[bool] = False
    categories: frozenset[str]

    def pays(self, symbol: str) -> str:
        """The cap as it follows the name of the fund."""
        raise NotImplementedError

    def sentence(self, symbol: str = "$") -> str:
        return f"P{self.pays(symbol)[1:]}."

    def limit(self, fund: Fund, project_total: int | None) -> int | None:
        raise NotImplementedError

    def caps(self, fund: Fund, project_total: int | None = None) -> tuple[Cap, ...]:
        limit = self.limit(fund, project_total)
        return () if limit is None else (Cap(categories=self.categories, limit=limit),)

    def room(self, charge: Charge) -> int | None:
        limit = self.limit(charge.fund, charge.project_total)
        if limit is None or charge.expense.category not in self.categories:
            return None
        return limit - charge.used(self.categories, self)

    def check(self, charge: Charge) -> Refusal | None:
        left = self.room(charge)
        if left is None or charge.cents <= left:
            return None
        words = room_left(charge, self.pays(charge.symbol), left)
        limit = self.limit(charge.fund, charge.project_total) or 0
        return refuse(self, charge, words, limit, limit - left + charge.cents)

    def rows(self, fund: Fund, project_total: int) -> tuple[Row, ...]:
        limit = self.limit(fund, project_total)
        if limit is None:
            return ()
        return (
            Row(
                code=self.code,
                sentence=self.sentence(fund.symbol),
                terms=(in_force(self),),
                most=limit,
            ),
        )


def in_force(rule: CategoryLimit) -> Term:
    """What is charged in the categories of a rule on the days it is in force."""
    return Term(
        weight=1,
        of=Sum.CHARGED,
        categories=rule.categories,
        first=rule.starts_on,
        last=rule.ends_on,
    )


@rule_kind
@dataclass(frozen=True, slots=True)
class CategoryCap(CategoryLimit):
    """At most `cents` for the categories together; several of these nest."""

    code: ClassVar[str] = "category_cap"
    cents: int

    def __post_init__(self) -> None:
        need_names(self.code, self.categories, "category")
        need_number(self.code, self.cents, "The cap in cents")

    def pays(self, symbol: str) -> str:
        return f"pays at most {dollars(self.cents, symbol)} for {in_words(self.categories)}"

    def limit(self, fund: Fund, project_total: int | None) -> int | None:
        return self.cents


@dataclass(frozen=True, slots=True)
class ShareLimit(CategoryLimit):
    """Base of the caps that are a share of something known, rounded down to the cent."""

    rounding: ClassVar[Rounding | None] = Rounding.FLOOR
    basis_points: int

    def __post_init__(self) -> None:
        need_names(self.code, self.categories, "category")
        need_number(self.code, self.basis_points, "The share in basis points", most=WHOLE)


@rule_kind
@dataclass(frozen=True, slots=True)
class CategoryShareCap(ShareLimit):
    code: ClassVar[str] = "category_share_cap"
    base: ClassVar[Base | None] = Base.AWARD

    def sentence(self, symbol: str = "$") -> str:
        words = in_words(self.categories)
        return f"Pays at most {percent(self.basis_points)} of its award for {words}."

    def pays(self, symbol: str) -> str:
        return f"pays at most {percent(self.basis_points)} for {in_words(self.categories)}"

    def limit(self, fund: Fund, project_total: int | None) -> int | None:
        return None if fund.award is None else share_floor(fund.award, self.basis_points)


@rule_kind
@dataclass(frozen=True, slots=True)
class CategoryTotalCap(ShareLimit):
    """Source of the pattern: Region 2 Arts Council, budget guidelines (15 % of the project)."""

    code: ClassVar[str] = "category_total_cap"
    base: ClassVar[Base | None] = Base.TOTAL

    def pays(self, symbol: str) -> str:
        share = f"{percent(self.basis_points)} of the whole project's cost"
        return f"pays at most {share} for {in_words(self.categories)}"

    def limit(self, fund: Fund, project_total: int | None) -> int | None:
        return None if project_total is None else share_floor(project_total, self.basis_points)
