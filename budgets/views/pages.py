"""The three pages of money: the sheet, a fund, an expense; and how a change answers."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse

from budgets import fit
from budgets.fit.sharing import sharing
from budgets.forms.expenses import PaperForm
from budgets.forms.rules import grouped
from budgets.forms.shares import ShareForm, all_to
from budgets.models import BudgetLine, Expense, Fund
from budgets.selectors.claims.parts import fund_parts
from budgets.selectors.counted import match_of
from budgets.selectors.expense_more import expense_more
from budgets.selectors.expenses import SHOWN, expense_row
from budgets.selectors.funds import agreed_rows, charged_expenses, fund_row
from budgets.selectors.quotes.advised import implied
from budgets.selectors.sheet import money_sheet
from projects import pages
from projects.clock import today
from projects.models import Project
from projects.pages import Opened


def line_in(project: Project, pk: int) -> BudgetLine:
    return get_object_or_404(BudgetLine.objects.select_related("project"), project=project, pk=pk)


def fund_in(project: Project, pk: int) -> Fund:
    return get_object_or_404(Fund.objects.select_related("project"), project=project, pk=pk)


def expense_in(project: Project, pk: int) -> Expense:
    expenses = Expense.objects.select_related("project", "line", "supplier", "order__supplier")
    return get_object_or_404(expenses, project=project, pk=pk)


def shown(
    request: HttpRequest, project: Project, template: str, context: dict[str, Any], **more: Any
) -> HttpResponse:
    return pages.sheet(
        request, project, f"budgets/{template}", context, current="money", part="sheet", **more
    )


def money_page(
    request: HttpRequest, project: Project, *, opened: Opened | None = None, says: str = ""
) -> HttpResponse:
    show, text = request.GET.get("show", ""), request.GET.get("q", "")[:100]
    found = money_sheet(
        project, today(project), show=show, text=text, page=request.GET.get("page", "1")
    )
    back = reverse("budgets:money", args=[project.pk])
    context = {"m": found, "show": show, "q": text, "shown": SHOWN, "opened": opened, "back": back}
    status = opened.status if opened else 200
    return shown(request, project, "money.html", context, status=status, says=says)


def fund_page(
    request: HttpRequest, project: Project, fund: Fund, *, says: str = ""
) -> HttpResponse:
    books = fit.read(project)
    mine = next(row for row in books.funds if row.pk == fund.pk)
    row = fund_row(books, mine, today(project))
    context = {
        "row": row,
        "fund": mine,
        "groups": grouped(row.rules),
        "agreed": agreed_rows(books, mine),
        "charged": charged_expenses(books, mine),
        "match": match_of(books, mine),
        "implied": implied(fund, today(project)),
        "parts": fund_parts(mine, today(project)),
    }
    return shown(request, project, "fund.html", context, says=says)


def expense_page(
    request: HttpRequest,
    project: Project,
    expense: Expense,
    *,
    form: ShareForm | None = None,
    paper_form: PaperForm | None = None,
    status: int = 422,
    says: str = "",
) -> HttpResponse:
    books = fit.read(project)
    found = sharing(books, expense)
    more = expense_more(books, expense)
    context = {
        "expense": expense,
        "row": expense_row(books, expense),
        "form": form or ShareForm(sharing=found),
        "one_tap": all_to(found),
        "paper_form": paper_form or PaperForm(project, kind=more.next_paper),
        "more": more,
    }
    bound = form is not None or paper_form is not None
    status = status if bound else 200
    return shown(request, project, "expense.html", context, status=status, says=says)


def to_money(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    """After a change: the sheet, as a piece or by a redirect."""
    url = reverse("budgets:money", args=[project.pk])
    return pages.after(request, url, says, lambda: money_page(request, project, says=says))


def to_fund(request: HttpRequest, project: Project, fund: Fund, says: str) -> HttpResponse:
    url = reverse("budgets:fund", args=[project.pk, fund.pk])
    return pages.after(request, url, says, lambda: fund_page(request, project, fund, says=says))


def to_expense(request: HttpRequest, project: Project, expense: Expense, says: str) -> HttpResponse:
    url = reverse("budgets:expense", args=[project.pk, expense.pk])
    return pages.after(
        request,
        url,
        says,
        lambda: expense_page(request, project, expense_in(project, expense.pk), says=says),
    )
