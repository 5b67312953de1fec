"""How orders stand: agreed, billed, paid, kept back, still to pay, and what is due when."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from django.db.models import QuerySet
from django.urls import reverse

from budgets import fit
from budgets.engine.money import percent
from budgets.engine.terms import Account, Bill, Due, Terms, account, due_payments, next_bill
from budgets.fit.orders import terms_of
from budgets.models import BudgetLine, Expense
from projects.hooks import Level, OrderMoney, TaskDays, tasks_planned
from projects.models import Project
from projects.words import day, money, plural
from suppliers.models import Order, OrderState

LIVE = (OrderState.PLACED, OrderState.DELIVERED)
CLOSING = (OrderState.CANCELLED, OrderState.PLANNED)


@dataclass(frozen=True, kw_only=True)
class OrderAccount:
    """An order with its bills, in the order in which they came."""

    order: Order
    line: BudgetLine | None
    terms: Terms
    account: Account
    bills: tuple[Expense, ...]
    dues: tuple[Due, ...]
    next: Bill | None
    delivered_on: date | None  # or when the plan says that it comes

    @property
    def settled(self) -> bool:
        return not self.account.to_pay or self.order.state == OrderState.CANCELLED

    @property
    def back(self) -> int:
        """What is still to come back of a cancelled order, in cents."""
        return max(0, self.account.paid - self.account.total)

    @property
    def troubles(self) -> list[str]:
        return [words for words in trouble_words(self) if words]

    @property
    def kept_words(self) -> str:
        """What the contract keeps back, as a sentence without its end."""
        order, rule = self.order, self.terms.retainage
        words = f"{percent(rule.basis_points)} of each bill"
        if rule.stop is not None:
            words += f", {percent(rule.after)} once {percent(rule.stop)} is billed"
        if rule.release_half:
            words += ", and half of it is freed then"
        words += f"; paid {plural(order.retainage_days, 'day')} after the delivery"
        if order.left_to_do_cents:
            words += f", but {cash(self, order.left_to_do_cents)} of work is still to be put right"
        return words

    @property
    def level(self) -> Level:
        if self.troubles:
            return Level.BROKEN
        return Level.HOLDS if self.settled else Level.PLAIN


def trouble_words(row: OrderAccount) -> Iterable[str]:
    if row.order.state == OrderState.CANCELLED:
        yield cancelled_words(row)
    else:
        yield over_words(row)
    if row.order.state == OrderState.PLANNED and row.account.billed:
        yield "Money was spent on an order that is only planned: mark it placed."


def over_words(row: OrderAccount) -> str:
    """Billed above the contract; the usual reason is a deposit that was not taken off."""
    found = row.account
    if not found.over:
        return ""
    over, total = cash(row, found.over), cash(row, found.total)
    said = f"The bills come to {cash(row, found.billed)}, {over} more than the {total} agreed."
    if found.deposit and found.over == found.deposit:
        return f"{said} The last bill did not take off the deposit: it is counted twice."
    return f"{said} Log the change that was agreed, or have the bill put right."


def cancelled_words(row: OrderAccount) -> str:
    """What was paid on a cancelled order is lost, or comes back."""
    found = row.account
    if row.back:
        return f"It was cancelled: {cash(row, row.back)} of what was paid is still to come back."
    if found.owed:
        return f"It was cancelled, and bills of {cash(row, found.owed)} are not paid yet."
    if found.paid:
        return f"It was cancelled: the {cash(row, found.paid)} paid on it is lost."
    return ""


def at_stake(row: OrderAccount) -> str:
    """What is lost with an order that is cancelled now."""
    found = row.account
    if not found.paid:
        return "Nothing was paid on it. What is not billed yet is free again on its line."
    deposit = f", {cash(row, found.deposit)} of it as deposit" if found.deposit else ""
    return f"{cash(row, found.paid)} was paid on it{deposit}. What they do not send back is lost."


def sentence(row: OrderAccount) -> str:
    """What matters now about one order."""
    if row.troubles:
        return row.troubles[0]
    if row.settled:
        return "It is paid to the last cent."
    if row.account.owed:
        return f"Bills of {cash(row, row.account.owed)} are logged and not paid yet."
    due = row.dues[0]
    when = f", {day(due.day)}" if due.day else ""
    return f"Next to pay: {cash(row, due.cents)}{when}, the {due.why}."


def cash(row: OrderAccount, cents: int) -> str:
    return money(cents, row.order.supplier.project.currency)


def rows_for(project: Project) -> QuerySet[Order]:
    rows = Order.objects.filter(supplier__project=project)
    return rows.select_related("supplier__project", "commitment__line").prefetch_related("changes")


def accounts(
    orders: Iterable[Order], books: fit.Books, tasks: Iterable[TaskDays]
) -> list[OrderAccount]:
    spent: dict[int, list[Expense]] = {}
    for row in sorted(books.expenses, key=lambda e: (e.day, e.pk)):
        if row.order_id and not row.in_kind:
            spent.setdefault(row.order_id, []).append(row)
    ends = last_days(tasks)
    return [
        one(order, books.bills.get(order.pk, []), spent.get(order.pk, []), ends) for order in orders
    ]


def one(
    order: Order, bills: list[Bill], spent: list[Expense], ends: Mapping[int, date]
) -> OrderAccount:
    terms = terms_of(order)
    delivered = order.delivered_on or ends.get(order.pk) or order.window_end
    live = order.state != OrderState.CANCELLED
    placed = order.placed_on or order.window_start
    commitment = getattr(order, "commitment", None)
    return OrderAccount(
        order=order,
        line=commitment.line if commitment else None,
        terms=terms,
        account=account(terms, bills),
        bills=tuple(spent),
        dues=due_payments(terms, placed, delivered, bills) if live else (),
        next=next_bill(terms, bills) if live else None,
        delivered_on=delivered,
    )


def last_days(tasks: Iterable[TaskDays]) -> dict[int, date]:
    """The day on which the last task of each order is done, by the plan."""
    ends: dict[int, date] = {}
    for task in tasks:
        if task.order_id:
            ends[task.order_id] = max(task.finish, ends.get(task.order_id, task.finish))
    return ends


def open_accounts(project: Project, today: date) -> list[OrderAccount]:
    """Every order, those with something wrong first, then what is still to pay."""
    rows = accounts(rows_for(project), fit.read(project), tasks_planned(project, today))
    return sorted(rows, key=lambda row: (not row.troubles, row.settled, row.order.pk))


def order_account(order: Order, today: date) -> OrderAccount:
    project = order.supplier.project
    return accounts([order], fit.read(project), tasks_planned(project, today))[0]


def order_money(project: Project, today: date) -> dict[int, OrderMoney]:
    """What the suppliers sheet shows beside each order."""
    return {
        row.order.pk: OrderMoney(
            figures=figures(row),
            says=row.troubles[0] if row.troubles else "",
            level=row.level,
            url=reverse("budgets:order", args=[project.pk, row.order.pk]),
        )
        for row in open_accounts(project, today)
    }


def figures(row: OrderAccount) -> tuple[tuple[str, int], ...]:
    found = row.account
    every = (
        ("Changes", row.order.changed_cents),
        ("Billed", found.billed),
        ("Deposit", found.deposit),
        ("Paid", found.paid),
        ("Kept back", found.retained),
        ("Still to pay", 0 if row.settled else found.to_pay),
    )
    return tuple((label, cents) for label, cents in every if cents)
