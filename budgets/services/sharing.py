"""Write who pays which cents of an expense, and what they count for as match."""

from __future__ import annotations

from collections.abc import Mapping

from django.db import transaction

from budgets.fit import read
from budgets.fit.assignment import Paid
from budgets.fit.sharing import Wanted, sharing, wanted
from budgets.models import Counted, Expense, Fund, Share
from budgets.services.expenses import named
from budgets.services.lines import Who, say
from projects.models import Project
from projects.words import listed, money


class Barred(Exception):
    """Rules of funds bar what was asked for; `wanted` says which, by fund."""

    def __init__(self, wanted: Wanted) -> None:
        super().__init__(wanted)
        self.wanted = wanted


class Overtaken(Exception):
    """Somebody changed who pays the expense since it was opened."""


@transaction.atomic
def save_shares(
    *,
    expense: Expense,
    shares: Mapping[int, int],
    match: Mapping[int, int] | None,
    user: Who,
    was: Paid | None = None,
) -> None:
    """Cents by fund, and by award what is to count as match (None: as it is).

    `was` is what was seen. Raises Overtaken, or Barred for any refusal, and then writes nothing.
    """
    Project.objects.select_for_update().get(pk=expense.project_id)
    books = read(expense.project)  # inside the transaction: nobody spends the same cents meanwhile
    if was is not None and was.kept() != sharing(books, expense).now.kept():
        raise Overtaken
    found = wanted(books, expense, shares, match)
    if not found.may_be:
        raise Barred(found)
    write({expense.pk: found.paid})
    say(expense.project, user, f"{named(expense)}: {told(found.paid, books.funds, expense)}.")


def write(paid: Mapping[int, Paid]) -> None:
    """Make who pays each expense, and what it counts for, as given."""
    Share.objects.filter(expense__in=paid).delete()
    Counted.objects.filter(expense__in=paid).delete()
    Share.objects.bulk_create(
        Share(expense_id=pk, fund_id=fund, cents=cents)
        for pk, one in paid.items()
        for fund, cents in one.shares.items()
    )
    Counted.objects.bulk_create(
        Counted(expense_id=pk, fund_id=fund, payer_id=payer, cents=cents)
        for pk, one in paid.items()
        for (fund, payer), cents in one.counted.items()
    )


def told(paid: Paid, funds: tuple[Fund, ...], expense: Expense) -> str:
    currency, match = expense.project.currency, dict[int, int]()
    for (award, _), cents in paid.counted.items():
        match[award] = match.get(award, 0) + cents
    parts = [
        f"{money(paid.shares[fund.pk], currency)} from {fund.name}"
        for fund in funds
        if fund.pk in paid.shares
    ]
    counts = [f"{money(match[f.pk], currency)} for {f.name}" for f in funds if f.pk in match]
    who = "paid " + listed(parts) if parts else "no fund pays it now"
    return f"{who}; counts as match, {listed(counts)}" if counts else who
