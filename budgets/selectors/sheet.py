"""The Money sheet, read in a constant number of queries."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.core.paginator import Page, Paginator

from budgets import engine, fit
from budgets.fit.assignment import is_ours
from budgets.fit.gain import kept_gain
from budgets.models import BudgetLine, FundKind, FundStatus
from budgets.selectors import expenses as bills
from budgets.selectors import funds as sources
from budgets.selectors import lines as budget
from budgets.selectors.sentence import Matters, matters
from projects.models import Project


@dataclass(frozen=True, kw_only=True)
class Income:
    """In cents: money that is signed, gifts in kind that are, and what is only hoped for."""

    signed: int
    in_kind: int
    hoped: int


@dataclass(frozen=True, kw_only=True)
class MoneySheet:
    matters: Matters
    gain: int | None  # cents that the best fit gains; None until it is computed
    groups: list[budget.LineGroup]
    total: engine.LineState
    lines: list[BudgetLine]
    orders: list[budget.OrderRow]
    funds: list[sources.FundRow]
    income: Income
    bills: Page[bills.ExpenseRow]
    found: int
    logged: int

    @property
    def gain_waits(self) -> bool:
        """Whether there is anything to gain, and nobody reckoned yet how much."""
        signed = (row for row in self.funds if row.fund.status == FundStatus.SIGNED)
        return self.gain is None and bool(self.logged) and not all(is_ours(r.fund) for r in signed)

    @property
    def alone(self) -> bool:
        """Whether only the gain itself can lead to the best fit."""
        return not self.matters.url

    @property
    def short(self) -> int:
        """How much of the budget nothing signed covers."""
        return max(0, self.total.planned - self.income.signed - self.income.in_kind)


def money_sheet(
    project: Project, today: date, *, show: str = "", text: str = "", page: str = "1"
) -> MoneySheet:
    books = fit.read(project)
    lines = list(BudgetLine.objects.filter(project=project))
    orders = budget.orders_of(project)
    rows = budget.line_rows(lines, orders, books)
    funds = sources.fund_rows(books, today)
    everything = bills.expense_rows(books)
    found = bills.expense_rows(books, show, text) if show or text else everything
    return MoneySheet(
        matters=matters(project, rows, funds, everything),
        gain=kept_gain(project, today),
        groups=budget.by_category(budget.with_notes(rows, project)),
        total=budget.total_of(rows),
        lines=lines,
        orders=budget.order_rows(orders, books),
        funds=funds,
        income=income_of(funds),
        bills=Paginator(found, bills.PAGE).get_page(page),
        found=len(found),
        logged=len(everything),
    )


def income_of(funds: list[sources.FundRow]) -> Income:
    hoped = (FundStatus.APPLIED, FundStatus.OFFERED)
    sure = [row for row in funds if row.fund.status not in hoped]
    return Income(
        signed=sum(brings(row) for row in sure if row.fund.kind != FundKind.IN_KIND),
        in_kind=sum(brings(row) for row in sure if row.fund.kind == FundKind.IN_KIND),
        hoped=sum(row.fund.award_cents for row in funds if row.fund.status in hoped),
    )


def brings(row: sources.FundRow) -> int:
    if row.open_ended or row.fund.status == FundStatus.CLOSED:
        return row.state.charged
    return row.fund.award_cents
