"""Which day of an expense counts, and the days before and after which nothing does."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from budgets.engine.model import Charge, Expense, Fund, Refusal, Rule
from budgets.engine.registry import BadRule, in_full, refuse, rule_kind

INCURRED = "incurred"
DAYS = {
    INCURRED: "was spent",
    "ordered": "was ordered",
    "delivered": "was delivered",
    "paid": "was paid",
}


@rule_kind
@dataclass(frozen=True, slots=True)
class PeriodBy(Rule):
    """Which day has to lie inside the eligible period; without this rule, the day it was spent."""

    code: ClassVar[str] = "period_by"
    by: str = INCURRED

    def __post_init__(self) -> None:
        if self.by not in DAYS:
            raise BadRule(self.code, f"Choose one of: {', '.join(DAYS)}.")

    def sentence(self, symbol: str = "$") -> str:
        return f"An expense lies in the period by the day it {DAYS[self.by]}."


def counted_day(fund: Fund, expense: Expense) -> tuple[str, date | None]:
    """What decides whether an expense lies in the period, and its day; None when not written down.

    What is still to be spent has one day for all of them.
    """
    by = next((rule.by for rule in fund.rules if type(rule) is PeriodBy), INCURRED)
    if by == INCURRED or expense.forecast:
        return by, expense.day
    days = {"ordered": expense.ordered, "delivered": expense.delivered, "paid": expense.paid}
    return by, days[by]


@rule_kind
@dataclass(frozen=True, slots=True)
class PaidBy(Rule):
    """Spent inside the period and yet too late: the bill was paid after the last day for paying.

    Source of the pattern: 2 CFR 200.344(c), costs are paid within 120 days after the period.
    """

    code: ClassVar[str] = "paid_by"
    on: date

    @property
    def binds_match(self) -> bool:
        return True

    def sentence(self, symbol: str = "$") -> str:
        return f"Every bill must be paid by {in_full(self.on)}."

    def check(self, charge: Charge) -> Refusal | None:
        paid = charge.expense.paid
        if paid is None or paid <= self.on:
            return None
        words = f"{charge.fund.name} takes bills paid by {in_full(self.on)}"
        return refuse(self, charge, f"{words}: this one was paid {in_full(paid)}.", self.on, paid)


@rule_kind
@dataclass(frozen=True, slots=True)
class NothingBefore(Rule):
    """Nothing ordered or spent before a day; without a day, the one the award was issued.

    Source of the pattern: City of Madison, arts grant restrictions (nothing before signing).
    """

    code: ClassVar[str] = "nothing_before"
    on: date | None = None
    what: str = "the agreement"

    @property
    def binds_match(self) -> bool:
        return True

    def sentence(self, symbol: str = "$") -> str:
        day = f" ({in_full(self.on)})" if self.on else ""
        return f"Pays nothing that was ordered or spent before {self.what}{day}."

    def check(self, charge: Charge) -> Refusal | None:
        gate, expense = self.on or charge.fund.issued, charge.expense
        first = min(expense.day, expense.ordered or expense.day)
        if gate is None or first >= gate:
            return None
        words = f"{charge.fund.name} pays nothing from before {self.what} ({in_full(gate)})"
        return refuse(self, charge, f"{words}: this is from {in_full(first)}.", gate, first)
