"""The demo's agreed budgets, the reports its funds ask for, and a request for another budget."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from budgets.models import ChangeRequest, ChangeState, Fund
from packets.management.demo.days import Days
from projects.models import Project

Row = Mapping[str, Any]


def tell(project: Project, data: Row, days: Days) -> None:
    funds = {fund.name: fund for fund in Fund.objects.filter(project=project)}
    for row in data["funds"]:
        fund = funds[row["name"]]
        fund.approved, fund.number = row["approved"], fund.number or row["number"]
        fund.save(update_fields=["approved", "number"])
        fund.rules.get_or_create(code="report_due", defaults={"params": row["report"]})
    for row in data["changes"]:
        ask(funds[row["fund"]], row, days.worked(row["sent"]))


def ask(fund: Fund, row: Row, sent_on: date) -> None:
    ChangeRequest.objects.create(
        fund=fund,
        state=ChangeState.SENT,
        before=fund.approved,
        revised=row["revised"],
        reason=row["reason"],
        sent_on=sent_on,
    )
