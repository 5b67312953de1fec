"""Write money that came from a fund."""

from __future__ import annotations

from django.db import transaction

from budgets.models import ClaimState, Income
from budgets.services.lines import Who, say
from projects.words import day_year, money


@transaction.atomic
def save_income(*, income: Income, user: Who) -> str:
    income.save()
    sentence = f"{told(income)} came from {income.fund.name} on {day_year(income.day)}."
    say(income.fund.project, user, sentence)
    return sentence


@transaction.atomic
def delete_income(*, income: Income, user: Who) -> str:
    """A claim that it paid is awaited again."""
    claim = income.claim
    if claim and claim.state == ClaimState.PAID:
        claim.state = ClaimState.FILED
        claim.save(update_fields=["state"])
    sentence = f"Took out {told(income)} of {income.fund.name}, {day_year(income.day)}."
    say(income.fund.project, user, sentence)
    income.delete()
    return sentence


def told(income: Income) -> str:
    return money(income.cents, income.fund.project.currency)
