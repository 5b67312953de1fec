"""Money of Hearthlight, with fixed values, and files as a phone would send them."""

from __future__ import annotations

from datetime import date
from io import BytesIO

from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from budgets.models import Commitment, Expense, Fund, FundRule, Share
from tests.factories import ExpenseFactory, FundFactory, LineFactory, OrderFactory, SupplierFactory

HTMX = {"HX-Request": "true"}


def url(name: str, project, *more) -> str:
    return reverse(f"budgets:{name}", args=[project.pk, *more])


def photo(name: str = "receipt.jpg", colour: tuple[int, int, int] = (230, 220, 200)):
    out = BytesIO()
    Image.new("RGB", (60, 80), colour).save(out, "JPEG")
    return SimpleUploadedFile(name, out.getvalue(), "image/jpeg")


def pdf(name: str = "invoice.pdf"):
    return SimpleUploadedFile(name, b"%PDF-1.7\n1 0 obj\n<<>>\nendobj\n", "application/pdf")


def fund(project, name: str = "Riverside Ward improvement fund", **fields) -> Fund:
    return FundFactory(project=project, name=name, **fields)


def rule(fund: Fund, code: str, clause: str = "", **params) -> FundRule:
    return FundRule.objects.create(fund=fund, code=code, clause=clause, params=params)


def line(project, name: str = "Primer and paint", **fields):
    return LineFactory(project=project, name=name, **fields)


def expense(project, cents: int = 20_000, category: str = "materials", **fields) -> Expense:
    paid_from = fields.pop("line", None) or line(project, f"For {category}", category=category)
    return ExpenseFactory(project=project, line=paid_from, cents=cents, **fields)


def order(project, cents: int = 600_000, *, paid_from=None, **fields):
    supplier = SupplierFactory(project=project, name=fields.pop("supplier", "Saltglaze Metalworks"))
    made = OrderFactory(supplier=supplier, title="Lantern frame", cents=cents, **fields)
    if paid_from:
        Commitment.objects.create(order=made, line=paid_from)
    return made


def share(expense: Expense, fund: Fund, cents: int) -> Share:
    return Share.objects.create(expense=expense, fund=fund, cents=cents)


def typed(line, /, **changes) -> dict[str, object]:
    """What a thumb types into the form of an expense."""
    fields = {"cents": "212.40", "payee": "Ledger Street Paints", "line": line.pk}
    return {**fields, "day": date(2031, 3, 3).isoformat(), **changes}
