"""The agreed budget of a fund, and requests to change it."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from budgets.forms.reports import AgreedForm, AnswerForm, ChangeForm, DayForm
from budgets.models import ChangeRequest, ChangeState, Fund
from budgets.selectors.reports.changes import ChangeRow, change_report, changes_of
from budgets.selectors.reports.source import read_source
from budgets.selectors.reports.table import Report
from budgets.services import changes as services
from budgets.views.pages import fund_in, shown
from budgets.views.reports import as_pdf, as_table
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import after, data_of, posted


def change_in(project: Project, pk: int) -> ChangeRequest:
    rows = ChangeRequest.objects.select_related("fund__project")
    return get_object_or_404(rows, fund__project=project, pk=pk)


@require_GET
def changes(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return changes_page(request, project, fund_in(project, pk))


def changes_page(
    request: HttpRequest, project: Project, fund: Fund, *, says: str = ""
) -> HttpResponse:
    rows = [ChangeRow(row) for row in changes_of(fund)]
    context = {"fund": fund, "rows": rows, "agreed": sum((fund.approved or {}).values())}
    return shown(request, project, "changes.html", context, says=says)


@require_http_methods(["GET", "POST"])
def agreed(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    fund = fund_in(project, pk)
    form = AgreedForm(data_of(request), fund=fund, amounts=fund.approved or {})
    if posted(request) and form.is_valid():
        services.set_agreed(fund=fund, amounts=form.amounts(), user=request.user)
        return to_changes(request, project, fund, f"Saved what {fund.name} agreed to.")
    words = f"Budget that {fund.name} agreed to"
    return amounts_page(request, project, form, words, reverse_changes(project, fund))


@require_http_methods(["GET", "POST"])
def change_add(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    fund = fund_in(project, pk)
    return change_form(request, project, ChangeRequest(fund=fund, revised=fund.approved or {}))


@require_http_methods(["GET", "POST"])
def change_edit(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = change_in(project, pk)
    if found.state != ChangeState.DRAFT:
        return change_page(request, project, found, problem=services.PastThat(found).words)
    return change_form(request, project, found)


def change_form(request: HttpRequest, project: Project, found: ChangeRequest) -> HttpResponse:
    fund = found.fund
    initial = {"reason": found.reason}
    form = ChangeForm(data_of(request), fund=fund, amounts=found.revised, initial=initial)
    back = to_url(project, found) if found.pk else reverse_changes(project, fund)
    if posted(request) and form.is_valid():
        values = {"amounts": form.amounts(), "reason": form.cleaned_data["reason"]}
        saved = services.save_change(request=found, user=request.user, **values)
        return to_change(request, project, saved, "Saved the request.")
    heading = f"Ask {fund.name} for another budget"
    return amounts_page(request, project, form, heading, back)


def amounts_page(
    request: HttpRequest, project: Project, form: Any, heading: str, back: str
) -> HttpResponse:
    context = {"form": form, "heading": heading, "back": back, "fund": form.fund}
    status = 422 if form.is_bound else 200
    return shown(request, project, "amounts.html", context, status=status)


@require_GET
def change(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return change_page(request, project, change_in(project, pk))


def change_page(
    request: HttpRequest,
    project: Project,
    found: ChangeRequest,
    *,
    form: DayForm | None = None,
    problem: str = "",
    says: str = "",
) -> HttpResponse:
    kinds = {ChangeState.DRAFT: DayForm, ChangeState.SENT: AnswerForm}
    kind = kinds.get(ChangeState(found.state))
    blank = kind(initial={"day": today(project)}) if kind else None
    context = {"c": found, "fund": found.fund, "r": report_of(project, found), "problem": problem}
    context |= {"form": form or blank, "is_draft": found.state == ChangeState.DRAFT}
    status = 409 if problem else (422 if form else 200)
    return shown(request, project, "change.html", context, status=status, says=says)


def report_of(project: Project, found: ChangeRequest) -> Report:
    return change_report(read_source(project, today(project)), found)


@require_http_methods(["POST"])
def change_send(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = change_in(project, pk)
    form = DayForm(request.POST, initial={"day": today(project)})
    if found.state == ChangeState.DRAFT and not form.is_valid():
        return change_page(request, project, found, form=form)
    return moved_on(request, project, found, form, says="Noted that it was sent.")


@require_http_methods(["POST"])
def change_answer(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = change_in(project, pk)
    form = AnswerForm(request.POST, initial={"day": today(project)})
    if found.state == ChangeState.SENT and not form.is_valid():
        return change_page(request, project, found, form=form)
    return moved_on(request, project, found, form, says="Noted what the fund said.")


def moved_on(
    request: HttpRequest, project: Project, found: ChangeRequest, form: DayForm, *, says: str
) -> HttpResponse:
    """Sent, agreed or refused; 409 with the reason when it has gone on meanwhile."""
    form.is_valid()
    day = form.cleaned_data.get("day") or today(project)
    try:
        if isinstance(form, AnswerForm):
            agreed = form.cleaned_data.get("answer") == "agreed"
            services.answer_change(request=found, agreed=agreed, day=day, user=request.user)
        else:
            services.send_change(request=found, day=day, user=request.user)
    except services.PastThat as error:
        return change_page(request, project, change_in(project, found.pk), problem=error.words)
    return to_change(request, project, found, says)


@require_http_methods(["GET", "POST"])
def change_delete(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = change_in(project, pk)
    fund = found.fund
    if posted(request):
        try:
            services.delete_change(request=found, user=request.user)
        except services.PastThat as error:
            return change_page(request, project, found, problem=error.words)
        return to_changes(request, project, fund, "Dropped the request.")
    context = {
        "heading": "Drop this request?",
        "warning": "It was not sent yet; what is typed in it goes for good.",
        "back": to_url(project, found),
    }
    return shown(request, project, "confirm.html", context)


@require_GET
def change_pdf(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    found = change_in(project, pk)
    return as_pdf(project, found.fund, report_of(project, found))


@require_GET
def change_csv(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    found = change_in(project, pk)
    return as_table(project, found.fund, report_of(project, found), "")


def to_url(project: Project, found: ChangeRequest) -> str:
    return reverse("budgets:change", args=[project.pk, found.pk])


def reverse_changes(project: Project, fund: Fund) -> str:
    return reverse("budgets:changes", args=[project.pk, fund.pk])


def to_change(
    request: HttpRequest, project: Project, found: ChangeRequest, says: str
) -> HttpResponse:
    def page() -> HttpResponse:
        return change_page(request, project, change_in(project, found.pk), says=says)

    return after(request, to_url(project, found), says, page)


def to_changes(request: HttpRequest, project: Project, fund: Fund, says: str) -> HttpResponse:
    def page() -> HttpResponse:
        return changes_page(request, project, fund, says=says)

    return after(request, reverse_changes(project, fund), says, page)
