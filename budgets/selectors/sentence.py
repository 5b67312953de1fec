"""What matters now about the money, in one sentence, and the one next action."""

from __future__ import annotations

from dataclasses import dataclass

from django.urls import reverse

from budgets.models import FundStatus
from budgets.selectors.expenses import ExpenseRow
from budgets.selectors.funds import SOON, FundRow, closing
from budgets.selectors.lines import LineRow, total_of
from projects.models import Project
from projects.words import money, plural

AT_MOST = 2  # findings that one sentence can carry


@dataclass(frozen=True)
class Finding:
    says: str
    action: str = ""
    url: str = ""


@dataclass(frozen=True)
class Matters:
    sentence: str
    action: str = ""
    url: str = ""


def matters(
    project: Project, lines: list[LineRow], funds: list[FundRow], bills: list[ExpenseRow]
) -> Matters:
    found = [
        *broken_shares(project, bills),
        *without_fund(project, bills),
        *closing_funds(project, funds),
        *without_receipt(project, bills),
        *short_match(project, funds),
        *budget_itself(project, lines),
    ][:AT_MOST]
    if not found:
        found = [all_well(project, lines, bills)]
    text = "; ".join(finding.says for finding in found)
    first = next((finding for finding in found if finding.url), Finding(""))
    return Matters(text[:1].upper() + text[1:] + ".", first.action, first.url)


def broken_shares(project: Project, bills: list[ExpenseRow]) -> list[Finding]:
    broken = [row for row in bills if row.broken]
    if not broken:
        return []
    _, refusal = broken[0].broken[0]
    sentence = refusal.sentence.rstrip(".")
    return [Finding(sentence, "Look at this share", expense_url(project, broken[0]))]


def without_fund(project: Project, bills: list[ExpenseRow]) -> list[Finding]:
    waiting = [row for row in bills if row.unassigned]
    if not waiting:
        return []
    total = money(sum(row.unassigned for row in waiting), project.currency)
    return [
        Finding(
            f"{total} of receipts {'has' if len(waiting) == 1 else 'have'} no fund yet",
            "See which fund should pay what",
            reverse("budgets:best", args=[project.pk]),
        )
    ]


def closing_funds(project: Project, funds: list[FundRow]) -> list[Finding]:
    soon = [
        row
        for row in funds
        if row.fund.status == FundStatus.SIGNED
        and (row.state.left or 0) > 0
        and row.days_left is not None
        and row.days_left <= SOON
    ]
    return [
        Finding(
            f"{row.fund.name} {closing(row.days_left or 0)} "
            f"with {money(row.state.left, project.currency)} unspent",
            "See this fund",
            reverse("budgets:fund", args=[project.pk, row.fund.pk]),
        )
        for row in sorted(soon, key=lambda row: row.days_left or 0)
    ]


def without_receipt(project: Project, bills: list[ExpenseRow]) -> list[Finding]:
    bare = [row for row in bills if not row.has_receipt and not row.expense.in_kind]
    if not bare:
        return []
    count = plural(len(bare), "expense has no receipt", "expenses have no receipt")
    return [Finding(count, "Add the first receipt", expense_url(project, bare[0]))]


def short_match(project: Project, funds: list[FundRow]) -> list[Finding]:
    return [
        Finding(
            f"{row.fund.name} needs {money(row.match_short, project.currency)} more match",
            "See this fund",
            reverse("budgets:fund", args=[project.pk, row.fund.pk]),
        )
        for row in funds
        if row.match_short
    ]


def budget_itself(project: Project, lines: list[LineRow]) -> list[Finding]:
    if not lines:
        url = reverse("budgets:line-add", args=[project.pk])
        return [Finding("there is no budget yet", "Add the first line", url)]
    over = [row for row in lines if row.state.left < 0 and row.state.planned]
    if over:
        worst = min(over, key=lambda row: row.state.left)
        amount = money(-worst.state.left, project.currency)
        return [Finding(f"{worst.line.name} is {amount} over its budget")]
    return []


def all_well(project: Project, lines: list[LineRow], bills: list[ExpenseRow]) -> Finding:
    total = total_of(lines)
    if not total.planned:
        row = lines[0]
        url = reverse("budgets:line-edit", args=[project.pk, row.line.pk])
        return Finding("the budget lines have no amounts yet", "Fill in the first", url)
    left, planned = money(total.left, project.currency), money(total.planned, project.currency)
    if not bills:
        url = reverse("budgets:expense-add", args=[project.pk])
        return Finding(f"nothing is spent yet of {planned}", "Log the first expense", url)
    return Finding(f"every receipt has a fund, and {left} of the budget of {planned} is left")


def expense_url(project: Project, row: ExpenseRow) -> str:
    return reverse("budgets:expense", args=[project.pk, row.expense.pk])
