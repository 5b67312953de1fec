"""A claim on paper, with its receipts bound in behind it."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

from budgets.selectors.claims.paper import claim_report
from budgets.views.claims import claim_in
from budgets.views.reports import as_pdf, as_table
from projects.access import project_for


@require_GET
def claim_pdf(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    found = claim_in(project, pk)
    return as_pdf(project, found.fund, claim_report(found, draw=True))


@require_GET
def claim_csv(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    found = claim_in(project, pk)
    return as_table(project, found.fund, claim_report(found), request.GET.get("table", ""))
