"""What a claim holds fast of one expense, in words."""

from __future__ import annotations

from budgets.fit import read_locks
from budgets.models import Claim, ClaimState, Expense
from projects.words import listed, money


def claims_of(expense: Expense) -> list[Claim]:
    """Claims that charge or count some of it and are no longer being prepared."""
    found = (
        Claim.objects.exclude(state=ClaimState.DRAFT)
        .filter(fund__project=expense.project_id)
        .select_related("fund")
    )
    charging = found.filter(shares__expense=expense)
    matching = found.filter(match__expense=expense)
    return list((charging | matching).distinct())


def claims_named(claims: list[Claim]) -> str:
    return listed([f"claim {claim.number} on {claim.fund.name}" for claim in claims])


def kept_words(claims: list[Claim], what: str) -> str:
    """Why something stays, such as “This paper stays”."""
    return f"{what}: it stands in {claims_named(claims)}. What was filed is kept for the audit."


def held_cents(expense: Expense) -> int:
    """Cents of it that filed and paid claims charge, and the artist's own that they count."""
    locks = read_locks(expense.project)
    charged = sum(cents for (pk, _), cents in locks.shares.items() if pk == expense.pk)
    own = [cents for (pk, _, payer), cents in locks.match.items() if pk == expense.pk and not payer]
    return charged + max(own, default=0)


def held_above(expense: Expense, cents: int) -> str:
    """Why it may not fall to so many cents; empty when it may."""
    held = held_cents(expense)
    if held <= cents:
        return ""
    amount, where = money(held, expense.project.currency), claims_named(claims_of(expense))
    return (
        f"{amount} of it stands in {where}. What was filed stays: if money came back, add it "
        "under “Money that came back”, and the next claim corrects it."
    )
