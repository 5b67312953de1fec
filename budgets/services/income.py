"""Write money that came from a fund, and what was paid back to it."""

from __future__ import annotations

from django.db import transaction
from django.db.models import QuerySet, Sum

from budgets.models import Claim, ClaimState, Fund, Income
from budgets.services.claim_checks import Refused
from budgets.services.lines import Who, say
from projects.words import day_year, money


@transaction.atomic
def save_income(*, income: Income, user: Who) -> str:
    """Raises Refused for more than the award, the claim or the milestone comes to.

    And for paying back more than has come.
    """
    fund = Fund.objects.select_for_update().get(pk=income.fund_id)
    (refuse_too_much_back if income.went_back else refuse_more)(income, fund)
    verb = "Corrected:" if income.pk else ""
    income.save()
    settle(income.claim)
    way = "was paid back to" if income.went_back else "came from"
    sentence = f"{told(income)} {way} {fund.name} on {day_year(income.day)}."
    say(fund.project, user, f"{verb} {sentence}".strip())
    return sentence


def refuse_more(income: Income, fund: Fund) -> None:
    others = Income.objects.filter(fund=fund).exclude(pk=income.pk)
    most, what = fund.award_cents, f"{fund.name} owes"
    if income.claim:
        others, most = others.filter(claim=income.claim), income.claim.due_cents
        what = f"Claim {income.claim.number} is owed"
    elif income.milestone:
        others, most = others.filter(milestone=income.milestone), income.milestone.cents
        what = f"“{income.milestone.title}” is owed"
    left = most - came_of(others)
    if most and income.cents > left:
        amount = money(max(0, left), fund.project.currency)
        raise Refused(
            f"{what} no more than {amount} now. Check the amount, or write the new award.", "cents"
        )


def refuse_too_much_back(income: Income, fund: Fund) -> None:
    came = came_of(Income.objects.filter(fund=fund).exclude(pk=income.pk))
    if came + income.cents < 0:
        amount = money(max(0, came), fund.project.currency)
        raise Refused(
            f"{amount} has come from {fund.name} in all. No more than that can be paid back.",
            "cents",
        )


def came_of(rows: QuerySet[Income]) -> int:
    return rows.aggregate(total=Sum("cents"))["total"] or 0


def settle(claim: Claim | None) -> None:
    """Paid once all that is due has come, else awaited."""
    if claim is None or claim.state not in (ClaimState.FILED, ClaimState.PAID):
        return
    came = came_of(claim.income.all())
    claim.state = ClaimState.PAID if came and came >= claim.due_cents else ClaimState.FILED
    claim.save(update_fields=["state"])


@transaction.atomic
def delete_income(*, income: Income, user: Who) -> str:
    """A claim or a milestone that it paid is awaited again."""
    claim = income.claim
    sentence = f"Took out {told(income)} of {income.fund.name}, {day_year(income.day)}."
    say(income.fund.project, user, sentence)
    income.delete()
    settle(claim)
    return sentence


def told(income: Income) -> str:
    return money(abs(income.cents), income.fund.project.currency)
