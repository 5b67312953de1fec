"""A fund: its page, its form, its end."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from budgets.forms.funds import FundForms
from budgets.models import Fund
from budgets.services import funds as services
from budgets.views.pages import fund_in, fund_page, shown, to_fund, to_money
from projects.access import project_for
from projects.models import Project
from projects.pages import data_of, posted
from projects.words import plural


@require_GET
def fund(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return fund_page(request, project, fund_in(project, pk))


@require_http_methods(["GET", "POST"])
def fund_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    return fund_form(request, project, Fund(project=project), "Add a fund")


@require_http_methods(["GET", "POST"])
def fund_edit(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = fund_in(project, pk)
    return fund_form(request, project, found, f"Change {found.name}")


def fund_form(request: HttpRequest, project: Project, fund: Fund, heading: str) -> HttpResponse:
    """The form of a new or a saved fund."""
    typed = FundForms(fund, data_of(request))
    if posted(request) and typed.is_valid():
        services.save_fund(
            fund=fund, values=typed.form.values(), rules=typed.rules(), user=request.user
        )
        return to_fund(request, project, fund, f"Saved {fund.name}.")
    sheet = reverse("budgets:money", args=[project.pk])
    back = reverse("budgets:fund", args=[project.pk, fund.pk]) if fund.pk else sheet
    context = {"typed": typed, "form": typed.form, "heading": heading, "back": back}
    status = 422 if posted(request) else 200
    return shown(request, project, "fund_form.html", context, status=status)


@require_http_methods(["GET", "POST"])
def fund_delete(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = fund_in(project, pk)
    if posted(request):
        services.delete_fund(fund=found, user=request.user)
        return to_money(request, project, f"Deleted {found.name}.")
    count = found.shares.count()
    lost = f"{plural(count, 'expense')} paid from it will have no fund for that part."
    context = {
        "heading": f"Delete {found.name}?",
        "warning": lost if count else "No expense is paid from it.",
        "back": reverse("budgets:fund", args=[project.pk, pk]),
    }
    return shown(request, project, "confirm.html", context)
