"""Dated rates and thresholds, each with its source, and who was paid how much in a year."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from budgets.forms.facts import FactForm
from budgets.models import DatedFact
from budgets.selectors.facts import fact_sheet
from budgets.services import facts as services
from budgets.views.pages import shown
from projects import pages
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import Opened, data_of, posted


@require_GET
def facts(request: HttpRequest, project_id: int) -> HttpResponse:
    return facts_page(request, project_for(request.user, project_id))


@require_http_methods(["GET", "POST"])
def fact_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    initial = {"name": request.GET.get("name", ""), "valid_from": today(project)}
    form = FactForm(data_of(request), instance=DatedFact(project=project), initial=initial)
    if posted(request) and form.is_valid():
        says = services.save_fact(fact=form.instance, user=request.user)
        return to_facts(request, project, says)
    url = reverse("budgets:fact-add", args=[project.pk])
    opened = Opened(what="fact-add", action=url, heading="Add a value", form=form)
    return facts_page(request, project, opened=opened)


@require_http_methods(["GET", "POST"])
def fact_delete(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    fact = get_object_or_404(DatedFact.objects.select_related("project"), project=project, pk=pk)
    if posted(request):
        return to_facts(request, project, services.delete_fact(fact=fact, user=request.user))
    opened = Opened(
        what="fact-delete",
        action=reverse("budgets:fact-delete", args=[project.pk, pk]),
        heading=f"Take out {services.described(fact)}?",
        question="What was reckoned with it keeps its amount.",
        pk=pk,
    )
    return facts_page(request, project, opened=opened)


def facts_page(
    request: HttpRequest, project: Project, *, opened: Opened | None = None, says: str = ""
) -> HttpResponse:
    context = {
        "f": fact_sheet(project, today(project)),
        "opened": opened,
        "back": reverse("budgets:facts", args=[project.pk]),
    }
    status = opened.status if opened else 200
    return shown(request, project, "facts.html", context, status=status, says=says)


def to_facts(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    url = reverse("budgets:facts", args=[project.pk])
    return pages.after(request, url, says, lambda: facts_page(request, project, says=says))
