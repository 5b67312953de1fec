"""Time sheets and travel logs to sign, and letters to ask for, on paper."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_GET

from budgets.forms.travel_log import TravelLogForm
from budgets.models import Expense
from budgets.selectors.gift_kinds import kinds
from budgets.selectors.travel_log import travel_log as log_of
from budgets.selectors.travel_log import travellers, trips_of
from budgets.selectors.workings import workings_of
from budgets.views.gifts import gifts_page
from budgets.views.pages import expense_in
from projects.access import project_for
from projects.clock import today
from projects.files import PDF
from projects.models import Project
from projects.paper import print_page
from projects.words import hundredths

BLANK_SHEET, BLANK_LINES_LEFT = 12, 3


def as_pdf(
    project: Project, template: str, heading: str, context: dict[str, Any], name: str
) -> HttpResponse:
    told = {"project": project, "heading": heading, "about": heading, "day": today(project)}
    data = print_page(f"budgets/paper/{template}", {**told, **context})
    response = HttpResponse(data, content_type=PDF)
    response["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return response


@require_GET
def blank_sheet(request: HttpRequest, project_id: int) -> HttpResponse:
    """Lines to fill in by hand and to sign on the spot."""
    project = project_for(request.user, project_id)
    context: dict[str, Any] = {"hours": [], "blanks": range(BLANK_SHEET), "expense": None}
    return as_pdf(project, "time_sheet.html", "Time sheet", context, "time-sheet")


@require_GET
def filled_sheet(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """What was written down, to be signed where it is not."""
    project = project_for(request.user, project_id)
    expense = expense_in(project, pk)
    hours = list(expense.hours.all())
    if not hours:
        return redirect("budgets:expense", project.pk, pk)
    context = {
        "hours": hours,
        "blanks": range(BLANK_LINES_LEFT),
        "expense": expense,
        "total": hundredths(sum(row.hundredths for row in hours)),
        "kind": kinds().get(expense.gift_kind),
        "workings": workings_of(expense),
    }
    heading = f"Time sheet, {expense.payee}"
    return as_pdf(project, "time_sheet.html", heading, context, f"time-sheet-{pk}")


@require_GET
def letter(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """A letter that the giver or lender only has to sign."""
    project = project_for(request.user, project_id)
    expense: Expense = expense_in(project, pk)
    kind = kinds().get(expense.gift_kind)
    if not expense.in_kind:
        return redirect("budgets:expense", project.pk, pk)
    context = {"expense": expense, "kind": kind, "workings": workings_of(expense)}
    return as_pdf(project, "letter.html", f"Letter of {expense.payee}", context, f"letter-{pk}")


@require_GET
def travel_log(request: HttpRequest, project_id: int) -> HttpResponse:
    """Somebody's drives in a time, each at the rate of its day."""
    project = project_for(request.user, project_id)
    if "who" not in request.GET:
        return redirect("budgets:gifts", project.pk)
    trips = trips_of(project)
    form = TravelLogForm(request.GET, names=travellers(trips))
    if not form.is_valid():
        return gifts_page(request, project, log=form)
    who, first, last = (form.cleaned_data[name] for name in ("who", "first", "last"))
    log = log_of(trips, who, first, last)
    if not log.drives:
        form.add_error("first", f"{who} drove nowhere in these days. Ask for others.")
        return gifts_page(request, project, log=form)
    context = {"log": log, "first": first, "last": last}
    return as_pdf(project, "travel_log.html", f"Travel log, {who}", context, "travel-log")
