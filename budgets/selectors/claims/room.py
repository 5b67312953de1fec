"""All funds with their claims: what may be claimed now, what is awaited, paid and held back."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.urls import reverse

from budgets import fit
from budgets.engine.claims import never_paid_back
from budgets.engine.paying import Due, progress_report_due, report_dates
from budgets.fit import Books
from budgets.models import Claim, ClaimKind, ClaimState, Fund
from budgets.selectors.claims.ledger import Ledger, ledgers
from budgets.selectors.claims.making import Made
from budgets.selectors.claims.parts import Part, parts_of, plan_days
from projects.hooks import PlanDays
from projects.models import Project
from projects.words import day as in_words
from projects.words import money, plural


@dataclass(frozen=True, kw_only=True)
class Awaited:
    """A filed claim whose money has not all come."""

    claim: Claim
    left: int
    today: date

    @property
    def late_days(self) -> int:
        due = self.claim.expected_on
        return max(0, (self.today - due).days) if due else 0


@dataclass(frozen=True, kw_only=True)
class FundClaims:
    """One fund on the page, in cents."""

    ledger: Ledger
    now: Made
    awaited: list[Awaited]
    next_claim: date | None
    reports: tuple[Due, ...]
    parts: list[Part]  # of its fee or award, when it is paid by milestones
    today: date

    @property
    def fund(self) -> Fund:
        return self.ledger.fund

    @property
    def is_account(self) -> bool:
        """It has paid already: what is spent is accounted for, not asked."""
        return self.ledger.usual_kind == ClaimKind.REPORT

    @property
    def ready(self) -> int:
        """What a claim made today would take."""
        return max(0, self.now.direct)

    @property
    def opens_on(self) -> date | None:
        """The next day to claim, while it is not yet time; an account is given at any time."""
        return None if self.is_account else self.ledger.opens_on(self.today)

    @property
    def claimable(self) -> int:
        """What may be asked for today and brings money: neither paid ahead, nor too little."""
        if self.is_account or self.now.too_small or self.opens_on:
            return 0
        return max(0, self.now.amounts.asked - self.now.amounts.netted)

    @property
    def smallest(self) -> int:
        return self.ledger.payment.smallest_cents if self.now.too_small else 0

    @property
    def waits(self) -> int:
        return sum(row.cents for row in self.now.left_out)

    @property
    def late(self) -> list[Awaited]:
        return [row for row in self.awaited if row.late_days]

    @property
    def late_parts(self) -> list[Part]:
        return [row for row in self.parts if row.late_days]

    @property
    def lost(self) -> int:
        """Never paid back: its bill was, or will be, paid after the last day."""
        last = self.ledger.last_to_pay
        rows = self.ledger.charged
        if last and last >= self.today:
            rows = tuple(row for row in rows if row.paid)
        return never_paid_back(rows, last)

    @property
    def must_pay(self) -> int:
        """Bills that must be paid by the last day to be paid back at all."""
        last = self.ledger.last_to_pay
        if last is None or last < self.today:
            return 0
        return sum(row.cents for row in self.ledger.charged if row.paid is None)

    @property
    def progress_due(self) -> bool:
        return progress_report_due(self.ledger.value, self.ledger.asked)

    @property
    def next_report(self) -> Due | None:
        return next((due for due in self.reports if due.on >= self.today), None)


@dataclass(frozen=True, kw_only=True)
class ClaimsRoom:
    funds: list[FundClaims]
    sentence: str
    action: str
    url: str


def claims_room(project: Project, today: date, books: Books | None = None) -> ClaimsRoom:
    """In a fixed number of queries, whatever the number of funds and claims."""
    days = plan_days(project, today)
    parts = parts_of(project, days, today)
    funds = [
        fund_claims(row, today, days, parts.get(row.fund.pk, []))
        for row in ledgers(books or fit.read(project))
    ]
    sentence, action, url = what_matters(project, funds)
    return ClaimsRoom(funds=funds, sentence=sentence, action=action, url=url)


def fund_claims(
    ledger: Ledger, today: date, days: PlanDays | None, parts: list[Part]
) -> FundClaims:
    return FundClaims(
        ledger=ledger,
        now=Made(ledger=ledger, through=today, kind=ledger.usual_kind),
        awaited=awaited(ledger.filed, today),
        next_claim=next((day for day in ledger.days if day >= today), None),
        reports=report_dates(ledger.value, public_on=days.public_on if days else None),
        parts=parts,
        today=today,
    )


def awaited(claims: Iterable[Claim], today: date) -> list[Awaited]:
    filed = [row for row in claims if row.state == ClaimState.FILED and row.expected_on]
    rows = [
        Awaited(claim=row, left=row.due_cents - sum(i.cents for i in row.income.all()), today=today)
        for row in filed
    ]
    return [row for row in rows if row.left > 0]


Says = tuple[str, str, str]


def what_matters(project: Project, funds: list[FundClaims]) -> Says:
    """What matters now, and the one next action with its address."""
    for says in (late, prepared, owed, may_ask):
        if found := says(project, funds):
            return found
    return says_nothing(project, funds)


def late(project: Project, funds: list[FundClaims]) -> Says | None:
    """Money that should have come; the longest ago first."""
    currency = project.currency
    claims = [(one.late_days, row, one.left, one.claim) for row in funds for one in row.late]
    parts = [(one.late_days, row, one.left, None) for row in funds for one in row.late_parts]
    if not (rows := sorted([*claims, *parts], key=lambda row: -row[0])):
        return None
    days, row, left, claim = rows[0]
    says = f"{money(left, currency)} of {row.fund.name} is {plural(days, 'day')} late."
    if claim:
        return says, "Look at the claim", claim_url(project, claim)
    return says, "Look at the fund", reverse("budgets:fund", args=[project.pk, row.fund.pk])


def prepared(project: Project, funds: list[FundClaims]) -> Says | None:
    for row in funds:
        if draft := row.ledger.draft:
            says = f"Claim {draft.number} on {row.fund.name} is prepared and not filed."
            return says, "Look at it and file it", claim_url(project, draft)
    return None


def owed(project: Project, funds: list[FundClaims]) -> Says | None:
    """What goes back to a fund, the most first."""
    row = max(funds, key=lambda row: row.ledger.to_pay_back, default=None)
    if row is None or not row.ledger.to_pay_back:
        return None
    amount = money(row.ledger.to_pay_back, project.currency)
    url = reverse("budgets:income-back", args=[project.pk, row.fund.pk])
    return f"{amount} is owed back to {row.fund.name}.", "Log that it is paid back", url


def may_ask(project: Project, funds: list[FundClaims]) -> Says | None:
    currency = project.currency
    for row in funds:
        for part in row.parts:
            if part.may_be_asked:
                says = f"“{part.row.title}” is done: {money(part.left, currency)} may be invoiced."
                url = reverse("budgets:milestone-invoice", args=[project.pk, part.row.pk])
                return says, "Note the invoice", url
    ready = sorted((row for row in funds if row.claimable), key=lambda row: -row.claimable)
    if not ready:
        return None
    total = money(sum(row.claimable for row in ready), currency)
    first, most = ready[0], money(ready[0].claimable, currency)
    says = f"{total} can be claimed now"
    says += f", {most} of it from {first.fund.name}." if ready[1:] else f" from {first.fund.name}."
    url = reverse("budgets:claim-add", args=[project.pk, first.fund.pk])
    return says, "Prepare this claim", url


def says_nothing(project: Project, funds: list[FundClaims]) -> Says:
    waiting = [one for row in funds for one in row.awaited]
    if waiting:
        total = money(sum(one.left for one in waiting), project.currency)
        first = min(one.claim.expected_on for one in waiting if one.claim.expected_on)
        return f"{total} is awaited, the first on {in_words(first)}.", "", ""
    if not funds:
        url = reverse("budgets:fund-add", args=[project.pk])
        return "No fund from outside is signed yet.", "Add a fund", url
    coming = [(row.opens_on, row.ready, row) for row in funds if row.opens_on and row.ready]
    if coming:
        on, cents, row = min(coming, key=lambda found: found[0])
        says = f"{money(cents, project.currency)} of {row.fund.name} can on {in_words(on)}."
        return f"Nothing can be claimed now; {says}", "", ""
    url = reverse("budgets:best", args=[project.pk])
    return "Nothing can be claimed now.", "See who should pay what", url


def claim_url(project: Project, claim: Claim) -> str:
    return reverse("budgets:claim", args=[project.pk, claim.pk])
