"""All that the balance is made of, read once; it can be laid on another plan without a query."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cached_property

from budgets.engine import best as optimum
from budgets.fit import Books
from budgets.fit import read as read_books
from budgets.fit.forecast import Forecast, forecasts
from budgets.fit.planned import days_of, forecast_value
from budgets.fit.problem import problem_of
from budgets.fit.wish import Wish
from budgets.models import CashBook, Claim, ClaimState, Income, Milestone
from projects.hooks import PlanDays
from projects.models import Project
from suppliers.models import Order, OrderState


@dataclass(frozen=True, kw_only=True)
class Ground:
    """`planned` is who would pay what is still to be spent, by the forecast's key and fund."""

    books: Books
    today: date
    days: PlanDays | None
    book: CashBook
    orders: tuple[Order, ...]
    forecasts: tuple[Forecast, ...]
    planned: Mapping[str, Mapping[int, int]]
    claims: tuple[Claim, ...]
    income: tuple[Income, ...]
    milestones: tuple[Milestone, ...]

    @property
    def project(self) -> Project:
        return self.books.project

    @cached_property
    def received(self) -> Counter[tuple[str, int]]:
        """Cents that came, by “claim”, “milestone” or “fund” (what names neither) and its key."""
        found = Counter[tuple[str, int]]()
        for row in self.income:
            if row.claim_id:
                found["claim", row.claim_id] += row.cents
            elif row.milestone_id:
                found["milestone", row.milestone_id] += row.cents
            else:
                found["fund", row.fund_id] += row.cents
        return found

    def to_pay_on(self, day: date) -> date:
        """A bill whose day is past is paid tomorrow."""
        return max(day, self.today + timedelta(1))

    def to_come_on(self, day: date, lag_days: int) -> date:
        """Money whose day is past is late: it is asked for again, and takes as long."""
        return day if day > self.today else self.today + timedelta(max(1, lag_days))

    @property
    def last_day(self) -> date:
        """The last day that anything here knows of."""
        ends = [fund.period_end for fund in self.books.funds if fund.period_end]
        known = [self.days.public_on, self.days.finish_on] if self.days else []
        return max([self.today, *ends, *(day for day in known if day)])

    def on(self, days: PlanDays) -> Ground:
        """The same money on another plan."""
        moved = forecasts(self.books, days, self.today, orders=self.orders)
        return replace(self, days=days, forecasts=moved)


def read(project: Project, today: date, days: PlanDays | None = None) -> Ground:
    """Everything in a fixed number of queries; one best fit tells who pays what is to come."""
    books, orders = read_books(project), orders_of(project)
    days = days or days_of(books, today)
    to_come = forecasts(books, days, today, orders=orders)
    return Ground(
        books=books,
        today=today,
        days=days,
        book=book_of(books),
        orders=orders,
        forecasts=to_come,
        planned=shared_out(books, to_come),
        claims=tuple(
            Claim.objects.filter(fund__project=project)
            .exclude(state__in=(ClaimState.DRAFT, ClaimState.REFUSED))
            .prefetch_related("shares")
        ),
        income=tuple(Income.objects.filter(fund__project=project)),
        milestones=tuple(
            Milestone.objects.filter(fund__project=project).select_related("task", "key_date")
        ),
    )


def shared_out(books: Books, to_come: Iterable[Forecast]) -> dict[str, Counter[int]]:
    """Who would pay what is still to be spent; nobody where no fit can be told."""
    problem = problem_of(books, Wish(), [forecast_value(row) for row in to_come])
    try:
        shares = optimum.best_fit(problem).shares
    except optimum.BestError:
        return {}
    found: dict[str, Counter[int]] = {}
    for share in shares:
        if share.expense.forecast:
            found.setdefault(share.expense.key, Counter())[int(share.fund)] += share.cents
    return found


def orders_of(project: Project) -> tuple[Order, ...]:
    live = Order.objects.filter(supplier__project=project).exclude(state=OrderState.CANCELLED)
    return tuple(live.select_related("commitment", "supplier").prefetch_related("changes"))


def book_of(books: Books) -> CashBook:
    """What the balance starts from; else nothing, on the first day on which money moved."""
    saved = CashBook.objects.filter(project=books.project).first()
    if saved:
        return saved
    first = min((row.day for row in books.expenses if not row.in_kind), default=date.min)
    return CashBook(project=books.project, opening_on=first)
