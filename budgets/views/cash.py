"""The daily balance on the computed schedule."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from budgets.forms.cash import CashForm
from budgets.models import CashBook
from budgets.selectors.cash import cash_sheet
from budgets.services import cash as services
from budgets.views.pages import shown
from projects import pages
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import Opened, data_of, posted


@require_GET
def cash(request: HttpRequest, project_id: int) -> HttpResponse:
    return cash_page(request, project_for(request.user, project_id))


@require_http_methods(["GET", "POST"])
def cash_settings(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    saved = CashBook.objects.filter(project=project).first()
    book = saved or CashBook(project=project, opening_on=today(project))
    form = CashForm(data_of(request), instance=book, today=today(project))
    if posted(request) and form.is_valid():
        says = services.save_cash_book(book=book, values=form.values(), user=request.user)
        return to_cash(request, project, says)
    url = reverse("budgets:cash-settings", args=[project.pk])
    opened = Opened(what="cash", action=url, heading="What the balance starts from", form=form)
    return cash_page(request, project, opened=opened)


def cash_page(
    request: HttpRequest, project: Project, *, opened: Opened | None = None, says: str = ""
) -> HttpResponse:
    context = {
        "c": cash_sheet(project, today(project)),
        "opened": opened,
        "back": reverse("budgets:cash", args=[project.pk]),
    }
    status = opened.status if opened else 200
    return shown(request, project, "cash.html", context, status=status, says=says)


def to_cash(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    url = reverse("budgets:cash", args=[project.pk])
    return pages.after(request, url, says, lambda: cash_page(request, project, says=says))
