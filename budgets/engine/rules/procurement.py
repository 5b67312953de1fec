"""How many quotes a purchase needs. Thresholds change with the years, so each is given a date."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from budgets.engine.model import Charge, Expense, Refusal, Rule
from budgets.engine.money import dollars
from budgets.engine.registry import need_number, refuse, rule_kind


def procurement_method(amount: int, quotes_above: int, bids_above: int) -> str:
    """How a purchase of `amount` cents is made: "micro", "quotes" or "bids".

    The thresholds, in cents, are those in force on the day of the purchase. Source: 2 CFR 200.320.

    >>> [procurement_method(cents, 15_000_00, 350_000_00) for cents in (15_000_00, 15_000_01)]
    ['micro', 'quotes']
    """
    if amount <= quotes_above:
        return "micro"
    return "quotes" if amount <= bids_above else "bids"


@rule_kind
@dataclass(frozen=True, slots=True)
class QuotesNeeded(Rule):
    """Above `cents`, an expense needs `quotes` quotes; in force by the day it was ordered.

    With `warn_only`, a purchase that lacks them is told of and not barred.
    """

    code: ClassVar[str] = "quotes_needed"
    mendable: ClassVar[bool] = True
    cents: int
    quotes: int = 2
    warn_only: bool = False

    def __post_init__(self) -> None:
        need_number(self.code, self.cents, "The amount in cents")
        need_number(self.code, self.quotes, "The number of quotes")

    @property
    def binds_match(self) -> bool:
        return not self.warn_only

    def day_of(self, expense: Expense) -> date:
        return expense.ordered or expense.day

    def sentence(self, symbol: str = "$") -> str:
        verb = "should have" if self.warn_only else "needs"
        return f"A purchase above {dollars(self.cents, symbol)} {verb} {_quotes(self.quotes)}."

    def lacks(self, expense: Expense) -> bool:
        return not expense.in_kind and expense.amount > self.cents and expense.quotes < self.quotes

    def check(self, charge: Charge) -> Refusal | None:
        if self.warn_only or not self.lacks(charge.expense):
            return None
        needed, found = _quotes(self.quotes), charge.expense.quotes
        above = dollars(self.cents, charge.symbol)
        words = f"{charge.fund.name} needs {needed} for a purchase above {above}: this has {found}."
        return refuse(self, charge, words, self.quotes, found)


def _quotes(count: int) -> str:
    return f"{count} quote{'' if count == 1 else 's'}"
