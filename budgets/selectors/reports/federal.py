"""The financial lines of a federal award, a to o, when it is the artist who reports them."""

from __future__ import annotations

from budgets import engine
from budgets.engine.federal import FederalLines, StillOwed, federal_lines
from budgets.engine.reporting import in_dollars
from budgets.models import Expense, Fund, FundRole
from budgets.selectors.reports.budget import facts_of, period_of
from budgets.selectors.reports.source import Source
from budgets.selectors.reports.table import Column, Finding, Kind, Report, Row, Table
from projects.hooks import Level

CENTS = 100
REPORTING = (FundRole.GRANTEE, FundRole.SUBRECIPIENT)
COLUMNS = (Column("Line"), Column("What it is"), Column("Amount", Kind.MONEY))
OVERHEAD_COLUMNS = (
    Column("Period"),
    Column("Rate, %", Kind.RATE),
    Column("Base", Kind.MONEY),
    Column("Amount charged", Kind.MONEY),
    Column("Federal share", Kind.MONEY),
)
WORDS = {
    "a": "Cash receipts",
    "b": "Cash disbursements",
    "c": "Cash on hand (a less b)",
    "d": "Total federal funds authorised",
    "e": "Federal share of expenditures",
    "f": "Federal share of unliquidated obligations",
    "g": "Total federal share (e and f)",
    "h": "Unobligated balance of federal funds (d less g)",
    "i": "Total recipient share required",
    "j": "Recipient share of expenditures",
    "k": "Remaining recipient share to be provided (i less j)",
    "l": "Total federal programme income earned",
    "m": "Programme income spent by deduction",
    "n": "Programme income spent by addition",
    "o": "Unexpended programme income (l less m or n)",
}
TITLE = "Federal financial lines"


def federal_report(source: Source, fund: Fund, *, final: bool = False) -> Report:
    if not fund.federal_money:
        return told(source, fund, "This fund is not federal money: no federal lines are asked for.")
    if fund.role not in REPORTING:
        return held_elsewhere(source, fund)
    try:
        lines, problem = lines_of(source, fund, final=final), None
    except StillOwed as error:
        lines, problem = lines_of(source, fund, final=False), error
    kind = "Final" if final and problem is None else "Interim"
    return Report(
        key="federal",
        title=TITLE,
        sentence=f"Of {source.words(lines.d)} authorised, {source.words(lines.e)} is spent up to "
        f"{source.until} and {source.words(lines.h)} is not committed.",
        through=source.through,
        facts=(*facts_of(source, fund), ("Report", kind), ("Counted", "when paid")),
        tables=(lines_table(source, lines), *overhead_tables(source, fund)),
        findings=tuple(findings(source, lines, problem)),
        notes=NOTES,
        whole=source.whole,
    )


NOTES = (
    "Unliquidated obligations are bills that are owed and not paid yet. The unobligated balance is "
    "the part of the award that no bill and no overhead has used.",
    "Counted from the start of the award; cash receipts are what came, less what was paid back. "
    "Line j holds gifts in kind from third parties at their value. Orders placed and not yet "
    "billed are in no line, because which fund pays them is settled when their bills come.",
    "No programme income is kept here; add lines l to o by hand if the award earned any.",
    "The layout follows the lines of Standard Form 425. The awarding agency’s own instructions "
    "decide; this is neither legal nor tax advice.",
)


def lines_of(source: Source, fund: Fund, *, final: bool) -> FederalLines:
    """A bill is spent when it is paid and owed until then; overhead counts once it is claimed."""
    paid = owed = 0
    for share in source.books.shares:
        if share.fund_id == fund.pk:
            if is_paid(source, source.books.by_pk[share.expense_id]):
                paid += share.cents
            else:
                owed += share.cents
    spent = paid + source.overhead(fund)
    match = engine.match_of(source.books.fund_values[fund.pk])
    base = spent if final else fund.award_cents
    return federal_lines(
        received=source.received[fund.pk],
        paid=spent,
        authorised=fund.award_cents,
        spent=spent,
        owed=owed,
        match_required=engine.match_needed(match, base),
        match_spent=match_spent(source, fund),
        final=final,
    )


def match_spent(source: Source, fund: Fund) -> int:
    parts = source.match_of(fund).parts
    return sum(part.cents for part in parts if part.in_kind or is_paid(source, part.expense))


def is_paid(source: Source, row: Expense) -> bool:
    return row.paid_on is not None and row.paid_on <= source.through


def lines_table(source: Source, lines: FederalLines) -> Table:
    cents = {name: getattr(lines, name) for name in WORDS}
    if source.whole:
        cents = whole_lines(lines)
    return Table(
        key="lines",
        heading="Lines a to o",
        columns=COLUMNS,
        rows=tuple(Row((name, words, cents[name])) for name, words in WORDS.items()),
        whole=source.whole,
    )


def whole_lines(lines: FederalLines) -> dict[str, int]:
    """Each given line to the nearest dollar, e and f together; the differences follow from them."""
    given = {name: CENTS * in_dollars([getattr(lines, name)])[0] for name in "abdijlmn"}
    e, f = (CENTS * part for part in in_dollars([lines.e, lines.f]))
    found = FederalLines(**given, e=e, f=f)
    return {name: getattr(found, name) for name in WORDS}


def overhead_tables(source: Source, fund: Fund) -> tuple[Table, ...]:
    """How overhead is reckoned, for an award that pays it at a rate."""
    award = source.books.fund_values[fund.pk]
    rule = engine.indirect_of(award)
    if rule is None:
        return ()
    mine = [share for share in source.books.share_values if share.fund == award.key]
    base, charged = rule.base_of(mine), source.overhead(fund)
    if source.whole:
        base, charged = (CENTS * in_dollars([cents])[0] for cents in (base, charged))
    row = Row((period_of(fund), rule.basis_points, base, charged, charged))
    return (
        Table(
            key="overhead",
            heading="Indirect expense",
            columns=OVERHEAD_COLUMNS,
            rows=(row,),
            whole=source.whole,
        ),
    )


def findings(source: Source, lines: FederalLines, problem: StillOwed | None) -> list[Finding]:
    found = []
    if problem:
        words = f"{source.words(problem.owed)} charged to this award is not paid yet."
        found.append(
            Finding(f"{words} A final report owes nothing, so this one is interim.", Level.BROKEN)
        )
    if lines.c < 0:
        words = f"{source.words(-lines.c)} of own money is in front of this award until it pays."
        found.append(Finding(words, Level.NEAR))
    if lines.h < 0:
        words = f"{source.words(-lines.h)} more is charged than the award holds."
        found.append(Finding(words, Level.BROKEN))
    return found


def held_elsewhere(source: Source, fund: Fund) -> Report:
    holder = fund.holder or "Whoever holds this award"
    role = FundRole(fund.role).label.lower()
    words = f"{holder} reports this award: here it says “{role}”, so what you bill is one line of "
    note = "Send the holder your invoices and the expenditure list; keep copies of both."
    return told(source, fund, f"{words}that report.", note)


def told(source: Source, fund: Fund, sentence: str, *notes: str) -> Report:
    """A page without lines, which says why."""
    return Report(
        key="federal",
        title=TITLE,
        sentence=sentence,
        through=source.through,
        facts=facts_of(source, fund),
        notes=notes,
        whole=source.whole,
    )
