"""The room of claims, a new claim, one claim, and what becomes of it."""

from __future__ import annotations

from typing import Any

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from budgets.forms.claims import BackForm, ClaimForm, CorrectForm, FileForm, IncomeForm, PaidForm
from budgets.models import Claim, ClaimKind, ClaimShare, Fund, Income
from budgets.selectors.claims.page import claim_sheet, sentence
from budgets.selectors.claims.room import claims_room, ledger_of
from budgets.services import claims as services
from budgets.services import income as incomes
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
    initial = {"to_day": today(project), "kind": usual_kind(fund)}
    form = ClaimForm(data_of(request), today=today(project), initial=initial)
    if posted(request) and form.is_valid():
        values = form.cleaned_data
        try:
            made = services.prepare_claim(
                fund=fund,
                through=values["to_day"],
                final=values["is_final"],
                kind=values["kind"],
                today=today(project),
                user=request.user,
            )
            return to_claim(request, project, made, f"Prepared claim {made.number}.")
        except services.Refused as refused:
            form.add_error(refused.field, refused.sentence)
    return form_page(request, project, form, f"Claim from {fund.name}", "Prepare it")


def usual_kind(fund: Fund) -> str:
    """A fund that pays all of it ahead is accounted to, not asked."""
    payment = ledger_payment(fund)
    return ClaimKind.REPORT if payment and not payment.back else ClaimKind.CLAIM


def ledger_payment(fund: Fund) -> Any:
    found = ledger_of(fund).payment if fund.status in ("signed", "closed") else None
    return found if found and found.said else None


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
        except services.Refused as refused:
            return claim_page(request, project, claim_in(project, pk), problem=refused.sentence)
    return form_page(request, project, form, f"File claim {found.number}", "File it", found)


@require_POST
def claim_refresh(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = claim_in(project, pk)
    try:
        services.refresh_claim(claim=found, user=request.user)
    except services.Refused as refused:
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
    except services.Refused as refused:
        return claim_page(request, project, found, problem=refused.sentence)
    return to_claims(request, project, "Dropped the claim.")


def to_claims(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    url = reverse("budgets:claims", args=[project.pk])
    room = {"room": claims_room(project, today(project))}
    return pages.after(
        request, url, says, lambda: shown(request, project, "claims.html", room, says=says)
    )


@require_http_methods(["GET", "POST"])
def claim_back(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = claim_in(project, pk)
    form = BackForm(data_of(request))
    if posted(request) and form.is_valid():
        try:
            services.send_back(claim=found, reason=form.cleaned_data["reason"], user=request.user)
            return to_claim(request, project, found, "Sent back: nothing of it is held any more.")
        except services.Refused as refused:
            return claim_page(request, project, found, problem=refused.sentence)
    heading = f"Claim {found.number} was sent back"
    return form_page(request, project, form, heading, "Save", found)


@require_http_methods(["GET", "POST"])
def claim_pay(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = claim_in(project, pk)
    left = found.due_cents - sum(row.cents for row in found.income.all())
    initial = {"cents": max(0, left) or None, "day": today(project)}
    form = PaidForm(data_of(request), today=today(project), initial=initial)
    if posted(request) and form.is_valid():
        try:
            services.pay_claim(claim=found, user=request.user, **form.cleaned_data)
            return to_claim(request, project, found, "Logged the money.")
        except services.Refused as refused:
            form.add_error(refused.field, refused.sentence)
    heading = f"Money for claim {found.number}"
    return form_page(request, project, form, heading, "Save", found)


@require_http_methods(["GET", "POST"])
def claim_correct(
    request: HttpRequest, project_id: int, pk: int, claim_share_id: int
) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    rows = ClaimShare.objects.select_related("claim__fund__project", "expense")
    row = get_object_or_404(rows, claim=claim_in(project, pk), pk=claim_share_id)
    form = CorrectForm(data_of(request), initial={"cents": row.cents})
    if posted(request) and form.is_valid():
        values = form.cleaned_data
        try:
            made = services.correct_share(
                row=row, today=today(project), user=request.user, **values
            )
            return to_claim(request, project, made, "The correction stands in the next claim.")
        except services.Refused as refused:
            form.add_error(refused.field, refused.sentence)
    heading = f"Take back some of {row.expense.payee} in the next claim"
    return form_page(request, project, form, heading, "Save", row.claim)


def form_page(
    request: HttpRequest,
    project: Project,
    form: forms.BaseForm,
    heading: str,
    button: str,
    found: Claim | None = None,
) -> HttpResponse:
    back = reverse("budgets:claims", args=[project.pk])
    if found:
        back = reverse("budgets:claim", args=[project.pk, found.pk])
    context = {"form": form, "heading": heading, "button": button, "back": back}
    status = 422 if posted(request) else 200
    return shown(request, project, "claim_form.html", context, status=status)


@require_http_methods(["GET", "POST"])
def income_add(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """Money of a fund that belongs to no claim and no milestone."""
    project = project_for(request.user, project_id, change=True)
    fund = fund_in(project, pk)
    form = IncomeForm(
        data_of(request),
        instance=Income(fund=fund),
        today=today(project),
        initial={"day": today(project)},
    )
    if posted(request) and form.is_valid():
        says = incomes.save_income(income=form.instance, user=request.user)
        return to_claims(request, project, says)
    return form_page(request, project, form, f"Money that came from {fund.name}", "Save")


@require_http_methods(["GET", "POST"])
def income_delete(request: HttpRequest, project_id: int, income_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    rows = Income.objects.select_related("fund__project", "claim")
    row = get_object_or_404(rows, fund__project=project, pk=income_id)
    if posted(request):
        return to_claims(request, project, incomes.delete_income(income=row, user=request.user))
    context = {
        "heading": f"Take this money out: {row}?",
        "warning": "If it was for a claim, that is awaited again.",
        "back": reverse("budgets:claims", args=[project.pk]),
    }
    return shown(request, project, "confirm.html", context)
