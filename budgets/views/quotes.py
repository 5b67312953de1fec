"""Quotes asked for and compared: the list, one request, and what is asked for."""

from __future__ import annotations

from datetime import date

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from budgets.forms.quotes import RequestForm
from budgets.services import quotes as services
from budgets.views.quotes_pages import list_page, request_in, the_page, to_list, to_request
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import Opened, data_of, posted
from suppliers.models import QuoteRequest


@require_GET
def quotes(request: HttpRequest, project_id: int) -> HttpResponse:
    return list_page(request, project_for(request.user, project_id))


@require_GET
def request_page(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """The comparison; `on` in the address asks what if it were ordered that day."""
    project = project_for(request.user, project_id)
    return the_page(request, project, request_in(project, pk), on=day_asked(request))


def day_asked(request: HttpRequest) -> date | None:
    try:
        return date.fromisoformat(request.GET.get("on", ""))
    except ValueError:
        return None


@require_http_methods(["GET", "POST"])
def request_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = request_form(request, project, QuoteRequest(project=project))
    if posted(request) and form.is_valid():
        says = saved(request, form)
        return to_request(request, project, form.instance, says)
    url = reverse("budgets:quotes-add", args=[project.pk])
    opened = Opened(what="add", action=url, heading="Ask for quotes", form=form)
    return list_page(request, project, opened=opened)


@require_http_methods(["GET", "POST"])
def request_edit(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = request_in(project, pk)
    form = request_form(request, project, request_in(project, pk))
    if posted(request) and form.is_valid():
        return to_request(request, project, form.instance, saved(request, form))
    url = reverse("budgets:quotes-edit", args=[project.pk, pk])
    opened = Opened(what="edit", action=url, heading=f"Change “{found.title}”", form=form)
    return the_page(request, project, found, opened=opened)


def request_form(request: HttpRequest, project: Project, row: QuoteRequest) -> RequestForm:
    return RequestForm(data_of(request), instance=row, project=project, today=today(project))


def saved(request: HttpRequest, form: RequestForm) -> str:
    return services.save_request(
        request=form.instance,
        purchase=form.purchase(),
        suppliers=form.cleaned_data["suppliers"],
        user=request.user,
    )


@require_http_methods(["GET", "POST"])
def request_delete(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found, problem = request_in(project, pk), ""
    if posted(request):
        try:
            return to_list(
                request, project, services.delete_request(request=found, user=request.user)
            )
        except services.Refused as refused:
            problem = str(refused)
    opened = Opened(
        what="delete",
        action=reverse("budgets:quotes-delete", args=[project.pk, pk]),
        heading=f"Delete “{found.title}”?",
        question="The answers that came and their files go with it.",
        problem=problem,
    )
    return the_page(request, project, found, opened=opened)


@require_POST
def asked_all(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """Everybody who is listed was sent the words."""
    project = project_for(request.user, project_id, change=True)
    found = request_in(project, pk)
    says = services.mark_asked(quotes=found.quotes.all(), user=request.user, today=today(project))
    return to_request(request, project, found, says)
