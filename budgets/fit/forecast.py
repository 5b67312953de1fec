"""What is still to be spent: the open rest of each order, and what is left of each budget line.

Every cent is in one of them only: a line's rest is what its orders and its expenses leave.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from budgets.engine.money import Rounding, portion
from budgets.engine.terms import account
from budgets.fit.books import Books
from budgets.fit.lines import drawn, spent_of
from budgets.fit.orders import terms_of
from budgets.models import BudgetLine
from projects.hooks import PlanDays
from suppliers.models import Order, OrderState

CONTINGENCY = "contingency"  # no cost by itself: it is drawn to the line that needs it
HUNDREDTHS = 100


@dataclass(frozen=True, kw_only=True)
class Forecast:
    """Cents that are still to be spent, when, and why then. `key` is such as “order-5”."""

    key: str
    line: BudgetLine
    order: Order | None
    cents: int
    day: date
    why: str

    @property
    def in_kind(self) -> bool:
        return self.line.in_kind


def forecasts(
    books: Books, days: PlanDays | None, today: date, *, orders: Iterable[Order] | None = None
) -> tuple[Forecast, ...]:
    """What is still to be spent, as the plan stands; two queries. Contingency is none of it.

    `orders` are those of the project, if they are at hand with their changes: then no query.
    """
    given = orders_on_lines(books) if orders is None else orders
    orders = [order for order in given if hasattr(order, "commitment")]
    open_rests = order_forecasts(books, orders, days, today)
    rests = [line_forecast(line, cents, days, today) for line, cents in line_rests(books, orders)]
    return tuple(row for row in (*open_rests, *rests) if row.cents > 0)


def orders_on_lines(books: Books) -> list[Order]:
    rows = Order.objects.filter(commitment__line__project=books.project)
    live = rows.exclude(state=OrderState.CANCELLED)
    return list(live.select_related("commitment").prefetch_related("changes"))


def order_forecasts(
    books: Books, orders: Iterable[Order], days: PlanDays | None, today: date
) -> list[Forecast]:
    ends, lines = order_ends(days), {line.pk: line for line in books.lines}
    found = []
    for order in orders:
        state = account(terms_of(order), books.bills.get(order.pk, ()))
        found.append(
            Forecast(
                key=f"order-{order.pk}",
                line=lines[order.commitment.line_id],
                order=order,
                cents=state.to_bill + state.retained,
                day=max(today, comes_on(order, ends) or last_day(days) or today),
                why=f"The rest of “{order.title}”, when it comes.",
            )
        )
    return found


def order_ends(days: PlanDays | None) -> dict[int, date]:
    """The last day of the work on each order, as the plan has it; what is finished left out."""
    found: dict[int, date] = {}
    for task in days.tasks.values() if days else ():
        if task.order_id and not task.finished:
            found[task.order_id] = max(task.finish, found.get(task.order_id, task.finish))
    return found


def comes_on(order: Order, ends: Mapping[int, date]) -> date | None:
    """When what was ordered is there: as it was, as the plan has it, or as it was promised."""
    if order.delivered_on:
        return order.delivered_on
    return ends.get(order.pk, order.window_end)


def last_day(days: PlanDays | None) -> date | None:
    """By when all is spent, where nothing else is said: the public date, or the end of the work."""
    return (days.public_on or days.finish_on) if days else None


def line_rests(books: Books, orders: list[Order]) -> list[tuple[BudgetLine, int]]:
    """What each line still needs besides its orders, in cents, never below zero.

    A bill that settles an order of another line is what that order needs no more.
    """
    ordered = Counter[int]()
    for order in orders:
        ordered[order.commitment.line_id] += order.total_cents
    settled = Counter[int]()
    line_of = {order.pk: order.commitment.line_id for order in orders}
    for row in books.expenses:
        if row.order_id in line_of and not row.in_kind:
            settled[line_of[row.order_id]] += row.cents + row.retained_cents
    spent = spent_of(books.expenses, books.credits)
    given = drawn({line.pk: line.planned_cents for line in books.lines}, books.draws)
    return [
        (line, rest_of(line, given[line.pk] - ordered[line.pk] - spent[line.pk] + settled[line.pk]))
        for line in books.lines
        if line.category != CONTINGENCY
    ]


def rest_of(line: BudgetLine, left: int) -> int:
    """What was said of the line, else its quantity at the latest price, else what is left of it."""
    if line.to_come_cents is not None:
        return line.to_come_cents
    if line.quantity_hundredths is not None and line.unit_cents is not None:
        return portion(line.unit_cents, line.quantity_hundredths, HUNDREDTHS, Rounding.HALF_UP)
    return max(0, left)


def line_forecast(line: BudgetLine, cents: int, days: PlanDays | None, today: date) -> Forecast:
    task = days.tasks.get(line.task_id) if days and line.task_id else None
    if task:
        day, when = task.finish, f"when “{task.name}” ends"
    else:
        day, when = last_day(days) or today, "by the public date"
    return Forecast(
        key=f"line-{line.pk}",
        line=line,
        order=None,
        cents=cents,
        day=max(today, day),
        why=f"What is left of “{line.name}”, {when}.",
    )
