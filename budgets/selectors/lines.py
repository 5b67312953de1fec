"""Budget lines by category, and the orders that are paid from them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from budgets import engine
from budgets.engine.categories import CATEGORIES
from budgets.engine.terms import Account, Bill, account
from budgets.fit import Books, line_states, still_to_pay
from budgets.fit.orders import terms_of
from budgets.models import BudgetLine
from projects.hooks import PartNote, notes_of_lines
from projects.models import Project
from suppliers.models import Order, OrderState


@dataclass(frozen=True, kw_only=True)
class LineRow:
    line: BudgetLine
    state: engine.LineState
    notes: tuple[PartNote, ...] = ()  # where its quantity was worked out


@dataclass(frozen=True, kw_only=True)
class LineGroup:
    """The lines of one category."""

    label: str
    rows: tuple[LineRow, ...]
    total: engine.LineState


@dataclass(frozen=True, kw_only=True)
class OrderRow:
    order: Order
    line: BudgetLine | None
    account: Account
    to_pay: int


def orders_of(project: Project) -> list[Order]:
    live = Order.objects.filter(supplier__project=project).exclude(state=OrderState.CANCELLED)
    return list(live.select_related("supplier", "commitment__line").prefetch_related("changes"))


def line_rows(lines: Iterable[BudgetLine], orders: list[Order], books: Books) -> list[LineRow]:
    lines = list(lines)
    states = line_states(
        {line.pk: line.planned_cents for line in lines},
        orders,
        books.expenses,
        credits=books.credits,
        draws=books.draws,
    )
    return [LineRow(line=line, state=states[line.pk]) for line in lines]


def with_notes(rows: Iterable[LineRow], project: Project) -> list[LineRow]:
    found = notes_of_lines(project)
    return [replace(row, notes=tuple(found.get(row.line.pk, ()))) for row in rows]


def by_category(rows: list[LineRow]) -> list[LineGroup]:
    groups = []
    for key, label in CATEGORIES.items():
        found = tuple(row for row in rows if row.line.category == key)
        if found:
            groups.append(LineGroup(label=label, rows=found, total=total_of(found)))
    return groups


def total_of(rows: Iterable[LineRow]) -> engine.LineState:
    rows = list(rows)
    return engine.line_state(
        sum(row.state.planned for row in rows),
        sum(row.state.committed for row in rows),
        sum(row.state.spent for row in rows),
    )


def order_rows(orders: Iterable[Order], books: Books) -> list[OrderRow]:
    """Those without a line first."""
    rows = [order_row(order, books.bills.get(order.pk, [])) for order in orders]
    return sorted(rows, key=lambda row: row.line is not None)


def order_row(order: Order, bills: list[Bill]) -> OrderRow:
    commitment = getattr(order, "commitment", None)
    return OrderRow(
        order=order,
        line=commitment.line if commitment else None,
        account=account(terms_of(order), bills),
        to_pay=still_to_pay(order, sum(bill.cents for bill in bills)),
    )
