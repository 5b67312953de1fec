"""All that the balance is made of, read once; it can be laid on another plan without a query."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from functools import cached_property
from typing import Any

from budgets import engine
from budgets.engine import best as optimum
from budgets.engine.terms import Due, Terms, due_payments
from budgets.fit import Books
from budgets.fit import read as read_books
from budgets.fit.forecast import Forecast, comes_on, forecasts, order_ends
from budgets.fit.orders import terms_of
from budgets.fit.planned import days_of, forecast_value
from budgets.fit.problem import problem_of
from budgets.fit.solved import best_fit
from budgets.fit.wish import Wish
from budgets.models import CashBook, Claim, ClaimState, Expense, Income, Milestone
from projects.hooks import PlanDays
from projects.models import Project
from schedules.plan.once import once
from suppliers.models import Order, OrderState

USUAL_DAYS = 30  # until a bill without a day is paid (common practice, no source)


@dataclass(frozen=True, slots=True, kw_only=True)
class Charge:
    """Cents that a fund would pay back, and the day on which the artist pays them."""

    day: date
    cents: int
    shares: tuple[engine.Share, ...]  # what it is made of


def charge(day: date, shares: Iterable[engine.Share]) -> Charge:
    parts = tuple(shares)
    return Charge(day=day, cents=sum(part.cents for part in parts), shares=parts)


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
    laid: dict[int, Ground] = field(default_factory=dict, repr=False, compare=False)
    kept: dict[str, Any] = field(default_factory=dict, repr=False, compare=False)

    @property
    def project(self) -> Project:
        return self.books.project

    @cached_property
    def received(self) -> Counter[tuple[str, int]]:
        """Cents that came, by “claim”, “milestone” or “fund” (what names neither) and its key.

        And under “back”, below zero, what was paid back to a fund.
        """
        found = Counter[tuple[str, int]]()
        for row in self.income:
            if row.went_back:
                found["back", row.fund_id] += row.cents
            elif row.claim_id:
                found["claim", row.claim_id] += row.cents
            elif row.milestone_id:
                found["milestone", row.milestone_id] += row.cents
            else:
                found["fund", row.fund_id] += row.cents
        return found

    @cached_property
    def spent(self) -> dict[int, list[Charge]]:
        """What funds would pay back of what is spent, less what was claimed, by fund and day."""
        found: dict[int, dict[date, list[engine.Share]]] = {}
        for share in self.books.shares:
            row = self.books.by_pk[share.expense_id]
            left = share.cents - self.books.locked.get((row.pk, share.fund_id), 0)
            if left > 0 and not row.in_kind:
                day = row.paid_on or self.to_pay_on(due_on(row))
                value = self.books.expense_values[row.pk]
                part = engine.Share(expense=value, fund=str(share.fund_id), cents=left)
                found.setdefault(share.fund_id, {}).setdefault(day, []).append(part)
        return {
            fund: [charge(day, parts) for day, parts in days.items()]
            for fund, days in found.items()
        }

    @cached_property
    def agreed(self) -> dict[int, tuple[Due, ...]]:
        """What each order still has to be paid and when, by its terms, on the plan."""
        return {order.pk: self.dues(order, terms_of(order)) for order in self.orders}

    def dues(self, order: Order, terms: Terms) -> tuple[Due, ...]:
        placed = order.placed_on or order.window_start or self.today
        delivered = self.delivered(order)
        found = due_payments(terms, placed, delivered, self.books.bills.get(order.pk, ()))
        return tuple(replace(due, day=self.to_pay_on(due.day or self.last_day)) for due in found)

    def delivered(self, order: Order) -> date:
        return comes_on(order, self.ends) or self.last_day

    @cached_property
    def ends(self) -> dict[int, date]:
        """The last day of the work on each order."""
        return order_ends(self.days)

    def to_pay_on(self, day: date) -> date:
        """A bill whose day is past is paid tomorrow."""
        return max(day, self.today + timedelta(1))

    def to_come_on(self, day: date, lag_days: int) -> date:
        """Money whose day is past is late: it is asked for again, and takes as long."""
        return day if day > self.today else self.today + timedelta(max(1, lag_days))

    @cached_property
    def last_day(self) -> date:
        """The last day that anything here knows of."""
        ends = [fund.period_end for fund in self.books.funds if fund.period_end]
        known = [self.days.public_on, self.days.finish_on] if self.days else []
        return max([self.today, *ends, *(day for day in known if day)])

    def on(self, days: PlanDays) -> Ground:
        """The same money on another plan, laid on it once."""
        if days is self.days:
            return self
        if id(days) not in self.laid:
            moved = forecasts(self.books, days, self.today, orders=self.orders)
            self.laid[id(days)] = replace(self, days=days, forecasts=moved, laid={}, kept={})
        return self.laid[id(days)]


def due_on(row: Expense) -> date:
    return row.due_on or (row.invoice_on or row.day) + timedelta(USUAL_DAYS)


def read(project: Project, today: date, days: PlanDays | None = None) -> Ground:
    """Read once in a request that only looks; `days` is the plan as it stands, if it is known."""
    return once(project, ("cash", today), lambda: read_anew(project, today, days))


def read_anew(project: Project, today: date, days: PlanDays | None) -> Ground:
    """Everything in a fixed number of queries; one best fit tells who pays what is to come."""
    books = read_books(project)
    orders = orders_of(project)
    days = days or days_of(books, today)
    to_come = forecasts(books, days, today, orders=orders)
    return Ground(
        books=books,
        today=today,
        days=days,
        book=book_of(books, today),
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
        shares = best_fit(problem).shares
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


def book_of(books: Books, today: date) -> CashBook:
    """What the balance starts from; until it is said, nothing this morning."""
    saved = CashBook.objects.filter(project=books.project).first()
    return saved or CashBook(project=books.project, opening_on=today)
