"""When an order must be paid, and what is left of it. Integer cents, days as dates.

Its bills are what was logged: a deposit, then what was billed less that deposit. So the bills
of an order never add up to more than its price, and a deposit is never counted twice.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from budgets.engine.money import WHOLE, NegativeMoney, largest_remainder, share_half_up
from budgets.engine.retainage import (
    NOTHING_KEPT,
    BadRate,
    Retainage,
    checked,
    keep_for_list,
    kept_of,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What was agreed: the price and approved changes in cents, the rates in basis points.

    The deposit is due when the order is placed, the balance `net_days` after the delivery, what
    was kept back `release_days` after it, less one and a half times what is `left_to_do`.
    """

    price: int
    changes: int = 0
    deposit: int = 0
    net_days: int = 0
    retainage: Retainage = NOTHING_KEPT
    release_days: int = 30
    left_to_do: int = 0

    def __post_init__(self) -> None:
        checked("The deposit", self.deposit)
        if self.price < 0:
            raise NegativeMoney("The price", self.price)

    @property
    def total(self) -> int:
        """With the changes; never below zero."""
        return max(0, self.price + self.changes)

    @property
    def deposit_cents(self) -> int:
        """Of the price as ordered: later changes leave it.

        >>> Terms(price=3_333_33, deposit=5000).deposit_cents
        166667
        """
        return min(self.total, share_half_up(self.price, self.deposit))


@dataclass(frozen=True, slots=True, kw_only=True)
class Bill:
    """What was logged on an order: payable cents, beside what the bill keeps back.

    `retained` below zero is money kept from earlier bills that this one pays out.
    """

    cents: int
    retained: int = 0
    is_deposit: bool = False
    paid: bool = False
    came_back: int = 0  # credits and refunds


class Reason(StrEnum):
    DEPOSIT = "deposit"
    BALANCE = "balance"
    RETAINED = "retained"


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """Cents that still have to be billed and paid, and from which day; none: not known yet."""

    day: date | None
    cents: int
    why: str
    reason: Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class Account:
    """How an order stands, in cents."""

    total: int
    billed: int  # gross, deposit and kept-back money included
    deposit: int  # billed as deposit
    paid: int  # what left, less what came back
    came_back: int
    retained: int  # held
    owed: int  # logged and not paid yet
    to_bill: int  # committed, not yet billed
    over: int  # billed beyond the total

    @property
    def to_pay(self) -> int:
        """All that has still to leave: unpaid bills, what is held, what is not billed."""
        return self.owed + self.retained + self.to_bill


def account(terms: Terms, bills: Iterable[Bill]) -> Account:
    """How an order stands after its bills, in cents.

    >>> bills = [Bill(cents=3_900_00, is_deposit=True, paid=True)]
    >>> found = account(Terms(price=7_800_00, deposit=5000), bills)
    >>> found.billed, found.to_bill, found.to_pay
    (390000, 390000, 390000)
    """
    rows = tuple(bills)
    billed = sum(row.cents + row.retained for row in rows)
    came_back = sum(row.came_back for row in rows)
    return Account(
        total=terms.total,
        billed=billed,
        deposit=sum(row.cents for row in rows if row.is_deposit),
        paid=sum(row.cents for row in rows if row.paid) - came_back,
        came_back=came_back,
        retained=max(0, sum(row.retained for row in rows)),
        owed=sum(row.cents for row in rows if not row.paid),
        to_bill=max(0, terms.total - billed),
        over=max(0, billed - terms.total),
    )


def next_bill(terms: Terms, bills: Iterable[Bill]) -> Bill | None:
    """What the next bill should say: the deposit, the balance less retainage, or its release.

    >>> terms = Terms(price=1_000_00, deposit=5000, retainage=Retainage(basis_points=1000))
    >>> next_bill(terms, []).cents, next_bill(terms, [Bill(cents=500_00, is_deposit=True)]).cents
    (50000, 45000)
    """
    rows = tuple(bills)
    found = account(terms, rows)
    if not rows and terms.deposit_cents:
        return Bill(cents=terms.deposit_cents, is_deposit=True)
    if found.to_bill:
        return balance(terms, found)
    freed = found.retained - keep_for_list(found.retained, terms.left_to_do)
    return Bill(cents=freed, retained=-freed) if freed else None


def balance(terms: Terms, found: Account) -> Bill:
    """All that is not billed yet, as one bill; nothing is kept back from a deposit."""
    kept = kept_of(
        terms.retainage,
        terms.total,
        found.to_bill,
        billed=min(found.billed, terms.total),
        held=found.retained,
    )
    return Bill(cents=kept.payable, retained=kept.kept)


def due_payments(
    terms: Terms, placed: date | None, delivered: date | None, bills: Iterable[Bill] = ()
) -> tuple[Due, ...]:
    """What is still to be billed and paid, by day, in cents; `bills` are those logged so far.

    `placed` is the day of the order, or when it will be placed; `delivered` when it comes. Bills
    that are logged and not paid are not repeated here: logged and due together are the total,
    as long as no more was billed than that. A day that is not known is None.

    >>> terms = Terms(price=10_000_00, deposit=5000, net_days=15)
    >>> due = due_payments(terms, date(2031, 3, 3), date(2031, 5, 1))
    >>> [(row.day.isoformat(), row.cents) for row in due]
    [('2031-03-03', 500000), ('2031-05-16', 500000)]
    """
    logged, dues = list(bills), []
    days = {
        Reason.DEPOSIT: placed,
        Reason.BALANCE: later(delivered, terms.net_days),
        Reason.RETAINED: later(delivered, terms.release_days),
    }
    while (bill := next_bill(terms, logged)) is not None:
        reason = reason_of(bill)
        if bill.cents:
            dues.append(Due(day=days[reason], cents=bill.cents, why=WHY[reason], reason=reason))
        logged.append(bill)
    kept = account(terms, logged).retained
    if kept:
        dues.append(Due(day=None, cents=kept, why=WHY_KEPT, reason=Reason.RETAINED))
    return tuple(dues)


WHY = {
    Reason.DEPOSIT: "deposit, due with the order",
    Reason.BALANCE: "balance, due after the delivery",
    Reason.RETAINED: "what was kept back, due after the delivery",
}
WHY_KEPT = "kept back until all is put right"


def reason_of(bill: Bill) -> Reason:
    if bill.is_deposit:
        return Reason.DEPOSIT
    return Reason.BALANCE if bill.cents + bill.retained else Reason.RETAINED


def later(day: date | None, days: int) -> date | None:
    return None if day is None else day + timedelta(days=days)


def milestones(total: int, basis_points: Sequence[int]) -> tuple[int, ...]:
    """A price in parts that add up to it to the cent; ties to the earlier part.

    Raises BadRate when the parts are not the whole. Source of the example: 80 % before the
    start and 20 % after the report, Region 2 Arts Council (Minnesota), payment policy.

    >>> milestones(3_333_33, (8000, 2000))
    (266666, 66667)
    """
    whole = sum(checked("A part", part) for part in basis_points)
    if whole != WHOLE:
        raise BadRate("All parts together", whole)
    return largest_remainder(total, basis_points)
