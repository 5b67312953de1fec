"""The demo's gifts with their evidence, a trip, a bill to pay, other money, and a refund."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import time
from decimal import Decimal
from typing import Any

from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile

from budgets.engine.foreign import Foreign, in_words
from budgets.engine.gifts import hundredths_between
from budgets.facts import all_of
from budgets.models import BudgetLine, Expense, PaperKind
from budgets.selectors.gift_kinds import kinds
from budgets.services import credits, gifts, travel
from budgets.services.expenses import store_paper
from packets.management.demo.days import Days
from packets.management.demo.receipts import letter, receipt
from packets.management.demo.spent import make_receipt
from projects.files import Clean, clean_paper
from projects.models import LogEntry, Project

Row = Mapping[str, Any]


def tell(project: Project, data: Row, days: Days) -> None:
    """Kept quietly: the log of the demo tells other things."""
    user = User.objects.get(username="artist")
    told = LogEntry.objects.filter(project=project).order_by("-pk").first()
    for row in data["sheets"]:
        keep_sheet(project, row, days, user)
    for row in data["gifts"]:
        keep_gift(project, row, days, user)
    keep_drives(project, data["driven"], days, user)
    keep_trip(project, data["trip"], days, user)
    for row in data["bills"]:
        keep_bill(project, row, days)
    keep_refund(project, data["refund"], days, user)
    LogEntry.objects.filter(project=project, pk__gt=told.pk if told else 0).delete()


def line(project: Project, name: str) -> BudgetLine:
    return BudgetLine.objects.get(project=project, name=name)


def keep_sheet(project: Project, row: Row, days: Days, user: User) -> None:
    """The crew's gift that was logged as one figure gets its lines."""
    expense = Expense.objects.get(project=project, payee=row["payee"], in_kind=True)
    lines = [
        {
            **each,
            "day": days.worked(each["day"]),
            "starts": time.fromisoformat(each["starts"]),
            "ends": time.fromisoformat(each["ends"]),
            "hundredths": hours_of(each),
            "supervisor": row["supervisor"],
        }
        for each in row["lines"]
    ]
    values = {
        "payee": expense.payee,
        "line": expense.line,
        "what": expense.what,
        "rate": row["rate"],
    }
    save(expense, row, values, lines, user)
    if row["sheet_kept"]:
        keep_paper(expense, PaperKind.TIMESHEET, "Signed time sheet")


def hours_of(row: Row) -> int:
    return hundredths_between(time.fromisoformat(row["starts"]), time.fromisoformat(row["ends"]))


def keep_gift(project: Project, row: Row, days: Days, user: User) -> None:
    values = {
        **{name: row[name] for name in ("payee", "what", "quantity", "unit", "rate")},
        "line": line(project, row["line"]),
        "day": days.worked(row["day"]),
    }
    made = save(Expense(project=project), row, values, [], user)
    for kind in row["papers"]:
        keep_paper(made, kind, "Letter of loan")


def keep_drives(project: Project, row: Row, days: Days, user: User) -> None:
    values = {"payee": row["payee"], "what": row["what"], "line": line(project, row["line"])}
    legs = drives(row, days)
    save(Expense(project=project), {**row, "kind": "miles"}, values, legs, user)


def save(
    expense: Expense, row: Row, values: Row, rows: list[dict[str, Any]], user: User
) -> Expense:
    kind = kinds()[row["kind"]]
    reckoned = gifts.gift_values(kind, values, rows, all_of(expense.project))
    told = {**values, "basis": row["basis"], "need": row["need"]}
    return gifts.save_gift(
        expense=expense, kind=kind, values=told, reckoned=reckoned, rows=rows, user=user
    )


def drives(row: Row, days: Days) -> list[dict[str, Any]]:
    return [{**leg, "day": days.worked(leg["day"])} for leg in row["legs"]]


def keep_trip(project: Project, row: Row, days: Days, user: User) -> None:
    values = {"payee": row["payee"], "line": line(project, row["line"])}
    travel.save_trip(
        expense=Expense(project=project),
        values=values,
        rows=drives(row, days),
        facts=all_of(project),
        user=user,
    )


def keep_bill(project: Project, row: Row, days: Days) -> None:
    same = ("payee", "what", "invoice_no", "need", "paid_from", "place")
    made = Expense.objects.create(
        project=project,
        line=line(project, row["line"]),
        day=days.worked(row["day"]),
        due_on=days.of(row["due"]) if "due" in row else None,
        paid_on=days.worked(row["paid"]) if "paid" in row else None,
        tax_cents=row.get("tax"),
        workings={"tax_rate": row["tax_rate"]} if "tax_rate" in row else {},
        **{name: row.get(name, "") for name in same},
        **amount(row, days),
    )
    make_receipt(made)


def amount(row: Row, days: Days) -> dict[str, Any]:
    if "foreign" not in row:
        return {"cents": row["cents"]}
    currency, hundredths, rate, day = row["foreign"]
    other = Foreign(
        currency=currency, hundredths=hundredths, rate=Decimal(rate), day=days.worked(day)
    )
    return {"cents": other.cents, "foreign": in_words(other)}


def keep_refund(project: Project, row: Row, days: Days, user: User) -> None:
    expense = Expense.objects.filter(project=project, payee=row["payee"], in_kind=False).first()
    assert expense is not None
    values = {"cents": row["cents"], "day": days.worked(row["day"]), "what": row["what"]}
    slip = clean(receipt(expense.payee, row["what"], row["cents"], values["day"]))
    credits.add_credit(expense=expense, values=values, paper=slip, user=user)


def keep_paper(expense: Expense, kind: str, title: str) -> None:
    data = letter(expense.payee, title, expense.what, expense.day)
    store_paper(expense, clean(data), kind)


def clean(data: bytes) -> Clean:
    return clean_paper(SimpleUploadedFile("paper.jpg", data))
