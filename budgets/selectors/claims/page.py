"""One claim: its expenses, what is left out and why, its match, its sums."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from budgets import engine
from budgets.models import Claim, ClaimKind, ClaimMatch, ClaimShare, ClaimState, Expense, PaperKind
from budgets.selectors.claims.ledger import Ledger, ledger_of
from budgets.selectors.claims.making import LeftOut, Made
from projects.words import day_year, money


@dataclass(frozen=True, kw_only=True)
class ClaimSheet:
    claim: Claim
    ledger: Ledger
    shares: list[ClaimShare]
    match: list[ClaimMatch]
    left_out: list[LeftOut]
    bare: list[Expense]  # claimed with a paper missing that audits ask for
    match_needed: int  # of all that was asked up to this claim, less what came off again
    cash_needed: int
    match_before: int  # reported with the claims before it
    cash_before: int
    received: int

    @property
    def left(self) -> int:
        return self.claim.due_cents - self.received

    @property
    def match_found(self) -> int:
        return sum(row.cents for row in self.match)

    @property
    def cash_found(self) -> int:
        return sum(row.cents for row in self.match if not row.expense.in_kind)

    @property
    def short(self) -> int:
        return max(0, self.match_needed - self.match_before - self.match_found)

    @property
    def cash_short(self) -> int:
        return max(0, self.cash_needed - self.cash_before - self.cash_found)

    @property
    def is_draft(self) -> bool:
        return self.claim.state == ClaimState.DRAFT

    @property
    def is_report(self) -> bool:
        return self.claim.kind == ClaimKind.REPORT


def claim_sheet(claim: Claim) -> ClaimSheet:
    ledger = ledger_of(claim.fund)
    shares = list(claim.shares.select_related("expense__line", "corrects__claim", "credit"))
    match = list(claim.match.select_related("expense__line", "payer"))
    before = [row for row in ledger.filed if row.number < claim.number]
    told = list(ClaimMatch.objects.filter(claim__in=before).select_related("expense"))
    rule = engine.match_of(ledger.value, ledger.books.project_total)
    asked = max(0, claim.asked_cents + sum(row.asked_cents for row in before))
    is_draft = claim.state == ClaimState.DRAFT
    made = Made(ledger=ledger, through=claim.to_day, final=claim.is_final, kind=claim.kind)
    return ClaimSheet(
        claim=claim,
        ledger=ledger,
        shares=shares,
        match=match,
        left_out=made.left_out if is_draft else [],
        bare=bare(ledger, shares),
        match_needed=engine.match_needed(rule, asked),
        cash_needed=engine.cash_needed(rule, asked),
        match_before=sum(row.cents for row in told),
        cash_before=sum(row.cents for row in told if not row.expense.in_kind),
        received=sum(row.cents for row in claim.income.all()),
    )


def bare(ledger: Ledger, shares: list[ClaimShare]) -> list[Expense]:
    """Expenses without both papers that funders ask for: one of the payee, one of the payment."""
    wanted = {PaperKind.RECEIPT, PaperKind.PAYMENT}
    found = []
    for row in shares:
        kinds = {paper.kind for paper in ledger.books.papers_of.get(row.expense_id, [])}
        if row.cents > 0 and wanted - kinds:
            found.append(row.expense)
    return found


def sentence(sheet: ClaimSheet, today: date) -> str:
    """What matters about this claim now."""
    claim, currency = sheet.claim, sheet.claim.fund.project.currency
    due = money(claim.due_cents, currency)
    if sheet.is_draft:
        words = f"Asks {claim.fund.name} for {money(claim.asked_cents, currency)}"
        return f"{words}, of which {due} should come; it is not filed yet."
    if claim.state == ClaimState.REFUSED:
        return "It was sent back: nothing of it is held, and the next claim takes it again."
    if sheet.is_report:
        return f"Accounts for {money(claim.asked_cents, currency)} that was paid ahead."
    if claim.due_cents < 0:
        back = money(-claim.due_cents, currency)
        return f"It gives {back} back: the next claim asks for that much less."
    if sheet.left <= 0:
        return f"{due} was asked for and has come."
    words = f"{money(sheet.left, currency)} is still to come"
    if claim.expected_on:
        verb = "should have come on" if claim.expected_on < today else "should come on"
        words += f"; it {verb} {day_year(claim.expected_on)}"
    return words + "."
