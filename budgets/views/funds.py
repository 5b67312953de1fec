"""A fund: its page, its form, its end."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from budgets.facts import all_of
from budgets.fit import symbol_of
from budgets.forms.funds import FundEdit, FundForm, FundStart
from budgets.models import Fund
from budgets.selectors.rules import pattern_sentences
from budgets.services import funds as services
from budgets.views.pages import fund_in, fund_page, shown, to_fund, to_money
from projects.access import project_for
from projects.clock import today
from projects.meanwhile import Overtaken
from projects.models import Project
from projects.pages import data_of, posted
from projects.words import plural

CLAIMED = (
    "Claims were made on this fund, or count its money as match. What was filed is kept for the "
    "audit: close the fund instead."
)


@require_GET
def fund(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return fund_page(request, project, fund_in(project, pk))


@require_http_methods(["GET", "POST"])
def fund_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = FundStart(data_of(request), instance=Fund(project=project), initial=request.GET.dict())
    if posted(request) and form.is_valid():
        made = services.save_fund(
            fund=form.instance,
            values=form.values(),
            user=request.user,
            pattern=form.chosen,
            today=today(project),
        )
        return to_fund(request, project, made, f"Saved {made.name}.")
    back = reverse("budgets:money", args=[project.pk])
    context = {"back": back, "chosen": form.chosen, "sentences": sentences(project, form)}
    return form_page(request, project, form, "Add a fund", context)


def sentences(project: Project, form: FundStart) -> list[str]:
    if form.chosen is None:
        return []
    return pattern_sentences(form.chosen, all_of(project), today(project), symbol_of(project))


@require_http_methods(["GET", "POST"])
def fund_edit(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = FundEdit(data_of(request), instance=fund_in(project, pk))
    if posted(request) and form.is_valid():
        try:
            made = services.save_fund(
                fund=form.instance, values=form.values(), user=request.user, today=today(project)
            )
            return to_fund(request, project, made, f"Saved {made.name}.")
        except Overtaken:
            form = FundEdit(data_of(request), instance=fund_in(project, pk))
    name = fund_in(project, pk).name
    back = reverse("budgets:fund", args=[project.pk, pk])
    return form_page(request, project, form, f"Change {name}", {"back": back})


def form_page(
    request: HttpRequest, project: Project, form: FundForm, heading: str, more: dict[str, Any]
) -> HttpResponse:
    context = {"form": form, "heading": heading, **more}
    overtaken = getattr(form, "overtaken", False)
    status = 200 if not posted(request) else 409 if overtaken else 422
    return shown(request, project, "fund_form.html", context, status=status)


@require_http_methods(["GET", "POST"])
def fund_delete(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found, problem = fund_in(project, pk), ""
    if posted(request):
        try:
            services.delete_fund(fund=found, user=request.user)
            return to_money(request, project, f"Deleted {found.name}.")
        except services.FundClaimed:
            problem = CLAIMED
    count = found.shares.count()
    lost = f"{plural(count, 'expense')} paid from it will have no fund for that part."
    context = {
        "heading": f"Delete {found.name}?",
        "warning": lost if count else "No expense is paid from it.",
        "problem": problem,
        "back": reverse("budgets:fund", args=[project.pk, pk]),
    }
    return shown(request, project, "confirm.html", context, status=409 if problem else 200)
