"""One claim: its expenses, what is left out and why, its match, its sums."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from budgets import engine
from budgets.engine.claims import Why
from budgets.models import Claim, ClaimKind, ClaimMatch, ClaimShare, ClaimState, Expense, PaperKind
from budgets.selectors.claims.making import Ledger, Made
from budgets.selectors.claims.room import ledger_of
from projects.words import day_year, money

WORDS = {
    Why.NOT_PAID: "It is not paid yet. Log when it was paid, with its proof.",
    Why.LATER: "It was paid after this claim's last day. The next claim takes it.",
}


@dataclass(frozen=True, kw_only=True)
class LeftOut:
    """Cents that are charged to the fund and not in the claim, and what would free them."""

    expense: Expense
    cents: int
    says: str


@dataclass(frozen=True, kw_only=True)
class ClaimSheet:
    claim: Claim
    ledger: Ledger
    shares: list[ClaimShare]
    match: list[ClaimMatch]
    left_out: list[LeftOut]
    bare: list[Expense]  # claimed with a paper missing that audits ask for
    match_needed: int
    cash_needed: int
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
        return max(0, self.match_needed - self.match_found)

    @property
    def cash_short(self) -> int:
        return max(0, self.cash_needed - self.cash_found)

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
    rule = engine.match_of(ledger.books.fund_values[claim.fund_id], ledger.books.project_total)
    asked = claim.asked_cents
    made = ledger.made(claim.to_day, final=claim.is_final, kind=claim.kind)
    return ClaimSheet(
        claim=claim,
        ledger=ledger,
        shares=shares,
        match=match,
        left_out=left_out(ledger, made) if claim.state == ClaimState.DRAFT else [],
        bare=bare(ledger, shares),
        match_needed=engine.match_needed(rule, max(0, asked)),
        cash_needed=engine.cash_needed(rule, max(0, asked)),
        received=sum(row.cents for row in claim.income.all()),
    )


def left_out(ledger: Ledger, made: Made) -> list[LeftOut]:
    """The dearest first."""
    rows = {row.pk: row for row in ledger.books.expenses}
    found = []
    for row, why in made.sorted.left:
        words = WORDS.get(why) or " ".join(ledger.sentences(int(row.key)))
        found.append(LeftOut(expense=rows[int(row.key)], cents=row.cents, says=words))
    return sorted(found, key=lambda row: -row.cents)


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
    if sheet.left <= 0:
        return f"{due} was asked for and has come."
    words = f"{money(sheet.left, currency)} is still to come"
    if claim.expected_on:
        verb = "should have come on" if claim.expected_on < today else "should come on"
        words += f"; it {verb} {day_year(claim.expected_on)}"
    return words + "."
