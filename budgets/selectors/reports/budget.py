"""Budget against actual for one fund: what it agreed, paid and was matched with, by category."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from budgets.engine.categories import label
from budgets.engine.money import WHOLE, Rounding, portion
from budgets.engine.reporting import in_dollars, matched_by_half, sum_check, table_in_dollars
from budgets.models import Fund
from budgets.selectors.reports.incomings import income_table
from budgets.selectors.reports.source import OVERHEAD, Source, in_order
from budgets.selectors.reports.table import Column, Finding, Kind, Report, Row, Table
from projects.hooks import Level

CENTS = 100
COLUMNS = (
    Column("Category"),
    Column("Agreed", Kind.MONEY),
    Column("This fund paid", Kind.MONEY),
    Column("Match in cash", Kind.MONEY),
    Column("Match in kind", Kind.MONEY),
    Column("In all", Kind.MONEY),
    Column("Left", Kind.MONEY, warns=True),
    Column("Used, %", Kind.RATE),
    Column("Note"),
)


@dataclass(frozen=True, slots=True)
class Line:
    """A category, or all of them, in cents."""

    category: str
    agreed: int
    paid: int
    cash: int  # match
    kind: int

    @property
    def in_all(self) -> int:
        return self.paid + self.cash + self.kind


def budget_report(source: Source, fund: Fund) -> Report:
    rows = grid(source, fund)
    paid, award = total_of(rows).paid, fund.award_cents
    return Report(
        key="budget",
        title="Budget and actual",
        sentence=f"{source.words(paid)} of {source.words(award)} is used up to {source.until}; "
        f"{source.words(award - paid)} is left.",
        through=source.through,
        facts=facts_of(source, fund),
        tables=(costs_table(source, fund, rows), income_table(source, fund)),
        findings=tuple(findings(source, fund, rows)),
        notes=(
            "Left and used compare what this fund paid with what it agreed. Gifts in kind pay no "
            "bill: they count as match only.",
        ),
        whole=source.whole,
        wide=True,
    )


def grid(source: Source, fund: Fund) -> list[Line]:
    """In cents; in whole dollars when those are asked for, and then every sum still adds up."""
    paid, cash, kind = source.charged_by_category(fund), Counter[str](), Counter[str]()
    for part in source.match_of(fund).parts:
        (kind if part.in_kind else cash)[part.expense.line.category] += part.cents
    if overhead := source.overhead(fund):
        paid[OVERHEAD] += overhead
    agreed: dict[str, int] = fund.approved or {}
    keys = in_order({*agreed, *paid, *cash, *kind})
    given = [agreed.get(key, 0) for key in keys]
    spent = [(paid[key], cash[key], kind[key]) for key in keys]
    if source.whole:
        given = [CENTS * part for part in in_dollars(given)]
        spent = [(CENTS * p, CENTS * c, CENTS * k) for p, c, k in table_in_dollars(spent)]
    return [Line(key, cents, *row) for key, cents, row in zip(keys, given, spent, strict=True)]


def total_of(rows: list[Line]) -> Line:
    return Line(
        "",
        sum(row.agreed for row in rows),
        sum(row.paid for row in rows),
        sum(row.cash for row in rows),
        sum(row.kind for row in rows),
    )


def costs_table(source: Source, fund: Fund, rows: list[Line]) -> Table:
    agreed, total = bool(fund.approved), total_of(rows)
    whole = total if agreed else replace(total, agreed=fund.award_cents)
    return Table(
        key="costs",
        heading="Costs by category",
        columns=COLUMNS,
        rows=tuple(cost_row(label(row.category), row, agreed) for row in rows),
        total=cost_row("In all", whole, agreed=True) if rows else None,
        empty="Nothing is charged to this fund yet, and it has no agreed budget.",
        whole=source.whole,
    )


def cost_row(name: str, row: Line, agreed: bool) -> Row:
    given, left, used = None, None, None
    if agreed:
        given, left = row.agreed, row.agreed - row.paid
        used = portion(row.paid, WHOLE, given, Rounding.HALF_UP) if given else None
    note = ""
    if agreed and row.paid > row.agreed:
        note = "more than agreed" if row.agreed else "not in the agreed budget"
    return Row((name, given, row.paid, row.cash, row.kind, row.in_all, left, used, note))


def facts_of(source: Source, fund: Fund) -> tuple[tuple[str, str], ...]:
    found = [
        ("Fund", fund.name),
        ("Award number", fund.number),
        ("Held by", fund.holder),
        ("Award", source.words(fund.award_cents)),
        ("Period", period_of(fund)),
        ("Up to the end of", source.until),
        ("Amounts in", source.currency),
    ]
    return tuple((name, text) for name, text in found if text)


def period_of(fund: Fund) -> str:
    first, last = fund.period_start, fund.period_end
    days = [f"{day.day} {day:%B %Y}" if day else "" for day in (first, last)]
    if all(days):
        return " to ".join(days)
    return f"from {days[0]}" if days[0] else (f"until {days[1]}" if days[1] else "")


def findings(source: Source, fund: Fund, rows: list[Line]) -> list[Finding]:
    found = []
    if source.match_of(fund).needed:
        found.append(matched(source, total_of(rows)))
    agreed = sum_check(list((fund.approved or {}).values()), fund.award_cents)
    if fund.approved and not agreed.agrees:
        words = f"The agreed budget adds up to {source.words(agreed.total)}; the award is "
        words += f"{source.words(agreed.printed)}. Ask which one holds."
        found.append(Finding(words, Level.BROKEN))
    if not fund.approved:
        words = "No agreed budget by category is kept for this fund, so only totals compare."
        found.append(Finding(words))
    return found


def matched(source: Source, total: Line) -> Finding:
    """The test of a state arts commission's form: cash and gifts at least the grant."""
    parts = f"Cash of {source.words(total.cash)} and gifts of {source.words(total.kind)}"
    paid = source.words(total.paid)
    if matched_by_half(total.paid, total.cash, total.kind):
        return Finding(f"{parts} are together at least what this fund paid, {paid}.", Level.HOLDS)
    gap = source.words(total.paid - total.cash - total.kind)
    return Finding(f"{parts} are together {gap} less than what this fund paid, {paid}.")
