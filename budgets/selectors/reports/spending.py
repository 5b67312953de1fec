"""The list of what one fund pays: payee, document, payment, amounts, and the page of each paper."""

from __future__ import annotations

from dataclasses import dataclass

from django.urls import reverse

from budgets.engine.categories import label
from budgets.engine.reporting import in_dollars
from budgets.models import Claim, Expense, Fund, PaperKind
from budgets.selectors.appendix import Appendix
from budgets.selectors.reports.budget import facts_of
from budgets.selectors.reports.source import OVERHEAD, Source, in_order
from budgets.selectors.reports.table import Column, Finding, Kind, Report, Row, Table
from projects.hooks import Level
from projects.words import plural

CENTS = 100
COLUMNS = (
    Column("Payee"),
    Column("What for"),
    Column("Document no."),
    Column("Dated", Kind.DAY),
    Column("Payment no."),
    Column("Paid on", Kind.DAY),
    Column("Amount", Kind.MONEY),
    Column("Charged here", Kind.MONEY),
    Column("Papers", Kind.PAPERS),
)


@dataclass(frozen=True, kw_only=True)
class Charged:
    """An expense, what it came to net of credits, and the cents charged to the fund."""

    expense: Expense
    cents: int
    charged: int


def spending_report(source: Source, fund: Fund) -> Report:
    rows = charged_rows(source, fund)
    bound = source.appendix(row.expense for row in rows)
    total = sum(row.charged for row in rows) + source.overhead(fund)
    return Report(
        key="spending",
        title="Expenditure list",
        sentence=f"{plural(len(rows), 'expense')} charged up to {source.until}, "
        f"{source.words(total)} in all.",
        through=source.through,
        facts=facts_of(source, fund),
        tables=(spending_table(source, rows, source.overhead_claims(fund), bound),),
        findings=tuple(findings(source, rows, bound)),
        notes=(
            "Amounts are net of what came back. Two papers stand behind each: one from whoever "
            "was paid, one that shows the payment.",
        ),
        whole=source.whole,
        wide=True,
        appendix=bound,
    )


def charged_rows(source: Source, fund: Fund) -> list[Charged]:
    """By category, then by day."""
    found = []
    for share in source.books.shares:
        if share.fund_id == fund.pk:
            row = source.books.by_pk[share.expense_id]
            cents = source.books.expense_values[row.pk].amount
            found.append(Charged(expense=row, cents=cents, charged=share.cents))
    order = {key: n for n, key in enumerate(in_order(row.expense.line.category for row in found))}
    return sorted(
        found, key=lambda r: (order[r.expense.line.category], r.expense.day, r.expense.pk)
    )


def spending_table(
    source: Source, rows: list[Charged], claims: list[Claim], bound: Appendix
) -> Table:
    amounts, charged = [row.cents for row in rows], [row.charged for row in rows]
    over = [claim.indirect_cents for claim in claims]
    if source.whole:
        amounts = [CENTS * part for part in in_dollars(amounts)]
        whole = [CENTS * part for part in in_dollars([*charged, *over])]
        charged, over = whole[: len(rows)], whole[len(rows) :]
    overhead = list(zip(claims, over, strict=True))
    lines = [
        (row.expense, amount, cents)
        for row, amount, cents in zip(rows, amounts, charged, strict=True)
    ]
    return Table(
        key="spending",
        heading="What was paid",
        columns=COLUMNS,
        rows=(*grouped(source, lines, bound), *overhead_rows(overhead)),
        total=sum_row("In all", lines, sum(cents for _, cents in overhead)) if lines else None,
        empty="Nothing is charged to this fund up to this day.",
        whole=source.whole,
    )


Line = tuple[Expense, int, int]


def grouped(source: Source, lines: list[Line], bound: Appendix) -> list[Row]:
    found: list[Row] = []
    for key in dict.fromkeys(row.line.category for row, _, _ in lines):
        group = [line for line in lines if line[0].line.category == key]
        blanks = (None,) * (len(COLUMNS) - 1)
        found.append(Row((label(key), *blanks), is_group=True))
        found += [spent_row(source, *line, bound) for line in group]
        if len(group) > 1:
            found.append(sum_row(f"{label(key)}, together", group))
    return found


def spent_row(source: Source, row: Expense, amount: int, charged: int, bound: Appendix) -> Row:
    return Row(
        (
            row.payee,
            row.what or row.line.name,
            row.invoice_no,
            row.invoice_on or row.day,
            row.payment_ref,
            row.paid_on,
            amount,
            charged,
            bound.of(row.pk),
        ),
        url=expense_url(source, row),
    )


def overhead_rows(claims: list[tuple[Claim, int]]) -> list[Row]:
    """What was claimed at a rate has no bill behind it."""
    if not claims:
        return []
    blanks = (None,) * (len(COLUMNS) - 1)
    rate = "at the agreed rate"
    rows = [
        Row((f"Claim {claim.number}", rate, "", claim.filed_on, "", None, None, cents, None))
        for claim, cents in claims
    ]
    return [Row((label(OVERHEAD), *blanks), is_group=True), *rows]


def sum_row(name: str, lines: list[Line], more: int = 0) -> Row:
    amounts = sum(amount for _, amount, _ in lines), sum(cents for _, _, cents in lines) + more
    return Row((name, "", "", None, "", None, *amounts, None), is_sum=True)


def expense_url(source: Source, row: Expense) -> str:
    return reverse("budgets:expense", args=[source.project.pk, row.pk])


def findings(source: Source, rows: list[Charged], bound: Appendix) -> list[Finding]:
    found = []
    kinds = {
        row.expense.pk: {p.kind for p in source.books.papers_of.get(row.expense.pk, [])}
        for row in rows
    }
    wanted = (
        (PaperKind.RECEIPT, "no receipt or invoice"),
        (PaperKind.PAYMENT, "no proof of payment"),
    )
    for kind, lack in wanted:
        bare = [row.expense for row in rows if kind not in kinds[row.expense.pk]]
        if bare:
            words = plural(len(bare), f"expense has {lack}", f"expenses have {lack}")
            url = expense_url(source, bare[0])
            found.append(Finding(f"{words}.", Level.NEAR, url, f"Add it for {bare[0].payee}"))
    if bound.unread:
        words = plural(len(bound.unread), "paper cannot be read", "papers cannot be read")
        found.append(Finding(f"{words} here; a page says which and where it is.", Level.NEAR))
    return found
