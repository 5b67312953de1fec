"""The room of claims, a new claim, one claim, and what becomes of it."""

from __future__ import annotations

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from budgets.forms.claims import ClaimForm, FileForm
from budgets.models import Claim
from budgets.selectors.claims.ledger import ledger_of
from budgets.selectors.claims.page import claim_sheet, sentence
from budgets.selectors.claims.room import claims_room
from budgets.services import claims as services
from budgets.services.claim_checks import Refused
from budgets.views.pages import fund_in, shown
from projects import pages
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import data_of, posted


def claim_in(project: Project, pk: int) -> Claim:
    claims = Claim.objects.select_related("fund__project").prefetch_related("shares", "income")
    return get_object_or_404(claims, fund__project=project, pk=pk)


@require_GET
def claims(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return shown(request, project, "claims.html", {"room": claims_room(project, today(project))})


@require_http_methods(["GET", "POST"])
def claim_add(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    fund = fund_in(project, pk)
    initial = {"to_day": today(project), "kind": ledger_of(fund).usual_kind}
    form = ClaimForm(data_of(request), today=today(project), initial=initial)
    if posted(request) and form.is_valid():
        try:
            made = services.prepare_claim(fund=fund, user=request.user, **form.chosen())
            return to_claim(request, project, made, f"Prepared claim {made.number}.")
        except Refused as refused:
            form.add_error(refused.field, refused.sentence)
    return form_page(request, project, form, f"Claim from {fund.name}", "Prepare it")


@require_GET
def claim(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return claim_page(request, project, claim_in(project, pk))


def claim_page(
    request: HttpRequest,
    project: Project,
    found: Claim,
    *,
    problem: str = "",
    says: str = "",
) -> HttpResponse:
    sheet = claim_sheet(found)
    context = {"s": sheet, "claim": found, "problem": problem}
    context["sentence"] = sentence(sheet, today(project))
    status = 409 if problem else 200
    return shown(request, project, "claim.html", context, status=status, says=says)


def to_claim(request: HttpRequest, project: Project, found: Claim, says: str) -> HttpResponse:
    url = reverse("budgets:claim", args=[project.pk, found.pk])
    return pages.after(
        request, url, says, lambda: claim_page(request, project, claim_in(project, found.pk))
    )


@require_http_methods(["GET", "POST"])
def claim_file(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = claim_in(project, pk)
    form = FileForm(data_of(request), today=today(project), initial={"filed_on": today(project)})
    if posted(request) and form.is_valid():
        try:
            services.file_claim(claim=found, user=request.user, **form.cleaned_data)
            return to_claim(request, project, found, "Filed. What it charges is held from now on.")
        except Refused as refused:
            if refused.field in form.fields:
                form.add_error(refused.field, refused.sentence)
                return form_page(request, project, form, file_heading(found), "File it", found)
            return claim_page(request, project, claim_in(project, pk), problem=refused.sentence)
    return form_page(request, project, form, file_heading(found), "File it", found)


def file_heading(found: Claim) -> str:
    return f"File claim {found.number}"


@require_http_methods(["GET", "POST"])
def claim_change(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """Another last day or another kind of a claim that is being prepared."""
    project = project_for(request.user, project_id, change=True)
    found = claim_in(project, pk)
    form = ClaimForm(data_of(request), today=today(project), initial=vars(found))
    if posted(request) and form.is_valid():
        try:
            services.change_claim(claim=found, user=request.user, **form.chosen())
            return to_claim(request, project, found, f"Changed claim {found.number}.")
        except Refused as refused:
            form.add_error(refused.field, refused.sentence)
    heading = f"Change claim {found.number} on {found.fund.name}"
    return form_page(request, project, form, heading, "Take it anew", found)


@require_POST
def claim_refresh(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = claim_in(project, pk)
    try:
        services.refresh_claim(claim=found, user=request.user)
    except Refused as refused:
        return claim_page(request, project, found, problem=refused.sentence)
    return to_claim(request, project, found, "Taken anew from the books.")


@require_http_methods(["GET", "POST"])
def claim_delete(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = claim_in(project, pk)
    if not posted(request):
        context = {
            "heading": f"Drop claim {found.number} on {found.fund.name}?",
            "warning": "It is not filed. Its expenses stay as they are.",
            "back": reverse("budgets:claim", args=[project.pk, pk]),
        }
        return shown(request, project, "confirm.html", context)
    try:
        services.delete_claim(claim=found, user=request.user)
    except Refused as refused:
        return claim_page(request, project, found, problem=refused.sentence)
    return to_claims(request, project, "Dropped the claim.")


def to_claims(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    url = reverse("budgets:claims", args=[project.pk])
    room = {"room": claims_room(project, today(project))}
    return pages.after(
        request, url, says, lambda: shown(request, project, "claims.html", room, says=says)
    )


def form_page(
    request: HttpRequest,
    project: Project,
    form: forms.BaseForm,
    heading: str,
    button: str,
    found: Claim | None = None,
    *,
    back: str = "",
) -> HttpResponse:
    if found:
        back = reverse("budgets:claim", args=[project.pk, found.pk])
    back = back or reverse("budgets:claims", args=[project.pk])
    context = {"form": form, "heading": heading, "button": button, "back": back}
    status = 422 if posted(request) else 200
    return shown(request, project, "claim_form.html", context, status=status)
