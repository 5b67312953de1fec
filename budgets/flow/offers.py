"""What could be asked for: claims more often, an advance, a milestone sooner, kinder terms."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from budgets.engine.cash import Flow
from budgets.engine.levers import Lever
from budgets.engine.money import percent
from budgets.flow.asked import MONTH, Asked
from budgets.flow.coming import payment_in
from budgets.flow.ground import Ground
from budgets.models import Fund, FundStatus, Milestone
from suppliers.models import Order

HALF, SMALL_DEPOSIT = 5000, 3000  # basis points
NET, SOONER = 30, 14  # days

Flows = Callable[[Asked], tuple[Flow, ...]]


def offers(ground: Ground, flows: Flows) -> Iterator[Lever]:
    """In the order in which they are easily asked for."""
    funds = [fund for fund in ground.books.funds if fund.status == FundStatus.SIGNED]
    for fund in funds:
        yield from monthly(ground, fund, flows)
    for fund in funds:
        yield from in_advance(ground, fund, flows)
    for milestone in ground.milestones:
        yield from sooner(ground, milestone, flows)
    for order in ground.orders:
        yield from kinder(ground, order, flows)


def monthly(ground: Ground, fund: Fund, flows: Flows) -> Iterator[Lever]:
    payment = payment_in(ground, fund)
    if payment.back and payment.months != MONTH:
        yield Lever(
            key=f"months-{fund.pk}",
            what=f"Claim from {fund.name} every month",
            takes="Ask the funder; one claim with its papers each month.",
            flows=flows(Asked(fund=fund.pk, months=MONTH)),
        )


def in_advance(ground: Ground, fund: Fund, flows: Flows) -> Iterator[Lever]:
    payment = payment_in(ground, fund)
    if payment.back and payment.ahead_basis_points < HALF:
        yield Lever(
            key=f"ahead-{fund.pk}",
            what=f"Ask {fund.name} for {percent(HALF)} of its award in advance",
            takes="A letter that shows the bills which come before the first claim is paid.",
            flows=flows(Asked(fund=fund.pk, ahead=HALF)),
        )


def sooner(ground: Ground, row: Milestone, flows: Flows) -> Iterator[Lever]:
    if row.pay_days >= SOONER and ground.received["milestone", row.pk] < row.cents:
        yield Lever(
            key=f"milestone-{row.pk}",
            what=f"Have “{row.title}” paid two weeks sooner",
            takes="Ask whoever pays it; send the invoice on the day.",
            flows=flows(Asked(milestone=row.pk, sooner_days=SOONER)),
        )


def kinder(ground: Ground, order: Order, flows: Flows) -> Iterator[Lever]:
    """Nothing is asked of an order that is billed in full."""
    billed = sum(bill.cents + bill.retained for bill in ground.books.bills.get(order.pk, ()))
    if billed >= order.total_cents:
        return
    if not billed and order.deposit_basis_points > SMALL_DEPOSIT:
        yield Lever(
            key=f"deposit-{order.pk}",
            what=f"Pay {order.supplier.name} {percent(SMALL_DEPOSIT)} with the order",
            takes="Ask before the order is placed.",
            flows=flows(Asked(order=order.pk, deposit=SMALL_DEPOSIT)),
        )
    if order.net_days < NET:
        yield Lever(
            key=f"net-{order.pk}",
            what=f"Pay {order.supplier.name} {NET} days after the delivery",
            takes="Ask for it before the balance is billed.",
            flows=flows(Asked(order=order.pk, net_days=NET)),
        )
