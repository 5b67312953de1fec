"""How and when a fund pays. The rules bar nothing; claims and the daily balance read them."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from budgets.engine.model import Base, Rule
from budgets.engine.money import WHOLE, Rounding, dollars, percent
from budgets.engine.registry import BadRule, in_full, need_number, rule_kind

MONTHS_MOST = 60
DAYS_MOST = 1000


@rule_kind
@dataclass(frozen=True, slots=True)
class PaidBack(Rule):
    """Pays back what was paid: claims every so many months, or on days that are given."""

    code: ClassVar[str] = "paid_back"
    months: int = 0
    dates: tuple[date, ...] = ()
    lag_days: int = 30
    smallest_cents: int = 0

    def __post_init__(self) -> None:
        need_number(self.code, self.months, "The months between claims", most=MONTHS_MOST)
        need_number(self.code, self.lag_days, "The days until the money comes", most=DAYS_MOST)
        need_number(self.code, self.smallest_cents, "The smallest claim in cents")

    def sentence(self, symbol: str = "$") -> str:
        words = f"Pays back what was spent, {self.when()}; the money comes {days(self.lag_days)}"
        least = f", for {dollars(self.smallest_cents, symbol)} or more"
        return f"{words} after the claim{least if self.smallest_cents else ''}."

    def when(self) -> str:
        if self.dates:
            return f"claimed on {', '.join(in_full(day) for day in sorted(self.dates))}"
        if not self.months:
            return "claimed once, at the end"
        return f"claimed every {'month' if self.months == 1 else f'{self.months} months'}"


@rule_kind
@dataclass(frozen=True, slots=True)
class PaidAhead(Rule):
    """A part of the award before the work; from a day, or from the signature.

    Source of the pattern: Region 2 Arts Council, payment policy (80 % before the start).
    """

    code: ClassVar[str] = "paid_ahead"
    base: ClassVar[Base | None] = Base.AWARD
    rounding: ClassVar[Rounding | None] = Rounding.FLOOR
    basis_points: int
    on: date | None = None
    lag_days: int = 30

    def __post_init__(self) -> None:
        need_number(self.code, self.basis_points, "The part in basis points", most=WHOLE)
        need_number(self.code, self.lag_days, "The days until the money comes", most=DAYS_MOST)

    def sentence(self, symbol: str = "$") -> str:
        start = in_full(self.on) if self.on else "the agreement is signed"
        return f"Pays {percent(self.basis_points)} ahead, {days(self.lag_days)} after {start}."


@rule_kind
@dataclass(frozen=True, slots=True)
class PaidByMilestone(Rule):
    """The milestones themselves are rows of the fund."""

    code: ClassVar[str] = "paid_by_milestone"

    def sentence(self, symbol: str = "$") -> str:
        return "Pays by milestones, each against an invoice."


@rule_kind
@dataclass(frozen=True, slots=True)
class HeldBack(Rule):
    """A part of what is claimed (of the award, when it is paid ahead) until the final report.

    Source of the pattern: Arts Council England, Region 2 Arts Council (10 to 20 %).
    """

    code: ClassVar[str] = "held_back"
    base: ClassVar[Base | None] = Base.CLAIMED
    rounding: ClassVar[Rounding | None] = Rounding.CEIL
    basis_points: int
    lag_days: int = 30

    def __post_init__(self) -> None:
        need_number(self.code, self.basis_points, "The part in basis points", most=WHOLE)
        need_number(self.code, self.lag_days, "The days until the money comes", most=DAYS_MOST)

    def sentence(self, symbol: str = "$") -> str:
        words = f"Holds {percent(self.basis_points)} back until the final report"
        return f"{words}; the money comes {days(self.lag_days)} after it."


@rule_kind
@dataclass(frozen=True, slots=True)
class RetainedOnBills(Rule):
    """A part of every bill of the contract, until `stop_basis_points` of it is done; then
    `after_basis_points`. Source of the pattern: Hawaii Revised Statutes 103-32.1.
    """

    code: ClassVar[str] = "retained"
    base: ClassVar[Base | None] = Base.CLAIMED
    rounding: ClassVar[Rounding | None] = Rounding.HALF_UP
    basis_points: int
    stop_basis_points: int = WHOLE
    after_basis_points: int = 0

    def __post_init__(self) -> None:
        for cents in (self.basis_points, self.stop_basis_points, self.after_basis_points):
            need_number(self.code, cents, "A share in basis points", most=WHOLE)
        if self.after_basis_points > self.basis_points:
            raise BadRule(self.code, "What is kept later is no more than what is kept first.")

    def sentence(self, symbol: str = "$") -> str:
        words = f"Keeps {percent(self.basis_points)} of every bill until the work is accepted"
        if self.stop_basis_points == WHOLE:
            return words + "."
        later = percent(self.after_basis_points) if self.after_basis_points else "nothing"
        return f"{words}; once {percent(self.stop_basis_points)} is done, {later}."


def days(count: int) -> str:
    return f"{count} day{'' if count == 1 else 's'}"
