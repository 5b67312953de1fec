"""Expenses as rows of the sheet, and what was logged already."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from budgets.engine import Refusal
from budgets.fit import Books
from budgets.models import Expense, Fund, Paper, PaperKind
from projects.models import Project
from suppliers.models import Supplier

PAGE = 100
OPEN, NO_RECEIPT, BROKEN, IN_KIND = "open", "no-receipt", "broken", "in-kind"
SHOWN = {
    "": "All",
    OPEN: "No fund yet",
    NO_RECEIPT: "No receipt",
    BROKEN: "A share breaks a rule",
    IN_KIND: "Gifts in kind",
}


@dataclass(frozen=True, kw_only=True)
class ExpenseRow:
    expense: Expense
    unassigned: int
    shares: tuple[tuple[Fund, int], ...]
    papers: tuple[Paper, ...]
    broken: tuple[tuple[Fund, Refusal], ...]

    @property
    def has_receipt(self) -> bool:
        return has_receipt(self.papers)


def has_receipt(papers: Iterable[Paper]) -> bool:
    return any(paper.kind == PaperKind.RECEIPT for paper in papers)


def expense_row(books: Books, expense: Expense) -> ExpenseRow:
    paid = books.shares_of.get(expense.pk, {})
    return ExpenseRow(
        expense=expense,
        unassigned=books.unassigned.get(expense.pk, 0),
        shares=tuple((fund, paid[fund.pk]) for fund in books.funds if fund.pk in paid),
        papers=tuple(books.papers_of.get(expense.pk, [])),
        broken=tuple(books.refusals_of.get(expense.pk, [])),
    )


def expense_rows(books: Books, show: str = "", text: str = "") -> list[ExpenseRow]:
    """Broken rules first, then what nobody pays yet, then the latest day first."""
    rows = [expense_row(books, expense) for expense in books.expenses]
    kept = [row for row in rows if fits(row, show) and holds_text(row.expense, text)]
    return sorted(kept, key=lambda row: (not row.broken, not row.unassigned))


def fits(row: ExpenseRow, show: str) -> bool:
    if show.startswith("fund-"):
        return any(f"fund-{fund.pk}" == show for fund, _ in row.shares)
    if show.startswith("line-"):
        return show == f"line-{row.expense.line_id}"
    wanted = {
        OPEN: row.unassigned > 0,
        NO_RECEIPT: not row.has_receipt,
        BROKEN: bool(row.broken),
        IN_KIND: row.expense.in_kind,
    }
    return wanted.get(show, True)


def holds_text(expense: Expense, text: str) -> bool:
    place = f"{expense.payee} {expense.what} {expense.line.name}".casefold()
    return text.strip().casefold() in place


def payees(project: Project) -> list[str]:
    """Suppliers, and whoever was paid before."""
    names = {*Supplier.objects.filter(project=project).values_list("name", flat=True)}
    earlier = Expense.objects.filter(project=project).order_by("payee")
    names.update(earlier.values_list("payee", flat=True).distinct()[:400])
    return sorted(names, key=str.casefold)


def logged_already(
    project: Project, *, payee: str, day: date, cents: int, besides: int | None
) -> Expense | None:
    """An expense of the same payee, day and amount."""
    same = Expense.objects.filter(project=project, payee__iexact=payee, day=day, cents=cents)
    return same.exclude(pk=besides or 0).first()


def same_file(project: Project, sha256: str) -> Paper | None:
    """A paper of the project that has the same bytes."""
    papers = Paper.objects.filter(expense__project=project, sha256=sha256)
    return papers.select_related("expense").first()
