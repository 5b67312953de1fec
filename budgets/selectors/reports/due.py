"""Which report is due next, and when."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from budgets.engine.dated import Dated, NoFact, value_on
from budgets.engine.rules.reporting import ProgressReport, ReportDue
from budgets.fit import Books
from budgets.models import Claim, Fund, FundStatus
from budgets.selectors.reports.federal import REPORTING
from projects.hooks import Level
from projects.words import day_year, plural

SOON = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """A report of a fund and its day; no day: now."""

    fund: Fund
    what: str
    day: date | None

    def words(self, today: date) -> str:
        if self.day is None:
            return f"{self.what}: now"
        return f"{self.what} {'was ' if self.day < today else ''}due {day_year(self.day)}"

    def level(self, today: date) -> Level:
        if self.day is None or self.day < today:
            return Level.BROKEN
        return Level.NEAR if (self.day - today).days <= SOON else Level.PLAIN

    def away(self, today: date) -> str:
        if self.day is None:
            return "due now"
        days = (self.day - today).days
        return f"due in {plural(days, 'day')}" if days >= 0 else f"{plural(-days, 'day')} late"


@dataclass(frozen=True, kw_only=True)
class Calendar:
    """What due days are reckoned from."""

    claims: tuple[Claim, ...]
    facts: tuple[Dated, ...]
    public_on: date | None


def next_due(books: Books, fund: Fund, calendar: Calendar) -> Due | None:
    """The earliest that is still open; a closed fund or one that is not signed owes none."""
    if fund.status != FundStatus.SIGNED:
        return None
    found = list(all_due(books, fund, calendar))
    return min(found, key=lambda due: due.day or date.min, default=None)


def all_due(books: Books, fund: Fund, calendar: Calendar) -> Iterator[Due]:
    mine = [claim for claim in calendar.claims if claim.fund_id == fund.pk]
    filed = [claim for claim in mine if claim.filed_on]
    for claim in mine:
        if claim.due_on and not claim.filed_on:
            yield Due(fund=fund, what=f"Claim {claim.number}", day=claim.due_on)
    if any(claim.is_final for claim in filed):
        return
    rules = books.fund_values[fund.pk].rules
    for rule in rules:
        if isinstance(rule, ReportDue) and (day := day_of(rule, fund, calendar)):
            yield Due(fund=fund, what=rule.what, day=day)
        if isinstance(rule, ProgressReport) and progress_open(books, fund, rule, filed):
            yield Due(fund=fund, what="Progress report", day=None)
    day = None if any_report(rules) else federal_day(fund, calendar.facts)
    if day:
        yield Due(fund=fund, what="Final federal report", day=day)


def any_report(rules: Iterable[object]) -> bool:
    return any(isinstance(rule, ReportDue) for rule in rules)


def day_of(rule: ReportDue, fund: Fund, calendar: Calendar) -> date | None:
    base = fund.period_end if rule.after == "period_end" else calendar.public_on
    return rule.on or (base + timedelta(days=rule.days) if base else None)


def progress_open(books: Books, fund: Fund, rule: ProgressReport, filed: list[Claim]) -> bool:
    claimed = sum(cents for (_, pk), cents in books.locks.shares.items() if pk == fund.pk)
    claimed += sum(claim.indirect_cents for claim in filed)
    return rule.due(books.fund_values[fund.pk], claimed)


def federal_day(fund: Fund, facts: tuple[Dated, ...]) -> date | None:
    """So many days after the period ends: 2 CFR 200.344, as the dated fact has it."""
    if not fund.period_end or not fund.federal_money or fund.role not in REPORTING:
        return None
    try:
        days = int(value_on(facts, "final_report_days", fund.period_end).fact.value)
    except NoFact:
        return None
    return fund.period_end + timedelta(days=days)
