"""Money that came back: it lowers the expense, and who pays it, to the cent."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db import transaction

from budgets.engine import largest_remainder
from budgets.models import Credit, Expense, PaperKind, Share
from budgets.services.expenses import named, next_version, store_paper
from budgets.services.lines import Who, say
from projects.files import Clean
from projects.words import listed, money


@transaction.atomic
def add_credit(
    *, expense: Expense, values: Mapping[str, Any], paper: Clean | None, user: Who
) -> Credit:
    """What each fund pays falls by its part of it, largest remainder over what was charged.

    Source: 2 CFR 200.406. Cents that a filed claim holds are lowered too; the next claim of that
    fund then takes the difference back.
    """
    next_version(expense)
    slip = store_paper(expense, paper, PaperKind.CREDIT) if paper else None
    net = expense.cents - sum(credit.cents for credit in expense.credits.all())
    made = Credit.objects.create(expense=expense, paper=slip, **values)
    lowered = lower_shares(expense, net, made.cents)
    lower_match(expense)
    amount = money(made.cents, expense.project.currency)
    tail = f": {lowered}" if lowered else ""
    say(expense.project, user, f"{amount} came back of {named(expense)} ({made.what}){tail}.")
    return made


def lower_shares(expense: Expense, net: int, back: int) -> str:
    """Take each payer's part of what came back off its share; the sentence that says so."""
    shares = list(expense.shares.select_related("fund"))
    rest = net - sum(share.cents for share in shares)
    parts = largest_remainder(back, [*(share.cents for share in shares), max(rest, 0)])
    said = []
    for share, part in zip(shares, parts, strict=False):
        if part:
            write_share(share, share.cents - part)
            said.append(f"{money(part, expense.project.currency)} less from {share.fund.name}")
    return listed(said)


def write_share(share: Share, cents: int) -> None:
    if cents > 0:
        share.cents = cents
        share.save(update_fields=["cents"])
    else:
        share.delete()


def lower_match(expense: Expense) -> None:
    """What counts as match never exceeds what its payer still pays."""
    paid = {share.fund_id: share.cents for share in expense.shares.all()}
    back = sum(credit.cents for credit in expense.credits.all())
    own = max(0, expense.cents - back - sum(paid.values()))
    for row in expense.counted.all():
        most = paid.get(row.payer_id, 0) if row.payer_id else own
        if row.cents > most:
            row.cents = most
            if most:
                row.save(update_fields=["cents"])
            else:
                row.delete()


@transaction.atomic
def delete_credit(*, credit: Credit, user: Who) -> None:
    """Nobody's share grows again by itself: who pays what came free is chosen anew."""
    expense = credit.expense
    next_version(expense)
    amount = money(credit.cents, expense.project.currency)
    say(expense.project, user, f"Took out the {amount} that came back of {named(expense)}.")
    credit.delete()
