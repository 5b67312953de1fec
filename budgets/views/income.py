"""Money that came from a fund, beside its claims."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from budgets.forms.claims import IncomeForm, PaidBackForm
from budgets.models import Income
from budgets.selectors.claims.ledger import ledger_of
from budgets.services import income as services
from budgets.services.claim_checks import Refused
from budgets.views.claims import form_page, to_claims
from budgets.views.pages import fund_in, shown
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import data_of, posted

AWAITED = "If it was for a claim or a milestone, that is awaited again."
OWED = "What was accounted for too little is owed to the fund again."


def income_in(project: Project, pk: int) -> Income:
    rows = Income.objects.select_related("fund__project", "claim", "milestone")
    return get_object_or_404(rows, fund__project=project, pk=pk)


@require_http_methods(["GET", "POST"])
def income_add(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """Money of a fund that belongs to no claim and no milestone."""
    project = project_for(request.user, project_id, change=True)
    fund = fund_in(project, pk)
    return saved(request, project, Income(fund=fund), f"Money that came from {fund.name}")


@require_http_methods(["GET", "POST"])
def income_back(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """What is owed to a fund and goes back; the form opens with all of it."""
    project = project_for(request.user, project_id, change=True)
    fund = fund_in(project, pk)
    row = Income(fund=fund, cents=-ledger_of(fund).to_pay_back)
    return saved(request, project, row, f"Money paid back to {fund.name}", PaidBackForm)


@require_http_methods(["GET", "POST"])
def income_edit(request: HttpRequest, project_id: int, income_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    row = income_in(project, income_id)
    if row.went_back:
        return saved(request, project, row, "Correct what was paid back", PaidBackForm)
    return saved(request, project, row, "Correct what came")


def saved(
    request: HttpRequest,
    project: Project,
    row: Income,
    heading: str,
    kind: type[IncomeForm] = IncomeForm,
) -> HttpResponse:
    day = today(project)
    form = kind(data_of(request), instance=row, today=day, initial={} if row.pk else {"day": day})
    if posted(request) and form.is_valid():
        try:
            says = services.save_income(income=form.instance, user=request.user)
            return to_claims(request, project, says)
        except Refused as refused:
            form.add_error(refused.field, refused.sentence)
    return form_page(request, project, form, heading, "Save")


@require_http_methods(["GET", "POST"])
def income_delete(request: HttpRequest, project_id: int, income_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    row = income_in(project, income_id)
    if posted(request):
        return to_claims(request, project, services.delete_income(income=row, user=request.user))
    way = "paid back to" if row.went_back else "from"
    context = {
        "heading": f"Take out {services.told(row)} {way} {row.fund.name}?",
        "warning": OWED if row.went_back else AWAITED,
        "back": reverse("budgets:claims", args=[project.pk]),
    }
    return shown(request, project, "confirm.html", context)
