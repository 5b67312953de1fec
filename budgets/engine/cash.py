"""The money that is really there, day by day. Integer cents; a flow in is above zero, out below.

On each day what goes out goes before what comes in: nobody may count on the post coming early.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from itertools import groupby, pairwise

from budgets.engine.money import WHOLE, MoneyError, NegativeMoney, Rounding, portion


class BadStep(MoneyError):
    """A loan cannot come in steps of nothing."""

    code = "bad_step"


@dataclass(frozen=True, slots=True, kw_only=True)
class Flow:
    """Cents that come in (above zero) or go out (below) on a day. `sure` is False for a plan."""

    day: date
    cents: int
    what: str
    why: str = ""
    key: str = ""
    sure: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DayBalance:
    """A day on which money moves: `low` once all has gone out, `close` once all has come in."""

    day: date
    low: int
    close: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """The balance over time. `lowest` is the first of the lowest days; None when nothing moves."""

    opening: int
    days: tuple[DayBalance, ...]
    lowest: DayBalance | None

    @property
    def least(self) -> int:
        return min(self.opening, self.lowest.low) if self.lowest else self.opening

    @property
    def closing(self) -> int:
        return self.days[-1].close if self.days else self.opening


def course(opening: int, flows: Iterable[Flow]) -> Course:
    """The balance on every day on which money moves.

    >>> bill = Flow(day=date(2031, 5, 2), cents=-800_00, what="Frame")
    >>> claim = Flow(day=date(2031, 5, 2), cents=500_00, what="Claim")
    >>> found = course(500_00, [claim, bill])
    >>> found.lowest.low, found.closing
    (-30000, 20000)
    """
    balance, days = opening, []
    for day, rows in groupby(sorted(flows, key=lambda flow: flow.day), key=lambda flow: flow.day):
        cents = [flow.cents for flow in rows]
        low = balance + sum(c for c in cents if c < 0)
        balance += sum(cents)
        days.append(DayBalance(day=day, low=low, close=balance))
    lowest = min(days, key=lambda found: (found.low, found.day), default=None)
    return Course(opening=opening, days=tuple(days), lowest=lowest)


def bridge(found: Course, floor: int = 0) -> int:
    """What must be borrowed or put in so that the balance never sinks below `floor`, in cents.

    >>> bridge(course(100_00, [Flow(day=date(2031, 5, 2), cents=-300_00, what="Frame")]), 50_00)
    25000
    """
    return max(0, floor - found.least)


def simple_interest(principal: int, basis_points: int, days: int, basis: Fraction | int) -> int:
    """Interest on a loan for some days, in cents, half a cent up; `basis` is the lender's year.

    Source of the example: open text on simple interest, ordinary (360) and exact (365) years.

    >>> [simple_interest(5_000_00, 800, 90, year) for year in (365, 360)]
    [9863, 10000]
    """
    year = Fraction(basis)
    return portion(
        principal * days, basis_points * year.denominator, WHOLE * year.numerator, Rounding.HALF_UP
    )


def loan_interest(
    found: Course, floor: int, basis_points: int, basis: Fraction | int, until: date
) -> int:
    """Interest on a loan that just holds the balance at `floor` each night, rounded once.

    The loan of a day is what the balance lacks when the day closes, until the next day on which
    money moves, the last until `until`.
    """
    days = found.days
    ends = [*(later.day for later in days[1:]), until]
    owed = sum(
        max(0, floor - day.close) * max(0, (end - day.day).days)
        for day, end in zip(days, ends, strict=False)
    )
    return simple_interest(owed, basis_points, 1, basis) if owed else 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Period:
    """A row of a cash budget, in cents: what is there, what goes, what is borrowed or repaid."""

    opening: int
    receipts: int
    payments: int
    borrow: int
    repay: int
    owed: int  # of the loan, when the period closes

    @property
    def available(self) -> int:
        return self.opening + self.receipts

    @property
    def excess(self) -> int:
        return self.available - self.payments

    @property
    def closing(self) -> int:
        return self.excess + self.borrow - self.repay


def cash_budget(
    opening: int,
    receipts: Sequence[int],
    payments: Sequence[int],
    *,
    minimum: int = 0,
    step: int = 1,
) -> tuple[Period, ...]:
    """A cash budget by periods: borrow in steps up to the minimum, repay in steps what is above.

    Source of the layout: OpenStax, Principles of Managerial Accounting, cash budgets.
    Raises BadStep when `step` is below one.

    >>> rows = cash_budget(100_00, [0, 400_00], [150_00, 50_00], minimum=50_00, step=100_00)
    >>> [(row.borrow, row.repay, row.closing) for row in rows]
    [(10000, 0, 5000), (0, 10000, 30000)]
    """
    if step < 1:
        raise BadStep("A loan comes in steps of one cent or more.")
    rows: list[Period] = []
    for came, went in zip(receipts, payments, strict=True):
        before = rows[-1].closing if rows else opening
        owed = rows[-1].owed if rows else 0
        rows.append(_period(before, came, went, minimum, step, owed))
    return tuple(rows)


def period_interest(
    rows: Sequence[Period], days: Sequence[int], basis_points: int, basis: Fraction | int
) -> tuple[int, ...]:
    """Interest of each period in cents, on what is owed in it; together they are rounded once.

    A loan is taken when a period of so many `days` opens, and repaid when it closes. Common
    practice, no source.

    >>> rows = cash_budget(0, [0, 2_000_00], [1_000_00, 0])
    >>> period_interest(rows, [30, 31], 900, 360)
    (750, 775)
    """
    owed = [(row.owed + row.repay) * count for row, count in zip(rows, days, strict=True)]
    so_far = [
        simple_interest(sum(owed[:end]), basis_points, 1, basis) for end in range(len(owed) + 1)
    ]
    return tuple(after - before for before, after in pairwise(so_far))


def _period(opening: int, came: int, went: int, minimum: int, step: int, owed: int) -> Period:
    if came < 0 or went < 0:
        raise NegativeMoney("What comes in or goes out", min(came, went))
    above = opening + came - went - minimum
    borrow = -(above // step) * step if above < 0 else 0
    repay = min(owed, above) // step * step if above > 0 else 0
    return Period(
        opening=opening,
        receipts=came,
        payments=went,
        borrow=borrow,
        repay=repay,
        owed=owed + borrow - repay,
    )
