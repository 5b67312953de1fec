"""The most that a fund pays for a mile, a night, a day or an hour."""

from dataclasses import dataclass
from typing import ClassVar

from budgets.engine.model import Base, Charge, Expense, Refusal, Rule
from budgets.engine.money import Rounding, dollars, portion
from budgets.engine.registry import BadRule, need_number, refuse, rule_kind

UNITS = {
    "hour": "hour",
    "mile": "mile",
    "night": "night",
    "day": "day",
    "item": "piece",
}
MILLS = 1000  # in a dollar; hundredths of a unit times mills are thousandths of a cent


@rule_kind
@dataclass(frozen=True, slots=True)
class RateCeiling(Rule):
    """At most `mills` (tenths of a cent) a unit; what is above stays with the artist's own money.

    Rounded half up, like the helpers that value a trip: what they reckon is never a cent too much.
    """

    code: ClassVar[str] = "rate_ceiling"
    static: ClassVar[bool] = False
    base: ClassVar[Base | None] = Base.EXPENSE
    rounding: ClassVar[Rounding | None] = Rounding.HALF_UP
    unit: str
    mills: int
    categories: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        if self.unit not in UNITS:
            raise BadRule(self.code, f"Choose one of: {', '.join(UNITS.values())}.")
        need_number(self.code, self.mills, "The rate in tenths of a cent")

    def sentence(self, symbol: str = "$") -> str:
        return f"Pays at most {self.rate(symbol)}."

    def rate(self, symbol: str) -> str:
        whole, rest = divmod(self.mills, 10)
        tenth = str(rest) if rest else ""
        return f"{dollars(whole, symbol)}{tenth} for each {UNITS[self.unit]}"

    def eligible(self, expense: Expense) -> int | None:
        """The most cents of an expense that the ceiling lets through; None if not about it."""
        concerned = not self.categories or expense.category in self.categories
        if expense.unit != self.unit or not concerned or not self.holds_for(expense):
            return None
        units = portion(expense.units, self.mills, MILLS, Rounding.HALF_UP)
        return min(expense.amount, units)

    def room(self, charge: Charge) -> int | None:
        return self.eligible(charge.expense)

    def check(self, charge: Charge) -> Refusal | None:
        most = self.eligible(charge.expense)
        if most is None or charge.cents <= most:
            return None
        words = f"{charge.fund.name} pays at most {self.rate(charge.symbol)}"
        tail = f"{dollars(most, charge.symbol)} of this expense, the rest is your own"
        return refuse(self, charge, f"{words}: {tail}.", most, charge.cents)
