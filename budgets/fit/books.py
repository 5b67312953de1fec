"""All the money of a project: its rows, read once, and the same as the engine's values."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from django.db.models import Count, Q

from budgets import engine
from budgets.engine.terms import Bill
from budgets.fit.locks import Locks, read_locks
from budgets.fit.orders import bills_by_order
from budgets.fit.values import expense_value, fund_value
from budgets.models import BudgetLine, Counted, Credit, Draw, Expense, Fund, Paper, Share
from projects.models import Project
from projects.words import SYMBOLS
from schedules.plan.once import once
from suppliers.models import ANSWERED, Order


class PaidRow(NamedTuple):
    """A share as it is read: many, and nothing else of them is asked."""

    expense_id: int
    fund_id: int
    cents: int


class CountedRow(NamedTuple):
    """What counts as match, likewise."""

    expense_id: int
    fund_id: int
    payer_id: int | None
    cents: int


@dataclass(frozen=True)
class Books:
    project: Project
    funds: tuple[Fund, ...]
    expenses: tuple[Expense, ...]
    shares: tuple[PaidRow, ...]
    papers: tuple[Paper, ...]
    lines: tuple[BudgetLine, ...] = ()
    counted: tuple[CountedRow, ...] = ()
    credits: tuple[Credit, ...] = ()
    draws: tuple[Draw, ...] = ()
    locks: Locks = field(default_factory=Locks)
    quotes: Mapping[int, int] = field(default_factory=dict)  # received, by order

    @property
    def symbol(self) -> str:
        return symbol_of(self.project)

    @cached_property
    def locked(self) -> dict[tuple[int, int], int]:
        """Cents in filed or paid claims, by expense and fund: what may not be moved elsewhere.

        Where money came back, no more than is still charged; the next claim corrects the rest.
        """
        held = self.locks.shares
        return {
            (pk, fund): min(cents, self.shares_of.get(pk, {}).get(fund, 0))
            if self.credited[pk]
            else cents
            for (pk, fund), cents in held.items()
        }

    @cached_property
    def locked_match(self) -> dict[tuple[int, int, int | None], int]:
        """Cents counted as match in filed or paid claims, by expense, fund and payer; likewise."""
        return {
            (pk, fund, payer): min(cents, self.counted_of.get(pk, {}).get((fund, payer), 0))
            if self.credited[pk]
            else cents
            for (pk, fund, payer), cents in self.locks.match.items()
        }

    @cached_property
    def fund_values(self) -> dict[int, engine.Fund]:
        return {fund.pk: fund_value(fund, self.symbol) for fund in self.funds}

    @cached_property
    def by_pk(self) -> dict[int, Expense]:
        return {row.pk: row for row in self.expenses}

    @cached_property
    def expense_values(self) -> dict[int, engine.Expense]:
        return {row.pk: self.value_of(row) for row in self.expenses}

    def value_of(self, row: Expense) -> engine.Expense:
        return expense_value(
            row,
            self.papers_of.get(row.pk, []),
            credited=self.credited[row.pk],
            quotes=self.quotes.get(row.order_id or 0, 0),
        )

    @cached_property
    def credited(self) -> Counter[int]:
        """Cents that came back, by expense."""
        found = Counter[int]()
        for credit in self.credits:
            found[credit.expense_id] += credit.cents
        return found

    @cached_property
    def bills(self) -> dict[int, list[Bill]]:
        """By order, the oldest first."""
        return bills_by_order(self.expenses, self.credited)

    @cached_property
    def papers_of(self) -> dict[int, list[Paper]]:
        """The papers of each expense that has any."""
        found: dict[int, list[Paper]] = {}
        for paper in self.papers:
            found.setdefault(paper.expense_id, []).append(paper)
        return found

    @cached_property
    def share_values(self) -> list[engine.Share]:
        return [
            engine.Share(
                expense=self.expense_values[row.expense_id], fund=str(row.fund_id), cents=row.cents
            )
            for row in self.shares
        ]

    @cached_property
    def counted_values(self) -> list[engine.Counted]:
        return [
            engine.Counted(
                expense=self.expense_values[row.expense_id],
                fund=str(row.fund_id),
                payer=str(row.payer_id or ""),
                cents=row.cents,
            )
            for row in self.counted
        ]

    @cached_property
    def states(self) -> dict[int, engine.FundState]:
        """Match is what is written down for a fund; where nothing is, what there could be."""
        claimed = Counter[str]()
        for (_, fund), cents in self.locks.shares.items():
            claimed[str(fund)] += cents
        found = engine.fund_states(
            list(self.fund_values.values()),
            list(self.expense_values.values()),
            self.share_values,
            counted=self.counted_values,
            project_total=self.project_total,
            claimed=claimed,
        )
        return {pk: found[str(pk)] for pk in self.fund_values}

    @cached_property
    def project_total(self) -> int:
        """What the whole work costs, gifts included: as budgeted, or as spent once that is more."""
        spent = sum(value.amount for value in self.expense_values.values())
        return max(spent, sum(line.planned_cents for line in self.lines))

    @cached_property
    def unassigned(self) -> dict[int, int]:
        """Cents of each expense that nobody pays yet."""
        left = engine.unassigned(self.expense_values.values(), self.share_values)
        return {int(key): cents for key, cents in left.items()}

    @cached_property
    def shares_of(self) -> dict[int, dict[int, int]]:
        """Cents by fund, for each expense that has a share."""
        found: dict[int, dict[int, int]] = {}
        for row in self.shares:
            found.setdefault(row.expense_id, {})[row.fund_id] = row.cents
        return found

    @cached_property
    def counted_of(self) -> dict[int, dict[tuple[int, int | None], int]]:
        """Cents that count as match by fund and payer, for each expense that has any."""
        found: dict[int, dict[tuple[int, int | None], int]] = {}
        for row in self.counted:
            found.setdefault(row.expense_id, {})[row.fund_id, row.payer_id] = row.cents
        return found

    @cached_property
    def refusals_of(self) -> dict[int, list[tuple[Fund, engine.Refusal]]]:
        """The rules that saved shares break, by expense."""
        found: dict[int, list[tuple[Fund, engine.Refusal]]] = {}
        for fund in self.funds:
            for refusal in self.states[fund.pk].refusals:
                found.setdefault(int(refusal.expense or 0), []).append((fund, refusal))
        return found

    def shares_elsewhere(self, expense: Expense) -> list[engine.Share]:
        """The shares of all expenses but this one."""
        return [share for share in self.share_values if share.expense.key != str(expense.pk)]


def read(project: Project) -> Books:
    """Once in a request that only looks; a request that may change something reads anew."""
    return once(project, ("books", None), lambda: read_anew(project))


def read_anew(project: Project) -> Books:
    """Thirteen queries, whatever the size of the books; nothing is read row by row."""
    lines = lines_of(project)
    return Books(
        project=project,
        funds=funds_of(project),
        expenses=on_lines(Expense.objects.filter(project=project), lines),
        lines=lines,
        shares=tuple(
            PaidRow._make(row)
            for row in Share.objects.filter(expense__project=project).values_list(*PaidRow._fields)
        ),
        papers=tuple(Paper.objects.filter(expense__project=project)),
        counted=tuple(
            CountedRow._make(row)
            for row in Counted.objects.filter(expense__project=project).values_list(
                *CountedRow._fields
            )
        ),
        credits=tuple(Credit.objects.filter(expense__project=project)),
        draws=tuple(Draw.objects.filter(project=project)),
        locks=read_locks(project),
        quotes=quotes_of(project),
    )


def funds_of(project: Project) -> tuple[Fund, ...]:
    """With their rules; once in a request that only looks, as the lines."""
    rows = project.funds.prefetch_related("rules")
    return once(project, ("funds", None), lambda: tuple(rows))


def lines_of(project: Project) -> tuple[BudgetLine, ...]:
    rows = BudgetLine.objects.filter(project=project)
    return once(project, ("lines", None), lambda: tuple(rows))


def on_lines(expenses: Iterable[Expense], lines: Iterable[BudgetLine]) -> tuple[Expense, ...]:
    """The expenses, each with its line at hand."""
    by_key, found = {line.pk: line for line in lines}, tuple(expenses)
    remember = Expense._meta.get_field("line").set_cached_value  # plain setting asks each router
    for row in found:
        remember(row, by_key[row.line_id])
    return found


def quotes_of(project: Project) -> dict[int, int]:
    """How many suppliers answered before each order was placed."""
    orders = Order.objects.filter(supplier__project=project, quote__isnull=False).order_by()
    answered = Count("quote__request__quotes", filter=Q(quote__request__quotes__state__in=ANSWERED))
    return dict(orders.annotate(answered=answered).values_list("pk", "answered"))


def symbol_of(project: Project) -> str:
    return SYMBOLS.get(project.currency, project.currency + " ")
