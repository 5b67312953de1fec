"""How a fund pays, when it is claimed from, and what is due to it: its rules, read by others."""

from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TypeVar

from budgets.engine.model import Fund, Rule
from budgets.engine.rules.days import PaidBy
from budgets.engine.rules.payment import (
    HeldBack,
    PaidAhead,
    PaidBack,
    PaidByMilestone,
    RetainedOnBills,
)
from budgets.engine.rules.reporting import ProgressReport, RecordsKept, ReportDue

Kind = TypeVar("Kind", bound=Rule)
MONTHS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Payment:
    """How a fund pays. A fund may do several: a part ahead, the rest paid back.

    `back` are claims (every `months`, on `dates`, or once at the end when neither is given), their
    money `lag_days` after. `ahead_basis_points` of the award come `ahead_lag_days` after `ahead_on`
    (none: the day it is signed). `held_basis_points` wait for the final report.
    """

    back: bool = False
    months: int = 0
    dates: tuple[date, ...] = ()
    lag_days: int = 30
    smallest_cents: int = 0
    ahead_basis_points: int = 0
    ahead_on: date | None = None
    ahead_lag_days: int = 30
    milestones: bool = False
    held_basis_points: int = 0
    held_lag_days: int = 30
    said: bool = False  # whether any rule says how it pays


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """A paper owed to the funder: what, by when, and the sentence that asks for it."""

    what: str
    on: date
    why: str


def payment_of(fund: Fund) -> Payment:
    """How a fund pays, of all its rules about it; nothing said leaves every part empty.

    >>> from budgets.engine.registry import rule_from
    >>> rules = (rule_from("paid_back", {"months": 3, "lag_days": 45}),
    ...          rule_from("held_back", {"basis_points": 1000}))
    >>> board = payment_of(Fund(key="board", name="Board", rules=rules))
    >>> board.back, board.months, board.lag_days, board.held_basis_points
    (True, 3, 45, 1000)
    """
    back, ahead = first(fund, PaidBack), first(fund, PaidAhead)
    held, parts = first(fund, HeldBack), first(fund, PaidByMilestone)
    return Payment(
        back=back is not None,
        months=back.months if back else 0,
        dates=tuple(sorted(back.dates)) if back else (),
        lag_days=back.lag_days if back else 30,
        smallest_cents=back.smallest_cents if back else 0,
        ahead_basis_points=ahead.basis_points if ahead else 0,
        ahead_on=ahead.on if ahead else None,
        ahead_lag_days=ahead.lag_days if ahead else 30,
        milestones=parts is not None,
        held_basis_points=held.basis_points if held else 0,
        held_lag_days=held.lag_days if held else 30,
        said=any(rule is not None for rule in (back, ahead, held, parts)),
    )


def hold_back_of(fund: Fund) -> int:
    """The share, in basis points, that waits for the final report; 0 when none does."""
    return payment_of(fund).held_basis_points


def retained_of(fund: Fund) -> RetainedOnBills | None:
    """What a contract keeps of every bill, if it does."""
    return first(fund, RetainedOnBills)


def last_to_pay(fund: Fund) -> date | None:
    """The last day on which a bill may be paid and still be charged; None when no rule says so.

    >>> from budgets.engine.registry import rule_from
    >>> rule = rule_from("paid_by", {"on": "2031-09-30"})
    >>> last_to_pay(Fund(key="n", name="Nation", rules=(rule,)))
    datetime.date(2031, 9, 30)
    """
    return min((rule.on for rule in fund.rules if isinstance(rule, PaidBy)), default=None)


def claim_days(payment: Payment, start: date, end: date) -> tuple[date, ...]:
    """The days on which a fund may be claimed from between two days, both included.

    Every so many months from the start, and once more at the end; what is paid after the last is
    never paid back. Empty when the fund pays nothing back.

    >>> quarterly = Payment(back=True, months=3)
    >>> [str(day) for day in claim_days(quarterly, date(2031, 1, 1), date(2031, 8, 31))]
    ['2031-04-01', '2031-07-01', '2031-08-31']
    """
    if not payment.back or end < start:
        return ()
    if payment.dates:
        return tuple(day for day in payment.dates if start <= day <= end)
    found = []
    step = payment.months
    while step and (day := add_months(start, step)) < end:
        found.append(day)
        step += payment.months
    return (*found, end)


def report_dates(fund: Fund, *, public_on: date | None = None) -> tuple[Due, ...]:
    """The reports that a fund asks for, by day; one whose day is not known yet is left out.

    >>> from budgets.engine.registry import rule_from
    >>> rule = rule_from("report_due", {"days": 120})
    >>> nation = Fund(key="n", name="Nation", period_end=date(2026, 12, 31), rules=(rule,))
    >>> [str(due.on) for due in report_dates(nation)]
    ['2027-04-30']
    """
    days = {"period_end": fund.period_end, "public_date": public_on}
    found = []
    for rule in fund.rules:
        if isinstance(rule, ReportDue):
            start = days[rule.after]
            on = rule.on or (start and start + timedelta(days=rule.days))
            if on:
                found.append(Due(what=rule.what, on=on, why=rule.sentence(fund.symbol)))
    return tuple(sorted(found, key=lambda due: (due.on, due.what)))


def progress_report_due(fund: Fund, claimed: int) -> bool:
    """Whether claims so far, in cents, exceed the part of the award that asks for a report."""
    rule = first(fund, ProgressReport)
    return rule is not None and rule.due(fund, claimed)


def records_until(fund: Fund, final_report_on: date) -> date | None:
    """The day until which records of the fund are kept; None when no rule says so.

    >>> from budgets.engine.registry import rule_from
    >>> rules = (rule_from("records_kept", {"years": 3}),)
    >>> records_until(Fund(key="n", name="Nation", rules=rules), date(2027, 9, 28))
    datetime.date(2030, 9, 28)
    """
    years = [rule.years for rule in fund.rules if isinstance(rule, RecordsKept)]
    return add_months(final_report_on, max(years) * MONTHS) if years else None


def add_months(day: date, count: int) -> date:
    """The same day `count` months later, or the last of that month when it has no such day.

    >>> add_months(date(2028, 2, 29), 12), add_months(date(2031, 1, 31), 1)
    (datetime.date(2029, 2, 28), datetime.date(2031, 2, 28))
    """
    years, month = divmod(day.month - 1 + count, MONTHS)
    year = day.year + years
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def first(fund: Fund, kind: type[Kind]) -> Kind | None:
    return next((rule for rule in fund.rules if isinstance(rule, kind)), None)
