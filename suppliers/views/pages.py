"""The two pages of the suppliers sheet, with at most one form or question open in place."""

from __future__ import annotations

from functools import partial

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse

from projects import pages
from projects.clock import today
from projects.models import Project
from projects.pages import Opened
from suppliers import selectors
from suppliers.models import Supplier

EMPTY = "Nobody is listed yet. Begin with whoever makes or lends the first thing you need."


def supplier_in(project: Project, pk: int) -> Supplier:
    return get_object_or_404(Supplier.objects.select_related("project"), project=project, pk=pk)


def directory_page(
    request: HttpRequest, project: Project, *, opened: Opened | None = None, says: str = ""
) -> HttpResponse:
    day = today(project)
    rows = selectors.holdings_of(project, day)
    context = {
        "rows": rows,
        "sentence": selectors.sentence(rows, day) or EMPTY,
        "opened": opened,
        "can_bring": selectors.to_bring(request.user, project).exists(),
        "back": reverse("suppliers:suppliers", args=[project.pk]),
    }
    return pages.sheet(
        request,
        project,
        "suppliers/suppliers.html",
        context,
        current="suppliers",
        part="sheet",
        status=opened.status if opened else 200,
        says=says,
    )


def supplier_page(
    request: HttpRequest, project: Project, pk: int, *, opened: Opened | None = None, says: str = ""
) -> HttpResponse:
    day = today(project)
    held = selectors.holding_of(project, pk, day)
    if held is None:
        raise Http404
    context = {
        "held": held,
        "supplier": held.supplier,
        "parts": selectors.parts_made(held.supplier),
        "sentence": selectors.sentence([held], day),
        "opened": opened,
        "back": reverse("suppliers:supplier", args=[project.pk, pk]),
    }
    return pages.sheet(
        request,
        project,
        "suppliers/supplier.html",
        context,
        current="suppliers",
        part="sheet",
        status=opened.status if opened else 200,
        says=says,
    )


def to_directory(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    """After a change: the directory, as a piece or by a redirect."""
    url = reverse("suppliers:suppliers", args=[project.pk])
    return pages.after(request, url, says, lambda: directory_page(request, project, says=says))


def to_supplier(request: HttpRequest, project: Project, pk: int, says: str) -> HttpResponse:
    """After a change: the supplier's page, as a piece or by a redirect."""
    url = reverse("suppliers:supplier", args=[project.pk, pk])
    page = partial(supplier_page, request, project, pk, says=says)
    return pages.after(request, url, says, page, push=False)
