"""What each budget line has left."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from budgets import engine
from budgets.models import Credit, Draw, Expense
from suppliers.models import Order, OrderState

COMMITTED = {OrderState.PLACED, OrderState.DELIVERED}


def line_states(
    planned: Mapping[int, int],
    orders: Iterable[Order],
    expenses: Iterable[Expense],
    *,
    credits: Iterable[Credit] = (),
    draws: Iterable[Draw] = (),
) -> dict[int, engine.LineState]:
    """Budget, committed, spent and left of each line, by its key.

    An order is committed once placed, less the expenses that settle it: never counted twice.
    What came back lowers what the same line spent; it leaves the order settled.
    """
    expenses = tuple(expenses)
    paid = Counter[int]()
    for row in expenses:
        if row.order_id and not row.in_kind:
            paid[row.order_id] += row.cents
    committed, spent = committed_of(orders, paid), spent_of(expenses, credits)
    given = drawn(planned, draws)
    return {pk: engine.line_state(given[pk], committed[pk], spent[pk]) for pk in planned}


def committed_of(orders: Iterable[Order], paid: Mapping[int, int]) -> Counter[int]:
    committed = Counter[int]()
    for order in orders:
        commitment = getattr(order, "commitment", None)
        if commitment:
            committed[commitment.line_id] += still_to_pay(order, paid.get(order.pk, 0))
    return committed


def spent_of(expenses: Iterable[Expense], credits: Iterable[Credit]) -> Counter[int]:
    spent, line_of = Counter[int](), {}
    for row in expenses:
        spent[row.line_id] += row.cents
        line_of[row.pk] = row.line_id
    for credit in credits:
        spent[line_of[credit.expense_id]] -= credit.cents
    return spent


def drawn(planned: Mapping[int, int], draws: Iterable[Draw]) -> dict[int, int]:
    """The budget of each line after what was moved out of contingency."""
    given = dict(planned)
    for draw in draws:
        for line, cents in ((draw.source_id, -draw.cents), (draw.target_id, draw.cents)):
            given[line] = given.get(line, 0) + cents
    return given


def still_to_pay(order: Order, paid: int) -> int:
    """Of what was agreed with its changes, which should be prefetched."""
    return max(0, order.total_cents - paid) if order.state in COMMITTED else 0
