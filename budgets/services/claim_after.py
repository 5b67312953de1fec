"""What becomes of a filed claim: it comes back, its money comes, a later one corrects it."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from budgets.models import Claim, ClaimShare, ClaimState, Income, Share
from budgets.selectors.claims.ledger import ledger_of
from budgets.services.claim_checks import Refused
from budgets.services.claims import fill, made_of, named
from budgets.services.lines import Who, say
from projects.words import day_year, money


@transaction.atomic
def send_back(*, claim: Claim, reason: str, user: Who) -> None:
    """The funder did not take it: nothing of it is held any more."""
    if claim.state != ClaimState.FILED or claim.income.exists():
        raise Refused("Only a claim that is filed and has brought no money can be sent back.")
    later = Claim.objects.filter(fund=claim.fund, number__gt=claim.number)
    if later.exclude(state=ClaimState.REFUSED).exists():
        raise Refused("A later claim builds on it. Correct it in the next claim instead.")
    claim.state = ClaimState.REFUSED
    claim.note = "\n".join(filter(None, (claim.note, f"Sent back: {reason}")))
    claim.save(update_fields=["state", "note"])
    raise_again(claim)
    say(claim.fund.project, user, f"{named(claim).capitalize()} was sent back: {reason}")


@transaction.atomic
def pay_claim(*, claim: Claim, day: date, cents: int, what: str, user: Who) -> Income:
    """Money that came for it, perhaps in parts. Raises Refused for more than is due."""
    claim = Claim.objects.select_for_update().get(pk=claim.pk)
    left = claim.due_cents - sum(row.cents for row in claim.income.all())
    if claim.state not in (ClaimState.FILED, ClaimState.PAID):
        raise Refused("Money comes for a claim once it is filed.")
    if claim.filed_on and day < claim.filed_on:
        raise Refused(
            f"It was filed on {day_year(claim.filed_on)}. Money that came before was paid ahead: "
            "log it as money of the fund.",
            "day",
        )
    if cents > left:
        currency = claim.fund.project.currency
        raise Refused(
            f"{money(max(0, left), currency)} is still due on this claim. Log what came beyond it "
            "as money of the fund, not of the claim.",
            "cents",
        )
    made = Income.objects.create(fund=claim.fund, claim=claim, day=day, cents=cents, what=what)
    if cents == left:
        claim.state = ClaimState.PAID
        claim.save(update_fields=["state"])
    amount = money(cents, claim.fund.project.currency)
    say(claim.fund.project, user, f"{amount} came for {named(claim)} on {day_year(day)}.")
    return made


@transaction.atomic
def correct_share(*, row: ClaimShare, cents: int, reason: str, today: date, user: Who) -> Claim:
    """Take cents of an expense back out of an earlier claim: an entry of the next one."""
    fund = row.claim.fund
    ledger = ledger_of(fund)
    held = ledger.books.locked.get((row.expense_id, fund.pk), 0)
    if cents > held:
        amount = money(held, fund.project.currency)
        raise Refused(
            f"{amount} of this expense stands in claims. Take back that much at most.", "cents"
        )
    draft = ledger.draft or Claim.objects.create(
        fund=fund, number=ledger.number, to_day=max(today, ledger.through or today)
    )
    ClaimShare.objects.create(
        claim=draft, expense=row.expense, cents=-cents, corrects=row, reason=reason
    )
    fill(draft, made_of(draft))
    amount = money(cents, fund.project.currency)
    say(fund.project, user, f"{named(draft).capitalize()} takes {amount} back: {reason}")
    return draft


def raise_again(claim: Claim) -> None:
    """What was taken back by hand in a claim that came back is charged again."""
    for row in claim.shares.filter(cents__lt=0, credit=None):
        share, _ = Share.objects.get_or_create(
            expense=row.expense, fund=claim.fund, defaults={"cents": 0}
        )
        share.cents -= row.cents
        share.save(update_fields=["cents"])
