"""Write expenses, their papers, and who pays which cents of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.core.files.storage import default_storage
from django.db import transaction

from budgets.engine import Refusal
from budgets.fit import judged, read
from budgets.models import Expense, Paper, PaperKind, Share
from budgets.services.lines import Who, say
from projects.files import Clean
from projects.models import Project
from projects.words import day, listed, money
from suppliers.models import Supplier

Refusals = Mapping[int, tuple[Refusal, ...]]


class Barred(Exception):
    """Rules of funds bar the shares that were asked for; `reasons` says which, by fund."""

    def __init__(self, reasons: Refusals) -> None:
        super().__init__(reasons)
        self.reasons = reasons


@transaction.atomic
def save_expense(
    *, expense: Expense, values: dict[str, Any], paper: Clean | None = None, user: Who
) -> Expense:
    new = expense.pk is None
    for name, value in values.items():
        setattr(expense, name, value)
    if expense.supplier_id is None:
        expense.supplier = supplier_called(expense)
    expense.save()
    if paper is not None:
        store_paper(expense, paper, PaperKind.RECEIPT)
    verb, tail = ("Logged", with_or_without(paper)) if new else ("Changed", "")
    say(expense.project, user, f"{verb} the expense {named(expense)}{tail}.")
    return expense


def supplier_called(expense: Expense) -> Supplier | None:
    return Supplier.objects.filter(project=expense.project, name__iexact=expense.payee).first()


def with_or_without(paper: Clean | None) -> str:
    return ", with its receipt" if paper else ", without a receipt"


def named(expense: Expense) -> str:
    amount = money(expense.cents, expense.project.currency)
    return f"{amount} to {expense.payee}, {day(expense.day)}"


@transaction.atomic
def delete_expense(*, expense: Expense, user: Who) -> None:
    say(expense.project, user, f"Deleted the expense {named(expense)}.")
    names = [str(paper.file.name) for paper in expense.papers.all()]
    expense.delete()
    transaction.on_commit(lambda: forget_files(names))


@transaction.atomic
def add_paper(*, expense: Expense, paper: Clean, kind: str, user: Who) -> Paper:
    made = store_paper(expense, paper, kind)
    what = made.get_kind_display().lower()
    say(expense.project, user, f"Added a paper ({what}) to the expense {named(expense)}.")
    return made


def store_paper(expense: Expense, paper: Clean, kind: str) -> Paper:
    return Paper.objects.create(
        expense=expense,
        kind=kind,
        file=paper.content,
        media_type=paper.media_type,
        size=paper.size,
        sha256=paper.sha256,
    )


@transaction.atomic
def delete_paper(*, paper: Paper, user: Who) -> None:
    what = paper.get_kind_display().lower()
    say(paper.expense.project, user, f"Removed a paper ({what}) of {named(paper.expense)}.")
    name = str(paper.file.name)
    paper.delete()
    transaction.on_commit(lambda: forget_files([name]))


def forget_files(names: list[str]) -> None:
    for name in names:
        default_storage.delete(name)


@transaction.atomic
def save_shares(*, expense: Expense, wanted: Mapping[int, int], user: Who) -> None:
    """Make the shares of an expense those wanted (cents by fund); raises Barred for any refusal."""
    project = Project.objects.select_for_update().get(pk=expense.project_id)
    books = read(project)  # inside the transaction: nobody spends the same cents meanwhile
    reasons = judged(books, expense, wanted)
    if reasons:
        raise Barred(reasons)
    Share.objects.filter(expense=expense).delete()
    made = [
        Share(expense=expense, fund=fund, cents=wanted[fund.pk])
        for fund in books.funds
        if wanted.get(fund.pk)
    ]
    Share.objects.bulk_create(made)
    say(expense.project, user, f"{named(expense)}: {paid_by(made, expense)}.")


def paid_by(shares: list[Share], expense: Expense) -> str:
    currency = expense.project.currency
    parts = [f"{money(share.cents, currency)} from {share.fund.name}" for share in shares]
    return "paid " + listed(parts) if parts else "no fund pays it now"
