"""The demo's budget lines, funds, expenses with their receipts, and who pays which cents."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile

from budgets.models import BudgetLine, Commitment, Expense, Fund, FundRule, Paper, Share
from packets.management.demo.days import Days
from packets.management.demo.receipts import receipt
from projects.files import clean_paper
from projects.models import Project
from suppliers.models import Order, Supplier

Row = Mapping[str, Any]


def make_lines(project: Project, rows: list[Row]) -> dict[str, BudgetLine]:
    return {
        row["key"]: BudgetLine.objects.create(
            project=project,
            name=row["name"],
            category=row["category"],
            planned_cents=row["cents"],
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
        )
        for rule in row["rules"]:
            FundRule.objects.create(fund=fund, code=rule["code"], params=rule.get("params", {}))
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


def make_receipt(expense: Expense) -> None:
    slip = receipt(expense.payee, expense.what, expense.cents, expense.day)
    clean = clean_paper(SimpleUploadedFile("receipt.jpg", slip))
    paper = Paper(
        expense=expense, media_type=clean.media_type, size=clean.size, sha256=clean.sha256
    )
    paper.file.save("receipt.jpg", clean.content)
