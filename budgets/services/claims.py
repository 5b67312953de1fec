"""Make, file, send back and pay claims; what is filed is held until a later claim corrects it."""

from __future__ import annotations

from datetime import date, timedelta

from django.db import transaction
from django.db.models import Q

from budgets.models import Claim, ClaimKind, ClaimMatch, ClaimShare, ClaimState, Fund, Share
from budgets.selectors.claims.ledger import Ledger, ledger_of
from budgets.selectors.claims.making import Made
from budgets.services.claim_checks import Refused, refuse_wrong
from budgets.services.lines import Who, say
from projects.models import Project
from projects.words import day_year, money


@transaction.atomic
def prepare_claim(*, fund: Fund, through: date, final: bool, kind: str, user: Who) -> Claim:
    """A draft with all that may be asked for up to a day. Raises Refused."""
    Project.objects.select_for_update().get(pk=fund.project_id)
    ledger = ledger_of(fund)
    if not ledger.may_be_asked:
        raise Refused(f"{fund.name} is not a signed fund from outside: it is asked for nothing.")
    if ledger.draft:
        raise Refused(
            f"Claim {ledger.draft.number} on {fund.name} is being prepared. File it first."
        )
    made = Made(ledger=ledger, through=through, final=final, kind=kind)
    refuse_wrong(made)
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
            ClaimMatch(
                claim=claim,
                expense_id=row.expense_id,
                payer_id=row.payer_id,
                cents=row.cents,
                reason=row.reason,
            )
            for row in made.match
        ]
    )


def asked(claim: Claim, made: Made) -> str:
    return money(made.amounts.asked, claim.fund.project.currency)


def named(claim: Claim) -> str:
    what = "report" if claim.kind == ClaimKind.REPORT else "claim"
    return f"{what} {claim.number} on {claim.fund.name}"


def made_of(claim: Claim, ledger: Ledger | None = None) -> Made:
    """A draft as the books stand now."""
    return Made(
        ledger=ledger or ledger_of(claim.fund),
        through=claim.to_day,
        final=claim.is_final,
        kind=claim.kind,
    )


@transaction.atomic
def change_claim(*, claim: Claim, through: date, final: bool, kind: str, user: Who) -> None:
    """Another last day or another kind, and all of it anew. Raises Refused."""
    draft_only(claim)
    made = Made(ledger=ledger_of(claim.fund), through=through, final=final, kind=kind)
    refuse_wrong(made)
    claim.to_day, claim.is_final, claim.kind = through, final, kind
    fill(claim, made)
    says = f"Changed {named(claim)}: {asked(claim, made)} asked for."
    say(claim.fund.project, user, says)


@transaction.atomic
def refresh_claim(*, claim: Claim, user: Who) -> None:
    """The draft anew from the books as they stand."""
    draft_only(claim)
    fill(claim, made_of(claim))
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
    made = made_of(claim, ledger)
    if filed_on < claim.to_day:
        raise Refused(
            f"It takes what is paid until {day_year(claim.to_day)}, and cannot have been filed "
            "before. Choose that day or later.",
            "filed_on",
        )
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
    match = [(row.expense_id, row.payer_id, row.cents) for row in made.match]
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
