"""What becomes of a filed claim: it came back, its money came, some of it is taken back."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_http_methods

from budgets.forms.claims import BackForm, CorrectForm, PaidForm
from budgets.models import ClaimShare
from budgets.services import claim_after as services
from budgets.services.claim_checks import Refused
from budgets.views.claims import claim_in, claim_page, form_page, to_claim
from projects.access import project_for
from projects.clock import today
from projects.pages import data_of, posted


@require_http_methods(["GET", "POST"])
def claim_back(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = claim_in(project, pk)
    form = BackForm(data_of(request))
    if posted(request) and form.is_valid():
        try:
            services.send_back(claim=found, reason=form.cleaned_data["reason"], user=request.user)
            return to_claim(request, project, found, "Sent back: nothing of it is held any more.")
        except Refused as refused:
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
        except Refused as refused:
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
        except Refused as refused:
            form.add_error(refused.field, refused.sentence)
    heading = f"Take back some of {row.expense.payee} in the next claim"
    return form_page(request, project, form, heading, "Save", row.claim)
