"""What filed and paid claims hold fast: cents of expenses charged or counted as match."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from django.db.models import QuerySet, Sum

from budgets.models import LOCKING, Claim, ClaimMatch, ClaimShare
from projects.models import Project


@dataclass(frozen=True)
class Locks:
    """In cents. `shares` by (expense, fund); `match` by (expense, fund, payer or none).

    `indirect` is overhead that was claimed, by fund.
    """

    shares: dict[tuple[int, int], int] = field(default_factory=dict)
    match: dict[tuple[int, int, int | None], int] = field(default_factory=dict)
    indirect: dict[int, int] = field(default_factory=dict)


def read_locks(project: Project) -> Locks:
    """Three queries; a correction is below zero and frees what it takes back."""
    shares = ClaimShare.objects.filter(expense__project=project, claim__state__in=LOCKING)
    match = ClaimMatch.objects.filter(expense__project=project, claim__state__in=LOCKING)
    claims = Claim.objects.filter(fund__project=project, state__in=LOCKING).order_by()
    return Locks(
        shares={(e, f): cents for e, f, cents in summed(shares, "expense", "claim__fund")},
        match={
            (e, f, p): cents for e, f, p, cents in summed(match, "expense", "claim__fund", "payer")
        },
        indirect=dict(claims.values_list("fund").annotate(total=Sum("indirect_cents"))),
    )


def summed(rows: QuerySet[Any], *by: str) -> list[tuple[Any, ...]]:
    found = rows.order_by().values_list(*by).annotate(total=Sum("cents"))
    return [row for row in found if row[-1]]
