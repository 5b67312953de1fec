"""All funds with their claims: what may be claimed now, what is awaited, paid and held back."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.db.models import Prefetch
from django.urls import reverse

from budgets import fit
from budgets.engine.claims import Why
from budgets.engine.paying import Due, claim_days, report_dates
from budgets.fit import Books
from budgets.models import Claim, ClaimShare, ClaimState, Fund, FundKind, FundStatus, Income
from budgets.selectors.claims.making import Ledger, Made
from projects.hooks import Level
from projects.models import Project
from projects.words import day as in_words
from projects.words import money, plural
from schedules import plan
from schedules.engine import ScheduleError

OURS = (FundKind.OWN, FundKind.IN_KIND)
LIVE = (FundStatus.SIGNED, FundStatus.CLOSED)
SOON = 14  # days before a claim or a report that it needs a look


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
    today: date

    @property
    def fund(self) -> Fund:
        return self.ledger.fund

    @property
    def claimable(self) -> int:
        return self.now.sorted.cents

    @property
    def waits(self) -> list[tuple[str, int]]:
        """What is charged and cannot be claimed yet, with what would free it."""
        words = {
            Why.NOT_PAID: "not paid yet",
            Why.BARRED: "barred by a rule",
            Why.LATER: "paid after today",
        }
        found = [(words[why], self.now.worth(why)) for why in Why]
        return [(word, cents) for word, cents in found if cents]

    @property
    def late(self) -> list[Awaited]:
        return [row for row in self.awaited if row.late_days]

    @property
    def level(self) -> Level:
        if self.late:
            return Level.BROKEN
        ahead = [due.on for due in self.reports] + [self.next_claim]
        near = any(on and 0 <= (on - self.today).days <= SOON for on in ahead)
        return Level.NEAR if near else Level.PLAIN

    @property
    def next_report(self) -> Due | None:
        return next((due for due in self.reports if due.on >= self.today), None)


@dataclass(frozen=True, kw_only=True)
class ClaimsRoom:
    funds: list[FundClaims]
    sentence: str
    action: str
    url: str


def ledger_of(fund: Fund) -> Ledger:
    books = fit.read(fund.project)
    return next(row for row in ledgers(books) if row.fund.pk == fund.pk)


def ledgers(books: Books) -> list[Ledger]:
    """One for each fund from outside; two queries and those of the claims' shares."""
    shares = Prefetch("shares", ClaimShare.objects.select_related("expense"))
    claims = Claim.objects.filter(fund__project=books.project).select_related("fund__project")
    rows = list(claims.prefetch_related(shares, "income"))
    income = list(Income.objects.filter(fund__project=books.project).select_related("claim"))
    return [
        Ledger(
            books=books,
            fund=fund,
            claims=tuple(row for row in rows if row.fund_id == fund.pk),
            income=tuple(row for row in income if row.fund_id == fund.pk),
        )
        for fund in books.funds
        if fund.kind not in OURS and fund.status in LIVE
    ]


def claims_room(project: Project, today: date) -> ClaimsRoom:
    public = public_day(project, today)
    funds = [fund_claims(row, today, public) for row in ledgers(fit.read(project))]
    sentence, action, url = what_matters(project, funds)
    return ClaimsRoom(funds=funds, sentence=sentence, action=action, url=url)


def public_day(project: Project, today: date) -> date | None:
    try:
        return plan.look(project, today).days.public_on
    except ScheduleError:
        return None


def fund_claims(ledger: Ledger, today: date, public: date | None) -> FundClaims:
    value = ledger.books.fund_values[ledger.fund.pk]
    return FundClaims(
        ledger=ledger,
        now=ledger.made(today),
        awaited=awaited(ledger.filed, today),
        next_claim=next_claim(ledger, today),
        reports=report_dates(value, public_on=public),
        today=today,
    )


def awaited(claims: Iterable[Claim], today: date) -> list[Awaited]:
    filed = [row for row in claims if row.state == ClaimState.FILED and row.expected_on]
    rows = [
        Awaited(claim=row, left=row.due_cents - sum(i.cents for i in row.income.all()), today=today)
        for row in filed
    ]
    return [row for row in rows if row.left > 0]


def next_claim(ledger: Ledger, today: date) -> date | None:
    fund = ledger.fund
    if not fund.period_start or not fund.period_end:
        return None
    days = claim_days(ledger.payment, fund.period_start, fund.period_end)
    return next((day for day in days if day >= today), None)


def what_matters(project: Project, funds: list[FundClaims]) -> tuple[str, str, str]:
    """What matters now, and the one next action with its address."""
    currency = project.currency
    late = [(row, one) for row in funds for one in row.late]
    drafts = [row.ledger.draft for row in funds if row.ledger.draft]
    ready = sorted((row for row in funds if row.claimable), key=lambda row: -row.claimable)
    if late:
        row, one = late[0]
        days = plural(one.late_days, "day")
        says = f"{money(one.left, currency)} of {row.fund.name} is {days} late."
        return says, "Look at the claim", claim_url(project, one.claim)
    if drafts:
        says = f"Claim {drafts[0].number} on {drafts[0].fund.name} is prepared and not filed."
        return says, "Look at it and file it", claim_url(project, drafts[0])
    if ready:
        total = money(sum(row.claimable for row in ready), currency)
        row, most = ready[0], money(ready[0].claimable, currency)
        says = f"{total} can be claimed now, {most} of it from {row.fund.name}."
        url = reverse("budgets:claim-add", args=[project.pk, row.fund.pk])
        return says, "Prepare this claim", url
    return says_nothing(project, funds)


def says_nothing(project: Project, funds: list[FundClaims]) -> tuple[str, str, str]:
    waiting = [one for row in funds for one in row.awaited]
    if waiting:
        total = money(sum(one.left for one in waiting), project.currency)
        first = min(one.claim.expected_on for one in waiting if one.claim.expected_on)
        return f"{total} is awaited, the first on {in_words(first)}.", "", ""
    if not funds:
        url = reverse("budgets:fund-add", args=[project.pk])
        return "No fund from outside is signed yet.", "Add a fund", url
    url = reverse("budgets:best", args=[project.pk])
    return "Nothing can be claimed now.", "See who should pay what", url


def claim_url(project: Project, claim: Claim) -> str:
    return reverse("budgets:claim", args=[project.pk, claim.pk])
