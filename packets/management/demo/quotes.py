"""The demo's quotes: one request to be chosen from, one that was; and the terms of its orders."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile

from budgets.models import BudgetLine, Expense, Purchase
from packets.management.demo.days import Days
from packets.management.demo.receipts import receipt
from projects.files import clean_paper
from projects.models import Part, Project
from schedules.models import KeyDate, KeyDateKind, Task
from suppliers.models import Order, OrderChange, Quote, QuoteRequest, QuoteState, Supplier

Row = Mapping[str, Any]


def tell(project: Project, data: Row, days: Days) -> None:
    public = KeyDate.objects.filter(project=project, kind=KeyDateKind.PUBLIC).first()
    days.public_on = public.on if public else None
    for row in data["suppliers"]:
        fields = {key: value for key, value in row.items() if key != "key"}
        Supplier.objects.get_or_create(project=project, name=fields.pop("name"), defaults=fields)
    for row in data["orders"]:
        agree(project, row, days)
    for row in data["requests"]:
        ask(project, row, days)


def agree(project: Project, row: Row, days: Days) -> None:
    """The terms of an order, and its first payment as the deposit that it was."""
    order = Order.objects.get(supplier__project=project, title=row["title"])
    order.number, order.net_days = row["number"], row["net_days"]
    order.deposit_basis_points = row["deposit"]
    order.retainage_basis_points = row.get("retainage", 0)
    order.save()
    for change in row.get("changes", []):
        OrderChange.objects.create(
            order=order,
            cents=change["cents"],
            day=days.worked(change["day"]),
            reason=change["reason"],
        )
    first = Expense.objects.filter(order=order).order_by("day", "pk").first()
    if first and row["deposit"]:
        Expense.objects.filter(pk=first.pk).update(is_deposit=True)


def ask(project: Project, row: Row, days: Days) -> None:
    request = QuoteRequest.objects.create(
        project=project,
        title=row["title"],
        what=row["what"],
        part=Part.objects.filter(project=project, name=row["part"]).first(),
        wanted_on=days.of(row["wanted_on"]),
        answer_by=days.of(row["answer_by"]),
        is_closed="chosen" in row,
        reason=row.get("reason", ""),
    )
    Purchase.objects.create(
        request=request,
        line=BudgetLine.objects.get(project=project, name=row["line"]),
        task=Task.objects.get(project=project, name=row["task"]),
    )
    for answer in row["quotes"]:
        quote(request, row, answer, days)


def quote(request: QuoteRequest, row: Row, answer: Row, days: Days) -> None:
    supplier = Supplier.objects.get(project=request.project, name=answer["supplier"])
    made = Quote(request=request, supplier=supplier, asked_on=days.worked(answer["asked_on"]))
    if answer.get("declined"):
        made.state = QuoteState.DECLINED
        made.save()
        return
    for name in ("cents", "tax_cents", "delivery_cents", "lead_days", "net_days", "note"):
        setattr(made, name, answer[name])
    made.received_on = days.worked(answer["received_on"])
    made.valid_until = days.of(answer["valid_until"])
    made.deposit_basis_points = answer["deposit"]
    made.state = state_of(row, answer)
    if answer["file"]:
        keep_paper(made)
    made.save()
    if made.state == QuoteState.CHOSEN:
        orders = Order.objects.filter(supplier=supplier, title=row["order"])
        orders.update(quote=made)


def state_of(row: Row, answer: Row) -> str:
    if "chosen" not in row:
        return QuoteState.RECEIVED
    taken = answer["supplier"] == row["chosen"]
    return QuoteState.CHOSEN if taken else QuoteState.NOT_CHOSEN


def keep_paper(made: Quote) -> None:
    assert made.received_on is not None
    what = f"Quote: {made.request.title}"
    slip = receipt(made.supplier.name, what, made.total_cents or 0, made.received_on)
    clean = clean_paper(SimpleUploadedFile("quote.jpg", slip))
    made.file.save("quote.jpg", clean.content, save=False)
    made.media_type = clean.media_type
