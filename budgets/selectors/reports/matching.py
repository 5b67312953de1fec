"""The match of one fund, cent group by cent group, with what proves it."""

from __future__ import annotations

from budgets.engine.categories import label
from budgets.engine.reporting import in_dollars
from budgets.models import Fund
from budgets.selectors.appendix import Appendix
from budgets.selectors.reports.budget import facts_of
from budgets.selectors.reports.cut import MatchBook, Matched
from budgets.selectors.reports.source import Source
from budgets.selectors.reports.spending import expense_url
from budgets.selectors.reports.table import Column, Finding, Kind, Report, Row, Table
from projects.hooks import Level
from projects.words import plural

CENTS = 100
COLUMNS = (
    Column("Source"),
    Column("For"),
    Column("Cash or gift"),
    Column("Day", Kind.DAY),
    Column("Category"),
    Column("How valued"),
    Column("Counts", Kind.MONEY),
    Column("Papers", Kind.PAPERS),
)


def match_report(source: Source, fund: Fund) -> Report:
    match = source.match_of(fund)
    bound = source.appendix(dict.fromkeys(part.expense for part in match.parts))
    return Report(
        key="match",
        title="Match",
        sentence=sentence(source, match),
        through=source.through,
        facts=(*facts_of(source, fund), *totals(source, match)),
        tables=(match_table(source, match, bound),),
        findings=tuple(findings(source, match, bound)),
        notes=notes(match),
        whole=source.whole,
        wide=True,
        appendix=bound,
    )


def sentence(source: Source, match: MatchBook) -> str:
    if not match.needed:
        return f"Up to {source.until} this fund asks for no match."
    start = f"{source.words(match.counts)} of {source.words(match.needed)} of match is provided"
    if match.short:
        return f"{start} up to {source.until}; {source.words(match.short)} is short."
    return f"{start} up to {source.until}: enough."


def totals(source: Source, match: MatchBook) -> tuple[tuple[str, str], ...]:
    found = [
        ("Match required", match.needed),
        ("Provided", match.found),
        ("Of it cash", match.cash),
        ("Of it gifts in kind", match.kind),
        ("Short", match.short),
    ]
    if match.cash_needed:
        found.insert(1, ("Of it cash required", match.cash_needed))
    return tuple((name, source.words(cents)) for name, cents in found)


def match_table(source: Source, match: MatchBook, bound: Appendix) -> Table:
    cents = [part.cents for part in match.parts]
    if source.whole:
        cents = [CENTS * part for part in in_dollars(cents)]
    pairs = zip(match.parts, cents, strict=True)
    total = Row(("In all", *[""] * 2, None, "", "", sum(cents), None))
    return Table(
        key="match",
        heading="What counts as match",
        columns=COLUMNS,
        rows=tuple(match_row(source, part, shown, bound) for part, shown in pairs),
        total=total if cents else None,
        empty="Nothing counts as match for this fund yet.",
        whole=source.whole,
    )


def match_row(source: Source, part: Matched, cents: int, bound: Appendix) -> Row:
    row = part.expense
    return Row(
        (
            part.source,
            row.what or row.line.name if part.in_kind else row.payee,
            "Gift" if part.in_kind else "Cash",
            row.day,
            label(row.line.category),
            value_basis(part),
            cents,
            bound.of(row.pk),
        ),
        url=expense_url(source, row),
    )


def value_basis(part: Matched) -> str:
    if part.in_kind:
        return part.expense.basis or part.expense.get_gift_kind_display() or "not said yet"
    return "amount paid" if part.expense.paid_on else "amount billed"


def findings(source: Source, match: MatchBook, bound: Appendix) -> list[Finding]:
    found = []
    if match.cash_needed > match.cash:
        gap = source.words(match.cash_needed - match.cash)
        words = f"{gap} of the required match must still be cash; gifts do not stand in for it."
        found.append(Finding(words, Level.BROKEN))
    elif match.short:
        found.append(Finding(f"{source.words(match.short)} of match is short.", Level.BROKEN))
    if match.kind > match.kind_most:
        words = f"Gifts fill at most {source.words(match.kind_most)} of the required match; "
        found.append(Finding(f"{words}{source.words(match.kind)} is listed."))
    bare = [part.expense for part in match.parts if not bound.of(part.expense.pk)]
    if bare:
        words = plural(len(bare), "part has no paper", "parts have no paper")
        url = expense_url(source, bare[0])
        found.append(Finding(f"{words} behind it.", Level.NEAR, url, "Add the first"))
    return found


def notes(match: MatchBook) -> tuple[str, ...]:
    if match.chosen or not match.parts:
        return ("A cent counts as match once: it is named here with who paid it.",)
    return (
        "No cents are picked as match for this fund yet. Listed is every cent that may count: "
        "eligible, and not paid by this fund. What another fund also needs as match counts once; "
        "accept a best fit to settle which.",
    )
