"""The parts of a fee or an award, on the page of its fund."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from budgets.forms.claims import PaidForm
from budgets.forms.milestones import InvoiceForm, MilestoneForm, SplitForm
from budgets.models import Fund, Income, Milestone
from budgets.services import income, milestones
from budgets.services.claim_checks import Refused
from budgets.views.claims import form_page
from budgets.views.pages import fund_in, shown, to_fund
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import data_of, posted


def milestone_in(project: Project, pk: int) -> Milestone:
    rows = Milestone.objects.select_related("fund__project")
    return get_object_or_404(rows, fund__project=project, pk=pk)


def back(fund: Fund) -> str:
    return reverse("budgets:fund", args=[fund.project_id, fund.pk])


@require_http_methods(["GET", "POST"])
def milestone_add(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    fund = fund_in(project, pk)
    return saved(request, project, Milestone(fund=fund), f"Add a part of {fund.name}")


@require_http_methods(["GET", "POST"])
def milestone_edit(request: HttpRequest, project_id: int, milestone_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    row = milestone_in(project, milestone_id)
    return saved(request, project, row, f"Change “{row.title}”")


def saved(request: HttpRequest, project: Project, row: Milestone, heading: str) -> HttpResponse:
    fund = row.fund
    form = MilestoneForm(data_of(request), instance=row, fund=fund)
    if posted(request) and form.is_valid():
        try:
            milestones.save_milestone(row=form.instance, user=request.user)
            return to_fund(request, project, fund, f"Saved “{row.title}”.")
        except Refused as refused:
            form.add_error(refused.field, refused.sentence)
    return form_page(request, project, form, heading, "Save", back=back(fund))


@require_http_methods(["GET", "POST"])
def milestone_split(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """All parts at once, by percent."""
    project = project_for(request.user, project_id, change=True)
    fund = fund_in(project, pk)
    form = SplitForm(data_of(request))
    if posted(request) and form.is_valid():
        parts = form.cleaned_data["parts"]
        try:
            milestones.split_award(fund=fund, parts=parts, user=request.user)
            return to_fund(request, project, fund, "Split it. Say of each part when it is due.")
        except Refused as refused:
            form.add_error(None, refused.sentence)
    heading = f"Split {fund.name} into parts"
    return form_page(request, project, form, heading, "Split it", back=back(fund))


@require_http_methods(["GET", "POST"])
def milestone_delete(request: HttpRequest, project_id: int, milestone_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    row, problem = milestone_in(project, milestone_id), ""
    fund = row.fund
    if posted(request):
        try:
            milestones.delete_milestone(row=row, user=request.user)
            return to_fund(request, project, fund, f"Took out “{row.title}”.")
        except Refused as refused:
            problem = refused.sentence
    context = {
        "heading": f"Take out “{row.title}”?",
        "warning": "No invoice was sent for it.",
        "problem": problem,
        "back": back(fund),
    }
    return shown(request, project, "confirm.html", context, status=409 if problem else 200)


@require_http_methods(["GET", "POST"])
def milestone_invoice(request: HttpRequest, project_id: int, milestone_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    row, day = milestone_in(project, milestone_id), today(project)
    initial = {"invoice_no": row.invoice_no, "invoiced_on": row.invoiced_on or day}
    form = InvoiceForm(data_of(request), today=day, initial=initial)
    if posted(request) and form.is_valid():
        try:
            milestones.invoice(row=row, user=request.user, **form.cleaned_data)
            return to_fund(request, project, row.fund, f"Noted the invoice of “{row.title}”.")
        except Refused as refused:
            form.add_error(refused.field, refused.sentence)
    heading = f"Invoice for “{row.title}”"
    return form_page(request, project, form, heading, "Save", back=back(row.fund))


@require_http_methods(["GET", "POST"])
def milestone_pay(request: HttpRequest, project_id: int, milestone_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    row, day = milestone_in(project, milestone_id), today(project)
    left = row.cents - sum(came.cents for came in row.income.all())
    form = PaidForm(data_of(request), today=day, initial={"cents": left or None, "day": day})
    if posted(request) and form.is_valid():
        came = Income(fund=row.fund, milestone=row, **form.cleaned_data)
        try:
            says = income.save_income(income=came, user=request.user)
            return to_fund(request, project, row.fund, says)
        except Refused as refused:
            form.add_error(refused.field, refused.sentence)
    heading = f"Money for “{row.title}”"
    return form_page(request, project, form, heading, "Save", back=back(row.fund))
