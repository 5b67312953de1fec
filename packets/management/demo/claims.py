"""What the demo's funds were asked for, what came of it, and a refund after the claim."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.contrib.auth.models import User

from budgets.models import ClaimKind, Counted, Expense, Fund, Income, Milestone
from budgets.services import claim_after, claims, credits
from packets.management.demo.days import Days
from projects.models import LogEntry, Project
from schedules.models import KeyDate, KeyDateKind

Row = Mapping[str, Any]


def tell(project: Project, data: Row, days: Days) -> None:
    """Kept quietly: the log of the demo tells other things."""
    user = User.objects.get(username="artist")
    told = LogEntry.objects.filter(project=project).order_by("-pk").first()
    funds = {fund.name: fund for fund in Fund.objects.filter(project=project)}
    for row in data["came"]:
        day = days.worked(row["day"])
        Income.objects.create(
            fund=funds[row["fund"]], day=day, cents=row["cents"], what=row["what"]
        )
    for row in data["parts"]:
        agree(project, funds[row["fund"]], row, days)
    for payee, (document, payment) in data["numbers"].items():
        bills = Expense.objects.filter(project=project, payee=payee, shares__isnull=False)
        bills.update(invoice_no=document, payment_ref=payment)
    for row in data["counted"]:
        gift = Expense.objects.get(
            project=project, payee=row["payee"], line__name=row["line"], in_kind=True
        )
        Counted.objects.create(expense=gift, fund=funds[row["fund"]], cents=row["cents"])
    for row in data["claims"]:
        ask(funds[row["fund"]], row, days, user)
    keep_refund(project, data["refund"], days, user)
    LogEntry.objects.filter(project=project, pk__gt=told.pk if told else 0).delete()


def agree(project: Project, fund: Fund, row: Row, days: Days) -> None:
    public = KeyDate.objects.filter(project=project, kind=KeyDateKind.PUBLIC).first()
    part = Milestone.objects.create(
        fund=fund,
        title=row["title"],
        cents=row["cents"],
        key_date=public if row.get("public") else None,
        on=days.worked(row["on"]) if "on" in row else None,
        pay_days=row["pay_days"],
        invoice_no=row.get("invoice_no", ""),
        invoiced_on=days.worked(row["invoiced"]) if "invoiced" in row else None,
        position=fund.milestones.count(),
    )
    if "came" in row:
        day = days.worked(row["came"])
        Income.objects.create(fund=fund, milestone=part, day=day, cents=part.cents, what=part.title)


def ask(fund: Fund, row: Row, days: Days, user: User) -> None:
    filed_on = days.worked(row["filed"])
    claim = claims.prepare_claim(
        fund=fund,
        through=days.worked(row["to"]),
        final=False,
        kind=ClaimKind.CLAIM,
        user=user,
    )
    claims.file_claim(claim=claim, filed_on=filed_on, expected_on=None, note=row["note"], user=user)
    claim_after.pay_claim(
        claim=claim,
        day=days.worked(row["came"]),
        cents=claim.due_cents,
        what=row["what"],
        user=user,
    )


def keep_refund(project: Project, row: Row, days: Days, user: User) -> None:
    """It lowers what the fund pays; its next claim takes back what was asked for too much."""
    values = {"cents": row["cents"], "day": days.worked(row["day"]), "what": row["what"]}
    bill = Expense.objects.get(project=project, payee=row["payee"])
    credits.add_credit(expense=bill, values=values, paper=None, user=user)
