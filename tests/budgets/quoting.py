"""Quotes of Hearthlight for tests: a skin to be sewn before the walk, and who is asked."""

from __future__ import annotations

from datetime import date
from typing import Any

from budgets.models import BudgetLine, Purchase
from schedules.models import Task
from suppliers.models import Quote, QuoteRequest
from tests.factories import SupplierFactory

LOFT, LOCKSIDE = "Third Bell Canvas Loft", "Lockside Upholstery"


def asked_for(
    project, *, line: BudgetLine | None = None, task: str = "", **fields: Any
) -> QuoteRequest:
    facts = {"title": "Lantern skin", "what": "Six panels, felled seams.", **fields}
    request = QuoteRequest.objects.create(project=project, **facts)
    found = Task.objects.filter(project=project, name=task).first()
    Purchase.objects.create(request=request, line=line, task=found)
    return request


def quote(request: QuoteRequest, supplier: str = LOFT, cents: int | None = 265_000, **fields: Any):
    """An answer; without a price, a supplier who was only asked."""
    who = SupplierFactory._meta.model.objects.filter(project=request.project, name=supplier).first()
    facts: dict[str, Any] = {"state": "received", "received_on": date(2031, 3, 1), "lead_days": 15}
    if cents is None:
        facts = {"state": "asked"}
    return Quote.objects.create(
        request=request,
        supplier=who or SupplierFactory(project=request.project, name=supplier),
        cents=cents,
        **{**facts, **fields},
    )


def answered(**changes: str) -> dict[str, str]:
    """What a thumb types when a price has come."""
    return {"cents": "2,650.00", "received_on": "2031-03-02", "lead_days": "15", **changes}
