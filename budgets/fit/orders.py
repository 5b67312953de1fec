"""Orders as the engine sees them: their terms, and the bills that were logged on them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from budgets.engine.retainage import Retainage
from budgets.engine.terms import Bill, Terms
from budgets.models import Expense
from suppliers.models import Order


def terms_of(order: Order) -> Terms:
    """Reads the order's changes, which should be prefetched."""
    return Terms(
        price=order.cents,
        changes=order.changed_cents,
        deposit=order.deposit_basis_points,
        net_days=order.net_days,
        retainage=Retainage(
            basis_points=order.retainage_basis_points,
            stop=order.retainage_stop_basis_points,
            after=order.retainage_after_basis_points or 0,
            release_half=order.retainage_release_half,
        ),
        release_days=order.retainage_days,
        left_to_do=order.left_to_do_cents,
    )


def bill_of(row: Expense, credited: int = 0) -> Bill:
    return Bill(
        cents=row.cents,
        retained=row.retained_cents,
        is_deposit=row.is_deposit,
        paid=row.paid_on is not None,
        came_back=credited,
    )


def bills_by_order(
    expenses: Iterable[Expense], credited: Mapping[int, int]
) -> dict[int, list[Bill]]:
    """The bills of each order, the oldest first; a gift in kind pays no bill."""
    found: dict[int, list[Bill]] = {}
    for row in sorted(expenses, key=lambda e: (e.day, e.pk)):
        if row.order_id and not row.in_kind:
            found.setdefault(row.order_id, []).append(bill_of(row, credited.get(row.pk, 0)))
    return found
