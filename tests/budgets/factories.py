"""Money of Hearthlight, with fixed values, and files as a phone would send them."""

from __future__ import annotations

from datetime import date
from io import BytesIO

from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from budgets.models import (
    Claim,
    ClaimMatch,
    ClaimShare,
    Commitment,
    Counted,
    Credit,
    Expense,
    Fund,
    FundRule,
    Paper,
    Share,
)
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


def counted(expense: Expense, fund: Fund, cents: int, payer: Fund | None = None) -> Counted:
    return Counted.objects.create(expense=expense, fund=fund, payer=payer, cents=cents)


def credit(expense: Expense, cents: int, what: str = "Two tins returned", **fields) -> Credit:
    day = fields.pop("day", date(2031, 3, 2))
    return Credit.objects.create(expense=expense, cents=cents, day=day, what=what)


def paper(expense: Expense, kind: str = "receipt") -> Paper:
    """A paper whose file nobody opens."""
    return Paper.objects.create(
        expense=expense, kind=kind, file="papers/1/none.pdf", media_type="application/pdf",
        size=1, sha256=f"{expense.pk}-{kind}",
    )  # fmt: skip


def claim(fund: Fund, *charged: tuple[Expense, int], state: str = "filed", **fields) -> Claim:
    made = Claim.objects.create(
        fund=fund, state=state, number=fund.claims.count() + 1, to_day=date(2031, 3, 1), **fields
    )
    for row, cents in charged:
        ClaimShare.objects.create(claim=made, expense=row, cents=cents)
    return made


def claimed_match(claim: Claim, expense: Expense, cents: int, payer: Fund | None = None):
    return ClaimMatch.objects.create(claim=claim, expense=expense, cents=cents, payer=payer)


def typed(line, /, **changes) -> dict[str, object]:
    """What a thumb types into the form of an expense."""
    fields = {"cents": "212.40", "payee": "Ledger Street Paints", "line": line.pk}
    return {**fields, "day": date(2031, 3, 3).isoformat(), **changes}
