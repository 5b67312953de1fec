"""A claim as a report: its sums, what it charges with the page of each paper, its match."""

from __future__ import annotations

from collections.abc import Iterator

from budgets.engine.categories import label
from budgets.models import Claim, ClaimMatch, ClaimShare, Paper
from budgets.selectors.appendix import Appendix, appendix_of
from budgets.selectors.claims.page import ClaimSheet, claim_sheet
from budgets.selectors.reports.table import Column, Finding, Kind, Report, Row, Table
from projects.words import day_year, money, plural

SPENT = (
    Column("Payee"),
    Column("What for"),
    Column("Document no."),
    Column("Payment no."),
    Column("Paid on", Kind.DAY),
    Column("Amount", Kind.MONEY),
    Column("Charged here", Kind.MONEY),
    Column("Papers", Kind.PAPERS),
)
MATCH = (
    Column("Who paid or gave"),
    Column("Payee"),
    Column("Category"),
    Column("Day", Kind.DAY),
    Column("Cash or in kind"),
    Column("How valued"),
    Column("Counted", Kind.MONEY),
)
SUMS = (Column("What"), Column("Amount", Kind.MONEY))


def claim_report(claim: Claim, *, draw: bool = False) -> Report:
    sheet = claim_sheet(claim)
    bound = bound_papers(sheet, draw=draw)
    currency = claim.fund.project.currency
    what = "Account of money paid" if sheet.is_report else "Request for payment"
    return Report(
        key="claim",
        title=f"{what} no. {claim.number}",
        sentence=f"{plural(len(sheet.shares), 'entry', 'entries')} up to "
        f"{day_year(claim.to_day)}; {money(claim.asked_cents, currency)} in all.",
        through=claim.to_day,
        facts=tuple(facts(claim)),
        tables=(sums(sheet), spent(sheet, bound), matched(sheet)),
        findings=tuple(findings(sheet, currency)) if sheet.is_draft else (),
        wide=True,
        appendix=bound,
    )


def facts(claim: Claim) -> Iterator[tuple[str, str]]:
    fund = claim.fund
    yield "From", fund.name
    if fund.number:
        yield "Award", fund.number
    first = f"{day_year(claim.from_day)} to " if claim.from_day else "up to "
    yield "Period", f"{first}{day_year(claim.to_day)}"
    filed = f", filed {day_year(claim.filed_on)}" if claim.filed_on else ""
    yield "State", f"{claim.get_state_display()}{filed}"


def sums(sheet: ClaimSheet) -> Table:
    claim = sheet.claim
    direct = sum(row.cents for row in sheet.shares)
    rows = [
        ("Charged to the fund", direct),
        ("Overhead at the fund's rate", claim.indirect_cents),
        ("Paid ahead, accounted for here", -claim.netted_cents),
        ("Held back until the final report", -claim.held_back_cents),
        ("Held back before, due now", claim.released_cents),
    ]
    shown = tuple(Row((words, cents)) for words, cents in rows if cents)
    total = Row(("Due", claim.due_cents), is_sum=True)
    return Table(key="sums", heading="Amounts", columns=SUMS, rows=shown, total=total)


def spent(sheet: ClaimSheet, bound: Appendix) -> Table:
    rows = tuple(spent_row(row, bound) for row in sheet.shares)
    charged = sum(row.cents for row in sheet.shares)
    blanks = (None,) * (len(SPENT) - 3)
    return Table(
        key="spending",
        heading="What was paid",
        columns=SPENT,
        rows=rows,
        total=Row(("In all", *blanks, charged, None), is_sum=True) if rows else None,
        empty="This claim charges no expense.",
    )


def spent_row(row: ClaimShare, bound: Appendix) -> Row:
    expense = row.expense
    return Row(
        (
            expense.payee,
            row.reason or expense.what or expense.line.name,
            expense.invoice_no,
            expense.payment_ref,
            expense.paid_on,
            expense.cents,
            row.cents,
            bound.of(expense.pk),
        )
    )


def matched(sheet: ClaimSheet) -> Table:
    rows = tuple(match_row(row) for row in sheet.match)
    blanks = (None,) * (len(MATCH) - 2)
    return Table(
        key="match",
        heading="Match",
        columns=MATCH,
        rows=rows,
        total=Row(("In all", *blanks, sheet.match_found), is_sum=True) if rows else None,
        empty="No match is reported with this claim.",
    )


def match_row(row: ClaimMatch) -> Row:
    expense = row.expense
    own = "Given" if expense.in_kind else "The artist"
    return Row(
        (
            row.payer.name if row.payer else own,
            expense.payee,
            label(expense.line.category),
            expense.day,
            "In kind" if expense.in_kind else "Cash",
            expense.basis if expense.in_kind else "Paid amount",
            row.cents,
        )
    )


def findings(sheet: ClaimSheet, currency: str) -> Iterator[Finding]:
    if sheet.short:
        yield Finding(f"The match of this claim is {money(sheet.short, currency)} short.")
    if sheet.cash_short:
        yield Finding(f"Of the match, {money(sheet.cash_short, currency)} more must be cash.")
    if sheet.bare:
        count = plural(len(sheet.bare), "expense")
        yield Finding(f"{count} without both a receipt and a proof of payment.")


def bound_papers(sheet: ClaimSheet, *, draw: bool) -> Appendix:
    papers: list[Paper] = []
    for row in sheet.shares:
        for paper in sheet.ledger.books.papers_of.get(row.expense_id, []):
            paper.expense = row.expense
            papers.append(paper)
    return appendix_of(papers, sheet.claim.fund.project.currency, draw=draw)
