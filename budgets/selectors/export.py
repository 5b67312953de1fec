"""Everything about the money of a project, as tables and papers in one archive.

One table for each kind of record, with every column that is stored, so that whoever audits it or
moves on to something else has it all.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any
from zipfile import ZIP_DEFLATED, ZipFile

from django.core.files.storage import default_storage
from django.db.models import Field, FileField, ForeignKey, Model, QuerySet

from budgets import models
from budgets.selectors.reports.commas import written
from projects.models import LogEntry, Project
from suppliers.models import Document, Order, OrderChange, Quote, QuoteRequest, Supplier

ABOUT = """{project}: its money, taken out on {day}.

Each table is comma separated values in UTF-8; days are year-month-day, amounts are whole cents in
columns that end in “cents”, rates are hundredths of a percent in those that end in “basis points”.
A column that names another record holds its number (the column “id” of its own table), and beside
it its name. A text that a spreadsheet would take for a formula has an apostrophe in front.
The folder “papers” holds every receipt, proof and letter under the name that papers.csv gives it.
"""

Rows = QuerySet[Any]


def tables(project: Project) -> dict[str, Rows]:
    """Every kind of record by the name of its table."""
    return {
        "lines": models.BudgetLine.objects.filter(project=project),
        "moves-from-contingency": models.Draw.objects.filter(project=project),
        "funds": models.Fund.objects.filter(project=project),
        "rules": models.FundRule.objects.filter(fund__project=project),
        "milestones": models.Milestone.objects.filter(fund__project=project),
        "income": models.Income.objects.filter(fund__project=project),
        "expenses": models.Expense.objects.filter(project=project),
        "credits": models.Credit.objects.filter(expense__project=project),
        "hours": models.Hours.objects.filter(expense__project=project),
        "shares": models.Share.objects.filter(expense__project=project),
        "match": models.Counted.objects.filter(expense__project=project),
        "papers": models.Paper.objects.filter(expense__project=project),
        "accepted-fits": models.AcceptedFit.objects.filter(project=project),
        "cash": models.CashBook.objects.filter(project=project),
        "claims": models.Claim.objects.filter(fund__project=project),
        "claimed-shares": models.ClaimShare.objects.filter(claim__fund__project=project),
        "claimed-match": models.ClaimMatch.objects.filter(claim__fund__project=project),
        "change-requests": models.ChangeRequest.objects.filter(fund__project=project),
        "rates": models.DatedFact.objects.filter(project=project),
        "suppliers": Supplier.objects.filter(project=project),
        "supplier-papers": Document.objects.filter(supplier__project=project),
        "quote-requests": QuoteRequest.objects.filter(project=project),
        "quotes": Quote.objects.filter(request__project=project),
        "orders": Order.objects.filter(supplier__project=project),
        "order-changes": OrderChange.objects.filter(order__supplier__project=project),
        "orders-by-line": models.Commitment.objects.filter(line__project=project),
        "log": LogEntry.objects.filter(project=project),
    }


def rows_of(rows: Rows) -> Iterator[list[str]]:
    """The headings, then each record with every stored column."""
    fields = list(rows.model._meta.concrete_fields)
    yield [name for field in fields for name in headings(field)]
    for row in rows.select_related(*named_after(rows.model)).order_by("pk"):
        yield [cell for field in fields for cell in cells(row, field)]


def named_after(model: type[Model]) -> list[str]:
    """What the names of a record's own and of what it points to are read from."""
    keys = [key for key in model._meta.concrete_fields if isinstance(key, ForeignKey)]
    further = [
        f"{key.name}__{other.name}"
        for key in keys
        for other in key.related_model._meta.concrete_fields
        if isinstance(other, ForeignKey)
    ]
    return [key.name for key in keys] + further


def headings(field: Field[Any, Any]) -> Iterator[str]:
    name = field.name.replace("_", " ")
    yield name
    if isinstance(field, ForeignKey):
        yield f"{name} is"


def cells(row: Model, field: Field[Any, Any]) -> Iterator[str]:
    value = field.value_from_object(row)
    if isinstance(field, FileField):
        yield paper_place(str(value)) if value else ""
    else:
        yield "" if value is None else str(value)
    if isinstance(field, ForeignKey):
        yield "" if value is None else str(getattr(row, field.name))


def paper_place(name: str) -> str:
    return "papers/" + name.replace("/", "-")


def files_of(project: Project) -> Iterable[str]:
    """The stored names of every paper, quote and document."""
    every = (
        models.Paper.objects.filter(expense__project=project),
        Quote.objects.filter(request__project=project).exclude(file=""),
        Document.objects.filter(supplier__project=project).exclude(file=""),
    )
    return [name for rows in every for name in rows.values_list("file", flat=True)]


def write_archive(project: Project, target: Any, day: str) -> None:
    """The whole archive into a file that is open for writing."""
    with ZipFile(target, "w", ZIP_DEFLATED) as archive:
        archive.writestr("about.txt", ABOUT.format(project=project.name, day=day))
        for name, rows in tables(project).items():
            archive.writestr(f"{name}.csv", written(rows_of(rows)))
        for stored in files_of(project):
            if default_storage.exists(stored):
                with default_storage.open(stored) as paper:
                    archive.writestr(paper_place(stored), paper.read())
