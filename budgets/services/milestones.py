"""Write the parts of a fee or an award; together they never exceed it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from django.db import transaction
from django.db.models import Max, QuerySet, Sum

from budgets.engine.terms import milestones
from budgets.models import Fund, Milestone
from budgets.services.claim_checks import Refused
from budgets.services.lines import Who, say
from projects.words import day_year, money, plural


@transaction.atomic
def save_milestone(*, row: Milestone, user: Who) -> None:
    """Raises Refused when all parts would exceed the award, or less is left than has come."""
    fund = Fund.objects.select_for_update().get(pk=row.fund_id)
    others = Milestone.objects.filter(fund=fund).exclude(pk=row.pk)
    over = total(others) + row.cents - fund.award_cents
    currency = fund.project.currency
    if over > 0:
        award = money(fund.award_cents, currency)
        raise Refused(
            f"All parts would come to {money(over, currency)} more than the {award} of "
            f"{fund.name}. Write less, or the new award.",
            "cents",
        )
    refuse_less(row)
    verb = "Changed" if row.pk else "Added"
    if not row.pk:
        last = others.aggregate(last=Max("position"))["last"]
        row.position = 0 if last is None else last + 1
    row.save()
    says = f"{verb} the part “{row.title}” of {fund.name}: {money(row.cents, currency)}."
    say(fund.project, user, says)


def refuse_less(row: Milestone) -> None:
    came = total(row.income.all()) if row.pk else 0
    if row.cents < came:
        amount = money(came, row.fund.project.currency)
        raise Refused(f"{amount} of it has come already. Write that much or more.", "cents")


@transaction.atomic
def split_award(*, fund: Fund, parts: Sequence[tuple[str, int]], user: Who) -> None:
    """Titles with basis points; the amounts add up to the award to the cent."""
    fund = Fund.objects.select_for_update().get(pk=fund.pk)
    if fund.milestones.exists():
        raise Refused(f"{fund.name} has parts already. Change those, or take them out first.")
    amounts = milestones(fund.award_cents, [points for _, points in parts])
    if not all(amounts):
        raise Refused("A part would come to nothing. Write fewer parts, or the award first.")
    Milestone.objects.bulk_create(
        Milestone(fund=fund, title=title, cents=cents, position=place)
        for place, ((title, _), cents) in enumerate(zip(parts, amounts, strict=True))
    )
    say(fund.project, user, f"Split {fund.name} into {plural(len(parts), 'part')}.")


@transaction.atomic
def delete_milestone(*, row: Milestone, user: Who) -> None:
    if row.income.exists():
        raise Refused("Money came for it. Take that out first, if it was logged by mistake.")
    if row.invoiced_on:
        raise Refused(
            f"It was invoiced on {day_year(row.invoiced_on)} as {row.invoice_no}. What was sent "
            "is kept for the audit."
        )
    say(row.fund.project, user, f"Took out the part “{row.title}” of {row.fund.name}.")
    row.delete()


@transaction.atomic
def invoice(*, row: Milestone, invoice_no: str, invoiced_on: date, user: Who) -> None:
    """Raises Refused for a number that another part has."""
    same = Milestone.objects.filter(fund__project=row.fund.project_id, invoice_no=invoice_no)
    if other := same.exclude(pk=row.pk).first():
        raise Refused(
            f"Invoice {invoice_no} is that of “{other.title}”. Each needs a number of its own.",
            "invoice_no",
        )
    row.invoice_no, row.invoiced_on = invoice_no, invoiced_on
    row.save(update_fields=["invoice_no", "invoiced_on"])
    amount = money(row.cents, row.fund.project.currency)
    says = f"Invoiced “{row.title}” to {row.fund.name} as {invoice_no}: {amount}."
    say(row.fund.project, user, says)


def total(rows: QuerySet[Any]) -> int:
    found: int | None = rows.aggregate(total=Sum("cents"))["total"]
    return found or 0
