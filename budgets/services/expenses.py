"""Write expenses, their papers, and who pays which cents of them."""

from __future__ import annotations

from typing import Any

from django.core.files.storage import default_storage
from django.db import transaction

from budgets.models import Claim, Expense, Paper, PaperKind
from budgets.selectors.held import claims_of
from budgets.services.lines import Who, say
from projects.files import Clean
from projects.meanwhile import Overtaken
from projects.words import day, money
from suppliers.models import Supplier


class Held(Exception):
    """A claim that was filed holds it; `claims` are those."""

    def __init__(self, claims: list[Claim]) -> None:
        super().__init__(claims)
        self.claims = claims


@transaction.atomic
def save_expense(
    *, expense: Expense, values: dict[str, Any], paper: Clean | None = None, user: Who
) -> Expense:
    """Raises Overtaken when somebody saved it since it was read."""
    new = expense.pk is None
    if not new:
        next_version(expense)
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


def next_version(expense: Expense) -> None:
    """One more, unless another was quicker: only one of two saves finds the version it read."""
    mine = Expense.objects.filter(pk=expense.pk, version=expense.version)
    if not mine.update(version=expense.version + 1):
        raise Overtaken
    expense.version += 1


def supplier_called(expense: Expense) -> Supplier | None:
    return Supplier.objects.filter(project=expense.project, name__iexact=expense.payee).first()


def with_or_without(paper: Clean | None) -> str:
    return ", with its receipt" if paper else ", without a receipt"


def named(expense: Expense) -> str:
    amount = money(expense.cents, expense.project.currency)
    return f"{amount} to {expense.payee}, {day(expense.day)}"


@transaction.atomic
def delete_expense(*, expense: Expense, user: Who) -> None:
    """Raises Held when a filed claim has it; a claim in preparation only loses its lines."""
    refuse_held(expense)
    for lines in (expense.claimed, expense.claimed_match):
        lines.all().delete()
    say(expense.project, user, f"Deleted the expense {named(expense)}.")
    names = [str(paper.file.name) for paper in expense.papers.all()]
    expense.delete()
    transaction.on_commit(lambda: forget_files(names))


def refuse_held(expense: Expense) -> None:
    if claims := claims_of(expense):
        raise Held(claims)


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
    """Raises Held when a filed claim rests on it."""
    refuse_held(paper.expense)
    what = paper.get_kind_display().lower()
    say(paper.expense.project, user, f"Removed a paper ({what}) of {named(paper.expense)}.")
    name = str(paper.file.name)
    paper.delete()
    transaction.on_commit(lambda: forget_files([name]))


def forget_files(names: list[str]) -> None:
    for name in names:
        default_storage.delete(name)
