"""Reports that fall due, spending that should keep pace, records that are kept."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from budgets.engine.model import Base, Fund, Now, Refusal, Rule
from budgets.engine.money import WHOLE, Rounding, dollars, percent, share_floor
from budgets.engine.registry import BadRule, in_full, need_number, rule_kind
from budgets.engine.rules.payment import DAYS_MOST, days

AFTER = {"period_end": "the period ends", "public_date": "the public date"}
YEARS_MOST = 100


@rule_kind
@dataclass(frozen=True, slots=True)
class ReportDue(Rule):
    """A report `days` after the period ends or the public date, or on a day that is given.

    Source of the federal 120 days: 2 CFR 200.344(a).
    """

    code: ClassVar[str] = "report_due"
    what: str = "Final report"
    days: int = 0
    after: str = "period_end"
    on: date | None = None

    def __post_init__(self) -> None:
        need_number(self.code, self.days, "The days until the report", most=DAYS_MOST)
        if self.after not in AFTER:
            raise BadRule(self.code, f"Choose one of: {', '.join(AFTER)}.")
        if not self.what.strip():
            raise BadRule(self.code, "Name the report.")

    def sentence(self, symbol: str = "$") -> str:
        if self.on:
            return f"{self.what} due by {in_full(self.on)}."
        return f"{self.what} due {days(self.days)} after {AFTER[self.after]}."


def progress_due(award: int, cumulative: int, numerator: int = 2, denominator: int = 3) -> bool:
    """Whether requests so far exceed a fraction of the award; the fraction itself is not yet it.

    Source: NEA reporting requirements (a progress report once requests exceed two thirds).

    >>> [progress_due(15_000_00, cents) for cents in (10_000_00, 10_000_01)]
    [False, True]
    """
    return denominator * cumulative > numerator * award


@rule_kind
@dataclass(frozen=True, slots=True)
class ProgressReport(Rule):
    code: ClassVar[str] = "progress_report"
    base: ClassVar[Base | None] = Base.AWARD
    numerator: int = 2
    denominator: int = 3

    def __post_init__(self) -> None:
        need_number(self.code, self.numerator, "The upper number")
        need_number(self.code, self.denominator, "The lower number")
        if not 0 < self.numerator <= self.denominator:
            raise BadRule(self.code, "Write a fraction of the award, such as 2 of 3.")

    def sentence(self, symbol: str = "$") -> str:
        part = f"{self.numerator}/{self.denominator}"
        return f"A progress report is due once claims exceed {part} of the award."

    def due(self, fund: Fund, claimed: int) -> bool:
        return progress_due(fund.award or 0, claimed, self.numerator, self.denominator)

    def warn(self, fund: Fund, now: Now) -> Refusal | None:
        if fund.award is None or not self.due(fund, now.claimed):
            return None
        part, asked = f"{self.numerator}/{self.denominator}", dollars(now.claimed, now.symbol)
        words = f"{fund.name}: {asked} is claimed, more than {part}: a progress report is due."
        return Refusal(
            code=self.code,
            rule=self.sentence(now.symbol),
            sentence=words,
            limit=fund.award * self.numerator // self.denominator,
            actual=now.claimed,
        )


@rule_kind
@dataclass(frozen=True, slots=True)
class SpendDown(Rule):
    """So much of the award claimed by a day, else the funder may take the rest back."""

    code: ClassVar[str] = "spend_down"
    base: ClassVar[Base | None] = Base.AWARD
    rounding: ClassVar[Rounding | None] = Rounding.FLOOR
    basis_points: int
    on: date

    def __post_init__(self) -> None:
        need_number(self.code, self.basis_points, "The part in basis points", most=WHOLE)

    def sentence(self, symbol: str = "$") -> str:
        return f"{percent(self.basis_points)} of the award is claimed by {in_full(self.on)}."

    def warn(self, fund: Fund, now: Now) -> Refusal | None:
        behind = WHOLE * now.claimed < self.basis_points * (fund.award or 0)
        if fund.award is None or not behind:
            return None
        least = share_floor(fund.award, self.basis_points)
        gap = dollars(least - now.claimed, now.symbol)
        late = "was due" if now.today > self.on else "is to be claimed"
        return Refusal(
            code=self.code,
            rule=self.sentence(now.symbol),
            sentence=f"{fund.name}: {gap} more {late} by {in_full(self.on)}, or it may lapse.",
            limit=least,
            actual=now.claimed,
        )


@rule_kind
@dataclass(frozen=True, slots=True)
class RecordsKept(Rule):
    """Source of the federal three years from the final report: 2 CFR 200.334."""

    code: ClassVar[str] = "records_kept"
    years: int = 3

    def __post_init__(self) -> None:
        need_number(self.code, self.years, "The years", most=YEARS_MOST)

    def sentence(self, symbol: str = "$") -> str:
        count = "1 year" if self.years == 1 else f"{self.years} years"
        return f"Records are kept {count} from the final report."
