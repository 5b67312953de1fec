"""What is known of an expense, in named groups: only what is filled."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from budgets.engine.tax import tax_check
from budgets.models import Expense, Payer, Unit
from budgets.selectors.workings import hand_changed
from projects.words import day_year, hundredths, money

PERCENT = 100
SLACK_LINES = 20  # of a bill, when nobody counted them
PIECES = {Unit.NONE: "", Unit.ITEM: "pieces"}


@dataclass(frozen=True)
class Facts:
    name: str
    rows: list[tuple[str, str]]


def expense_facts(expense: Expense) -> list[Facts]:
    """Groups that hold anything, in the order of the form."""
    found = [
        Facts("Invoice and payment", filled(payment(expense))),
        Facts("Order and delivery", filled(delivery(expense))),
        Facts("Why and where", filled(reasons(expense))),
        Facts("Another currency", filled([("Paid", expense.foreign)])),
        Facts("Shared with another project", filled([("Divided", expense.allocation)])),
        Facts("Whom it belongs to", filled(belonging(expense))),
    ]
    return [group for group in found if group.rows]


def filled(rows: list[tuple[str, str]]) -> list[tuple[str, str]]:
    return [row for row in rows if row[1]]


def payment(expense: Expense) -> list[tuple[str, str]]:
    currency = expense.project.currency
    return [
        ("Invoice", expense.invoice_no),
        ("Day of the invoice", dated(expense.invoice_on)),
        ("To be paid by", "" if expense.paid_on else dated(expense.due_on)),
        ("Paid on", dated(expense.paid_on)),
        ("Paid from", expense.paid_from),
        ("Payment", expense.payment_ref),
        ("Who paid", "" if expense.payer == Payer.ARTIST else expense.get_payer_display()),
        ("Sales tax, as printed", money(expense.tax_cents, currency)),
        ("Tip, delivery or bank fee", money(expense.fee_cents, currency)),
        ("Line of the bank’s file", expense.bank_ref),
    ]


def delivery(expense: Expense) -> list[tuple[str, str]]:
    count = 0 if expense.workings.get("kind") else expense.quantity_hundredths
    unit = PIECES.get(Unit(expense.unit), expense.get_unit_display())
    return [
        ("Ordered on", dated(expense.ordered_on)),
        ("Delivered on", dated(expense.delivered_on)),
        ("Quantity", f"{hundredths(count)} {unit}".strip() if count else ""),
    ]


def reasons(expense: Expense) -> list[tuple[str, str]]:
    return [("Why it was needed", expense.need), ("Town", expense.place)]


def belonging(expense: Expense) -> list[tuple[str, str]]:
    near = expense.get_relation_display() if expense.relation else ""
    return [("What it is", near), ("Partner", expense.partner)]


def dated(value: object) -> str:
    return day_year(value) if value else ""  # type: ignore[arg-type]


def expense_warnings(expense: Expense) -> list[str]:
    """What does not fit together and yet bars nothing."""
    found = [tax_warning(expense), hand_changed(expense)]
    return [sentence for sentence in found if sentence]


def tax_warning(expense: Expense) -> str:
    """The printed tax stays as it is: it is what was paid."""
    rate = expense.workings.get("tax_rate")
    if expense.tax_cents is None or not rate:
        return ""
    net = expense.cents - expense.tax_cents - (expense.fee_cents or 0)
    fraction = (Decimal(rate) / PERCENT).as_integer_ratio()
    check = tax_check(net, expense.tax_cents, fraction, lines=SLACK_LINES)
    if check.holds:
        return ""
    currency = expense.project.currency
    return (
        f"The printed tax is {money(check.printed, currency)}; {rate} % of "
        f"{money(net, currency)} is {money(check.reckoned, currency)}. Look at the paper again: "
        "what it says is kept."
    )
