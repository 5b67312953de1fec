"""What a claim holds fast of one expense, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db.models import Q

from budgets.fit import read_locks
from budgets.models import LOCKING, BudgetLine, Claim, ClaimState, Expense, Fund
from projects.words import day_year, listed, money


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


def held_fields(expense: Expense, values: Mapping[str, Any]) -> dict[str, str]:
    """What a filed claim was told of it and may not be told otherwise, with the reason.

    Compares the row as it is saved with what is wanted; empty for one that no claim holds.
    """
    line = values.get("line")
    changed = {
        name: name in values and values[name] != getattr(expense, name)
        for name in ("cents", "payee", "day")
    }
    changed["line"] = line is not None and line.category != expense.line.category
    changed["paid_on"] = not expense.in_kind and "paid_on" in values and not values["paid_on"]
    wrong = [name for name, is_so in changed.items() if is_so]
    claims = [claim for claim in claims_of(expense) if claim.state in LOCKING] if wrong else []
    where = claims_named(claims)
    return {
        name: f"It was {was_so(expense, name)} in {where}, and what was filed stays. Correct it in "
        "the next claim, with the reason."
        for name in wrong
        if claims
    }


def was_so(expense: Expense, name: str) -> str:
    if name == "cents":
        return money(expense.cents, expense.project.currency)
    if name == "paid_on":
        return "paid"
    if name == "line":
        return f"“{expense.line.get_category_display()}”"
    return day_year(expense.day) if name == "day" else f"“{expense.payee}”"


def claims_on_line(line: BudgetLine) -> list[Claim]:
    """Claims that tell of its expenses under its category."""
    found = (
        Claim.objects.exclude(state__in=(ClaimState.DRAFT, ClaimState.REFUSED))
        .filter(Q(shares__expense__line=line) | Q(match__expense__line=line))
        .select_related("fund")
    )
    return list(found.distinct())


def asked_of(fund: Fund) -> int:
    """Cents that filed and paid claims ask of it, overhead included."""
    claims = Claim.objects.filter(fund=fund, state__in=LOCKING).prefetch_related("shares")
    return sum(claim.asked_cents for claim in claims)
