"""The course of the cash, what must be bridged, and what would help the most."""

from __future__ import annotations

from calendar import monthrange
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from budgets.engine.cash import (
    Course,
    Flow,
    Period,
    bridge,
    cash_budget,
    course,
    loan_interest,
    period_interest,
)
from budgets.engine.levers import Effect, rank
from budgets.engine.paying import add_months
from budgets.flow.asked import Asked
from budgets.flow.coming import payment_in, unclaimable
from budgets.flow.ground import Ground
from budgets.flow.offers import offers
from budgets.flow.pieces import Pieces, pieces_of
from budgets.models import CashBook, Fund, FundStatus


@dataclass(frozen=True, slots=True, kw_only=True)
class Month:
    """A row of the cash budget, with the interest on what is owed in it."""

    first: date
    period: Period
    interest: int


@dataclass(frozen=True, kw_only=True)
class Cash:
    """The balance of a project on one plan, in cents."""

    ground: Ground
    pieces: Pieces
    flows: tuple[Flow, ...]
    course: Course

    @property
    def book(self) -> CashBook:
        return self.ground.book

    @property
    def low(self) -> int:
        """The least from today on: what was short is past."""
        return self.ahead.least

    @cached_property
    def ahead(self) -> Course:
        """The course from today on, opening with what is there."""
        today = self.ground.today
        return course(self.now, [flow for flow in self.flows if flow.day > today])

    @cached_property
    def now(self) -> int:
        """What is there tonight."""
        today = self.ground.today
        return self.book.opening_cents + sum(
            f.cents for f in self.flows if f.day <= today and f.sure
        )

    @property
    def bridge(self) -> int:
        return bridge(self.ahead, self.book.floor_cents)

    @property
    def interest(self) -> int:
        """On a loan that just holds the floor, until the last day on which money moves."""
        if not self.ahead.days or not self.book.loan_basis_points:
            return 0
        until = self.ahead.days[-1].day
        book = self.book
        return loan_interest(
            self.ahead, book.floor_cents, book.loan_basis_points, book.loan_basis, until
        )

    @cached_property
    def effects(self) -> tuple[Effect, ...]:
        """What could be asked for, by how much less would have to be bridged."""
        today = self.ground.today
        ahead = self.pieces.after(today)

        def others(asked: Asked) -> tuple[Flow, ...]:
            return tuple(flow for flow in ahead.flows(asked) if flow.day > today)

        levers = list(offers(self.ground, others))
        return rank(self.now, self.book.floor_cents, ahead.flows(), levers)

    @cached_property
    def too_late(self) -> tuple[tuple[Fund, int], ...]:
        """Cents that are paid after a fund's last claim, by fund: never paid back."""
        found = []
        for fund in self.ground.books.funds:
            if fund.status == FundStatus.SIGNED:
                cents = unclaimable(self.ground, fund, payment_in(self.ground, fund))
                if cents:
                    found.append((fund, cents))
        return tuple(found)

    @cached_property
    def months(self) -> tuple[Month, ...]:
        """The cash budget by months, from the first on which money moves to the last."""
        months, book = months_of(self.flows), self.book
        moved = [self.summed(came_in=came_in) for came_in in (True, False)]
        came, went = ([sums[month] for month in months] for sums in moved)
        step = max(1, book.step_cents)
        rows = cash_budget(book.opening_cents, came, went, minimum=book.floor_cents, step=step)
        days = [monthrange(month.year, month.month)[1] for month in months]
        interest = period_interest(rows, days, book.loan_basis_points, book.loan_basis)
        return tuple(
            Month(first=month, period=row, interest=cents)
            for month, row, cents in zip(months, rows, interest, strict=True)
        )

    @property
    def loan(self) -> int:
        """What must be bridged, in whole steps of a loan."""
        step = max(1, self.book.step_cents)
        return -(-self.bridge // step) * step

    def summed(self, *, came_in: bool) -> Counter[date]:
        """Cents by the first day of the month."""
        found = Counter[date]()
        for flow in self.flows:
            if (flow.cents > 0) is came_in:
                found[flow.day.replace(day=1)] += abs(flow.cents)
        return found


def months_of(flows: Sequence[Flow]) -> list[date]:
    """The first day of each month, also of those in which nothing moves."""
    if not flows:
        return []
    first, last = (pick(flow.day for flow in flows).replace(day=1) for pick in (min, max))
    count = 12 * (last.year - first.year) + last.month - first.month
    return [add_months(first, step) for step in range(count + 1)]


def cash_of(ground: Ground) -> Cash:
    """Reckoned once for each plan that the ground is laid on."""
    if "cash" not in ground.kept:
        ground.kept["cash"] = reckoned(ground)
    found: Cash = ground.kept["cash"]
    return found


def reckoned(ground: Ground) -> Cash:
    pieces = pieces_of(ground)
    flows = tuple(sorted(pieces.flows(), key=lambda flow: (flow.day, flow.cents, flow.what)))
    opening = ground.book.opening_cents
    return Cash(ground=ground, pieces=pieces, flows=flows, course=course(opening, flows))
