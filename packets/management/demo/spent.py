"""The demo's budget lines, funds, expenses with their receipts, and who pays which cents."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile

from budgets.models import (
    BudgetLine,
    Commitment,
    Expense,
    Fund,
    FundRule,
    Paper,
    PaperKind,
    Share,
)
from packets.management.demo.days import Days
from packets.management.demo.receipts import bank_line, receipt
from projects.files import clean_paper
from projects.models import Project
from suppliers.models import Order, Supplier

Row = Mapping[str, Any]
TOLD = ("role", "holder", "number", "approved", "note")  # of a fund, when there is something to say


def make_lines(project: Project, rows: list[Row]) -> dict[str, BudgetLine]:
    return {
        row["key"]: BudgetLine.objects.create(
            project=project,
            name=row["name"],
            category=row["category"],
            planned_cents=row["cents"],
            in_kind=row.get("in_kind", False),
            position=place,
        )
        for place, row in enumerate(rows)
    }


def make_commitments(
    rows: list[Row], orders: Mapping[str, Order], lines: Mapping[str, BudgetLine]
) -> None:
    for row in rows:
        Commitment.objects.create(order=orders[row["key"]], line=lines[row["line"]])


def make_funds(project: Project, rows: list[Row], days: Days) -> dict[str, Fund]:
    funds = {}
    for place, row in enumerate(rows):
        fund = funds[row["key"]] = Fund.objects.create(
            project=project,
            name=row["name"],
            kind=row["kind"],
            status=row["status"],
            award_cents=row["cents"],
            period_start=days.of(row["start"]),
            period_end=days.of(row["end"]),
            position=place,
            issued_on=days.of(row.get("issued")),
            **{name: row[name] for name in TOLD if name in row},
        )
        for rule in row["rules"]:
            FundRule.objects.create(fund=fund, **rule)
    return funds


def make_expense(
    project: Project,
    row: Row,
    lines: Mapping[str, BudgetLine],
    funds: Mapping[str, Fund],
    suppliers: Mapping[str, Supplier],
    orders: Mapping[str, Order],
    days: Days,
) -> None:
    expense = Expense.objects.create(
        project=project,
        line=lines[row["line"]],
        payee=row["payee"],
        supplier=suppliers.get(row.get("supplier", "")),
        order=orders.get(row.get("order", "")),
        cents=row["cents"],
        day=days.worked(row["day"]),
        what=row["what"],
        in_kind=row.get("in_kind", False),
        paid_on=None if row.get("in_kind") else days.worked(row["day"]),
    )
    for key, cents in row["shares"].items():
        Share.objects.create(expense=expense, fund=funds[key], cents=cents)
    if row["receipt"]:
        make_receipt(expense)
    if row.get("proof", row["receipt"]):
        make_proof(expense)


def make_receipt(expense: Expense) -> None:
    keep(
        expense, PaperKind.RECEIPT, receipt(expense.payee, expense.what, expense.cents, expense.day)
    )


def make_proof(expense: Expense) -> None:
    keep(expense, PaperKind.PAYMENT, bank_line(expense.payee, expense.cents, expense.day))


def keep(expense: Expense, kind: PaperKind, slip: bytes) -> None:
    clean = clean_paper(SimpleUploadedFile("paper.jpg", slip))
    paper = Paper(
        expense=expense,
        kind=kind,
        media_type=clean.media_type,
        size=clean.size,
        sha256=clean.sha256,
    )
    paper.file.save("paper.jpg", clean.content)
