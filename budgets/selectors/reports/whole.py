"""The whole project: every fund beside every category, and each fund's standing."""

from __future__ import annotations

from collections import Counter

from budgets.engine.categories import label
from budgets.engine.reporting import in_dollars, table_in_dollars
from budgets.models import Fund
from budgets.selectors.reports.incomings import income_table
from budgets.selectors.reports.source import Source, in_order, is_gifts, is_own
from budgets.selectors.reports.table import Column, Finding, Kind, Report, Row, Table
from projects.hooks import Level
from projects.words import plural

CENTS, MOST_FUNDS = 100, 5
OWN, GIFTS, OTHERS = "Own money", "Gifts in kind", "Other funds"


def whole_report(source: Source) -> Report:
    heads, cents = spread(source)
    budget, spent = (
        sum(row[0] for row in cents.values()),
        sum(sum(row[1:]) for row in cents.values()),
    )
    return Report(
        key="project",
        title="Whole project",
        sentence=f"{source.words(spent)} of a budget of {source.words(budget)} is spent or given "
        f"up to {source.until}; {source.words(budget - spent)} is left.",
        through=source.through,
        facts=(
            ("Project", source.project.name),
            ("Up to the end of", source.until),
            ("Amounts in", source.currency),
        ),
        tables=(costs_table(source, heads, cents), income_table(source)),
        findings=tuple(findings(source)),
        notes=(
            "Gifts in kind stand on both sides at their value: they neither cost nor bring cash.",
        ),
        whole=source.whole,
        wide=True,
    )


Spread = tuple[list[str], dict[str, list[int]]]  # heads; by category: budget, then each head


def spread(source: Source) -> Spread:
    """Cents by category and source; in whole dollars when asked, all sums kept."""
    funds = [row for row in source.books.funds if not is_own(row) and not is_gifts(row)]
    named, rest = funds[:MOST_FUNDS], funds[MOST_FUNDS:]
    heads = [row.name for row in named] + ([OTHERS] if rest else []) + [OWN, GIFTS]
    found = spent_by(source, {row.pk: row.name for row in named})
    budget = Counter[str]()
    for line in source.lines:
        budget[line.category] += line.planned_cents
    keys = in_order({*budget, *found})
    spent = [[found.get(key, Counter())[head] for head in heads] for key in keys]
    given = [budget[key] for key in keys]
    if source.whole:
        given = [CENTS * part for part in in_dollars(given)]
        spent = [[CENTS * part for part in row] for row in table_in_dollars(spent)]
    return heads, {key: [b, *row] for key, b, row in zip(keys, given, spent, strict=True)}


def spent_by(source: Source, names: dict[int, str]) -> dict[str, Counter[str]]:
    own = {row.pk for row in source.books.funds if is_own(row)}
    found: dict[str, Counter[str]] = {}
    for row in source.books.expenses:
        here = found.setdefault(row.line.category, Counter())
        amount = source.books.expense_values[row.pk].amount
        if row.in_kind:
            here[GIFTS] += amount
            continue
        shares = source.books.shares_of.get(row.pk, {})
        for pk, cents in shares.items():
            here[OWN if pk in own else names.get(pk, OTHERS)] += cents
        here[OWN] += amount - sum(shares.values())
    return found


def costs_table(source: Source, heads: list[str], cents: dict[str, list[int]]) -> Table:
    names = ("Budget", *heads, "In all")
    columns = [Column(name, Kind.MONEY) for name in names]
    sums = [sum(column) for column in zip(*cents.values(), strict=True)]
    return Table(
        key="costs",
        heading="Costs by category and who pays them",
        columns=(Column("Category"), *columns, Column("Left", Kind.MONEY, warns=True)),
        rows=tuple(cost_row(label(key), row) for key, row in cents.items()),
        total=cost_row("In all", sums) if sums else None,
        note=f"“{OWN}” holds what no fund pays yet.",
        empty="There is no budget and no expense yet.",
        whole=source.whole,
    )


def cost_row(name: str, cents: list[int]) -> Row:
    budget, *parts = cents
    return Row((name, budget, *parts, sum(parts), budget - sum(parts)))


def findings(source: Source) -> list[Finding]:
    found, books = [], source.books
    waiting = [row for row in books.expenses if books.unassigned.get(row.pk)]
    if waiting:
        count = plural(len(waiting), "expense has", "expenses have")
        total = source.words(sum(books.unassigned.values()))
        found.append(Finding(f"{count} {total} that no fund pays yet.", Level.NEAR))
    return found + [short for fund in books.funds if (short := short_of(source, fund))]


def short_of(source: Source, fund: Fund) -> Finding | None:
    short = source.match_of(fund).short
    return Finding(f"{fund.name} is {source.words(short)} short of match.") if short else None
