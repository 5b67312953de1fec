"""The two pages of the quotes room, with at most one form or question open."""

from __future__ import annotations

from datetime import date

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse

from budgets.selectors.orders import open_accounts
from budgets.selectors.quotes.compare import compared
from budgets.selectors.quotes.listing import request_rows, what_next
from budgets.selectors.quotes.words import sentence
from budgets.views.pages import shown
from projects import pages
from projects.clock import today
from projects.models import Project
from projects.pages import Opened
from suppliers.models import Quote, QuoteRequest


def request_in(project: Project, pk: int) -> QuoteRequest:
    rows = QuoteRequest.objects.select_related("project", "part")
    return get_object_or_404(rows, project=project, pk=pk)


def quote_in(project: Project, request_id: int, pk: int) -> Quote:
    rows = Quote.objects.select_related("request__project", "request__part", "supplier")
    return get_object_or_404(rows, request__project=project, request_id=request_id, pk=pk)


def list_page(
    request: HttpRequest, project: Project, *, opened: Opened | None = None, says: str = ""
) -> HttpResponse:
    rows = request_rows(project, today(project))
    context = {
        "rows": rows,
        "next": what_next(project, rows),
        "orders": open_accounts(project, today(project)),
        "opened": opened,
        "back": reverse("budgets:quotes", args=[project.pk]),
    }
    status = opened.status if opened else 200
    return shown(request, project, "quotes.html", context, status=status, says=says)


def the_page(
    request: HttpRequest,
    project: Project,
    found: QuoteRequest,
    *,
    on: date | None = None,
    opened: Opened | None = None,
    says: str = "",
) -> HttpResponse:
    comparison = compared(found, today(project), on)
    context = {
        "c": comparison,
        "asked": found,
        "sentence": sentence(comparison),
        "opened": opened,
        "back": reverse("budgets:quote-request", args=[project.pk, found.pk]),
    }
    status = opened.status if opened else 200
    return shown(request, project, "quote_request.html", context, status=status, says=says)


def to_list(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    url = reverse("budgets:quotes", args=[project.pk])
    return pages.after(request, url, says, lambda: list_page(request, project, says=says))


def to_request(
    request: HttpRequest, project: Project, found: QuoteRequest, says: str
) -> HttpResponse:
    """After a change: the comparison, as a piece or by a redirect."""
    url = reverse("budgets:quote-request", args=[project.pk, found.pk])
    return pages.after(
        request,
        url,
        says,
        lambda: the_page(request, project, request_in(project, found.pk), says=says),
    )
