"""The budget that was agreed with the funder, and how far one may stray from it."""

from dataclasses import dataclass
from typing import ClassVar

from budgets.engine.categories import CATEGORIES, in_words
from budgets.engine.model import Base, Cap, Charge, Fund, Refusal, Row, Rule, Sum, Term
from budgets.engine.money import WHOLE, Rounding, dollars, percent, share_floor
from budgets.engine.registry import BadRule, need_number, refuse, rule_kind


@rule_kind
@dataclass(frozen=True, slots=True)
class AgreedBudget(Rule):
    """Each category keeps to its agreed cents, with a tolerance of a share.

    Of the `total`, all that goes over its category together stays within it; of the `line`, each
    category for itself. Without an agreed budget the rule is silent. Sources of the two patterns:
    San Francisco Arts Commission, grantee page (10 % of the budget); contract clauses (of a line).
    """

    code: ClassVar[str] = "agreed_budget"
    static: ClassVar[bool] = False
    base: ClassVar[Base | None] = Base.LINE
    rounding: ClassVar[Rounding | None] = Rounding.FLOOR
    basis_points: int = 0
    of: str = "total"

    def __post_init__(self) -> None:
        need_number(self.code, self.basis_points, "The tolerance in basis points", most=WHOLE)
        if self.of not in {"total", "line"}:
            raise BadRule(self.code, "A tolerance is a share of the total or of each line.")

    def sentence(self, symbol: str = "$") -> str:
        if not self.basis_points:
            return "Keeps to the agreed budget, category by category."
        whole = "the whole budget" if self.of == "total" else "each category"
        tail = f"may move by {percent(self.basis_points)} of {whole} before one has to ask"
        return f"Keeps to the agreed budget: money {tail}."

    def slack(self, fund: Fund) -> int:
        """Cents that may go over, all categories together."""
        return share_floor(sum(fund.budget.values()), self.basis_points)

    def line_most(self, fund: Fund, category: str) -> int:
        agreed = fund.budget.get(category, 0)
        return agreed + share_floor(agreed, self.basis_points)

    def caps(self, fund: Fund, project_total: int | None = None) -> tuple[Cap, ...]:
        if self.of == "total":
            return ()
        return tuple(
            Cap(categories=frozenset({key}), limit=self.line_most(fund, key)) for key in fund.budget
        )

    def room(self, charge: Charge) -> int | None:
        fund, here = charge.fund, charge.expense.category
        if not fund.budget:
            return None
        used = charge.used(frozenset({here}), self)
        if self.of == "line":
            return self.line_most(fund, here) - used
        over = {key: self._over(charge, key) for key in {*CATEGORIES, *fund.budget, here}}
        beside = sum(over.values()) - over[here]
        return fund.budget.get(here, 0) + max(0, self.slack(fund) - beside) - used

    def _over(self, charge: Charge, category: str) -> int:
        used = charge.used(frozenset({category}), self)
        return max(0, used - charge.fund.budget.get(category, 0))

    def check(self, charge: Charge) -> Refusal | None:
        left = self.room(charge)
        if left is None or charge.cents <= left:
            return None
        fund, here = charge.fund, charge.expense.category
        agreed = dollars(fund.budget.get(here, 0), charge.symbol)
        words = f"{fund.name} agreed {agreed} for {in_words([here])}"
        free = dollars(max(left, 0), charge.symbol)
        tail = f"{free} may still be charged there, this share is "
        tail += f"{dollars(charge.cents, charge.symbol)}. Ask for a change of budget first"
        return refuse(self, charge, f"{words}: {tail}.", max(left, 0), charge.cents)

    def rows(self, fund: Fund, project_total: int) -> tuple[Row, ...]:
        if not fund.budget:
            return ()
        agreed = {key: fund.budget.get(key, 0) for key in {**CATEGORIES, **fund.budget}}
        if self.of == "line":
            return tuple(self._row((self._term(key),), self.line_most(fund, key)) for key in agreed)
        over = tuple(self._term(key, Sum.OVER, cents) for key, cents in agreed.items())
        return (self._row(over, self.slack(fund)),)

    def _row(self, terms: tuple[Term, ...], most: int) -> Row:
        return Row(code=self.code, sentence=self.sentence(), terms=terms, most=most)

    def _term(self, category: str, of: Sum = Sum.CHARGED, base: int = 0) -> Term:
        return Term(
            weight=1,
            of=of,
            categories=frozenset({category}),
            base=base,
            first=self.starts_on,
            last=self.ends_on,
        )
