"""Make, file, send back and pay claims; what is filed is held until a later claim corrects it."""

from __future__ import annotations

from datetime import date, timedelta

from django.db import transaction
from django.db.models import Q

from budgets.models import Claim, ClaimKind, ClaimMatch, ClaimShare, ClaimState, Fund, Income, Share
from budgets.selectors.claims.making import Made
from budgets.selectors.claims.room import ledger_of
from budgets.services.lines import Who, say
from projects.models import Project
from projects.words import day_year, money


class Refused(Exception):
    """What cannot be done; `field` is the one beside which the sentence stands."""

    def __init__(self, sentence: str, field: str | None = None) -> None:
        super().__init__(sentence)
        self.sentence, self.field = sentence, field


@transaction.atomic
def prepare_claim(
    *, fund: Fund, through: date, final: bool, kind: str, today: date, user: Who
) -> Claim:
    """A draft with all that may be asked for up to a day. Raises Refused."""
    Project.objects.select_for_update().get(pk=fund.project_id)
    ledger = ledger_of(fund)
    if ledger.draft:
        raise Refused(
            f"Claim {ledger.draft.number} on {fund.name} is being prepared. File it first."
        )
    if ledger.through and through < ledger.through:
        raise Refused(
            f"The last claim goes up to {day_year(ledger.through)}. Choose that day or later.",
            "to_day",
        )
    made = ledger.made(through, final=final, kind=kind)
    if made.is_empty:
        raise Refused(nothing_in(made), "to_day")
    claim = Claim(
        fund=fund,
        kind=kind,
        number=ledger.number,
        from_day=ledger.through + timedelta(1) if ledger.through else fund.period_start,
        to_day=through,
        is_final=final,
    )
    fill(claim, made)
    say(fund.project, user, f"Prepared {named(claim)}: {asked(claim, made)} asked for.")
    return claim


def nothing_in(made: Made) -> str:
    left = sum(row.cents for row, _ in made.sorted.left)
    currency = made.ledger.fund.project.currency
    words = "Nothing that is charged to this fund is paid by that day and in no claim yet."
    if left:
        words += f" {money(left, currency)} waits: it is not paid by then, or a rule bars it."
    return words


def fill(claim: Claim, made: Made) -> None:
    """The amounts and rows of a draft, in the place of those it had."""
    found = made.amounts
    claim.indirect_cents, claim.held_back_cents = found.indirect, found.held
    claim.netted_cents, claim.released_cents = found.netted, found.released
    claim.save()
    claim.shares.filter(Q(corrects=None) | Q(credit__isnull=False)).delete()
    claim.match.all().delete()
    ClaimShare.objects.bulk_create(
        [ClaimShare(claim=claim, expense_id=int(r.key), cents=r.cents) for r in made.sorted.taken]
        + [
            ClaimShare(
                claim=claim,
                expense=row.expense,
                cents=row.cents,
                credit=row.credit,
                corrects=ClaimShare.objects.filter(
                    claim__fund=claim.fund, expense=row.expense, cents__gt=0
                ).last(),
                reason=row.reason,
            )
            for row in made.corrections
        ]
    )
    ClaimMatch.objects.bulk_create(
        [
            ClaimMatch(claim=claim, expense_id=row.expense_id, payer_id=row.payer_id, cents=cents)
            for row, cents in made.match
        ]
    )


def asked(claim: Claim, made: Made) -> str:
    return money(made.amounts.asked, claim.fund.project.currency)


def named(claim: Claim) -> str:
    what = "report" if claim.kind == ClaimKind.REPORT else "claim"
    return f"{what} {claim.number} on {claim.fund.name}"


@transaction.atomic
def refresh_claim(*, claim: Claim, user: Who) -> None:
    """The draft anew from the books as they stand."""
    draft_only(claim)
    fill(claim, ledger_of(claim.fund).made(claim.to_day, final=claim.is_final, kind=claim.kind))
    say(claim.fund.project, user, f"Took {named(claim)} anew from the books.")


@transaction.atomic
def file_claim(
    *, claim: Claim, filed_on: date, expected_on: date | None, note: str, user: Who
) -> None:
    """From now on its shares are held. Raises Refused when the books have moved since."""
    Project.objects.select_for_update().get(pk=claim.fund.project_id)
    claim.refresh_from_db()
    draft_only(claim)
    ledger = ledger_of(claim.fund)
    made = ledger.made(claim.to_day, final=claim.is_final, kind=claim.kind)
    if stored(claim) != fresh(made):
        raise Refused(
            "The books have changed since this claim was prepared. Take it anew from the books, "
            "look at it, and file it then."
        )
    claim.state, claim.filed_on, claim.note = ClaimState.FILED, filed_on, note
    claim.expected_on = expected_on or filed_on + timedelta(ledger.payment.lag_days)
    if claim.kind == ClaimKind.REPORT:
        claim.expected_on = None
    claim.save()
    lower_refunded(claim)
    total = money(made.amounts.asked, claim.fund.project.currency)
    say(claim.fund.project, user, f"Filed {named(claim)} for {total} on {day_year(filed_on)}.")


def stored(claim: Claim) -> tuple[object, ...]:
    by_hand = Q(corrects__isnull=False, credit=None)
    rows = claim.shares.exclude(by_hand).values_list("expense_id", "credit_id", "cents")
    shares = sorted(rows, key=str)
    match = sorted(claim.match.values_list("expense_id", "payer_id", "cents"), key=str)
    sums = (claim.indirect_cents, claim.held_back_cents, claim.netted_cents, claim.released_cents)
    return shares, match, sums


def fresh(made: Made) -> tuple[object, ...]:
    found = made.amounts
    shares: list[tuple[int, int | None, int]]
    shares = [(int(row.key), None, row.cents) for row in made.sorted.taken]
    shares += [(row.expense.pk, row.credit.pk, row.cents) for row in made.corrections]
    match = [(row.expense_id, row.payer_id, cents) for row, cents in made.match]
    sums = (found.indirect, found.held, found.netted, found.released)
    return sorted(shares, key=str), sorted(match, key=str), sums


def lower_refunded(claim: Claim) -> None:
    """What somebody takes back by hand is no longer charged; a refund lowered it already."""
    for row in claim.shares.filter(cents__lt=0, credit=None):
        share = Share.objects.filter(expense=row.expense, fund=claim.fund).first()
        if share is None:
            continue
        share.cents = max(0, share.cents + row.cents)
        if share.cents:
            share.save(update_fields=["cents"])
        else:
            share.delete()


def raise_again(claim: Claim) -> None:
    """What was taken back by hand in a claim that came back is charged again."""
    for row in claim.shares.filter(cents__lt=0, credit=None):
        share, _ = Share.objects.get_or_create(expense=row.expense, fund=claim.fund)
        share.cents -= row.cents
        share.save(update_fields=["cents"])


def draft_only(claim: Claim) -> None:
    if claim.state != ClaimState.DRAFT:
        raise Refused(
            f"{named(claim).capitalize()} is {claim.get_state_display().lower()}. What was filed "
            "stays; correct it in the next claim."
        )


@transaction.atomic
def delete_claim(*, claim: Claim, user: Who) -> None:
    draft_only(claim)
    say(claim.fund.project, user, f"Dropped {named(claim)}, which was being prepared.")
    claim.delete()


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
    fill(draft, ledger_of(fund).made(draft.to_day, final=draft.is_final, kind=draft.kind))
    amount = money(cents, fund.project.currency)
    say(fund.project, user, f"{named(draft).capitalize()} takes {amount} back: {reason}")
    return draft
