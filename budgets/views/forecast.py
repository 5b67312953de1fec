"""What it will all have cost: each line's rest changed in place, and draws on the contingency."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from budgets.engine.pool import DrawTooLarge
from budgets.forms.forecast import DrawForm, ToComeForm, too_much
from budgets.models import Draw
from budgets.selectors.forecast import ForecastSheet, forecast_sheet
from budgets.selectors.forecast_words import forecast_matters
from budgets.selectors.lapse import Lapse, lapse_of
from budgets.services import draws as services
from budgets.views.pages import line_in, shown
from projects import pages
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import Opened, data_of, posted
from projects.words import day, money

WHERE_TO = (
    "The money moves to a line that a fund can pay: many funds do not pay for a contingency itself."
)


@require_GET
def forecast(request: HttpRequest, project_id: int) -> HttpResponse:
    return forecast_page(request, project_for(request.user, project_id))


@require_GET
def lapse(request: HttpRequest, project_id: int) -> HttpResponse:
    """Who will have paid it: alone for htmx, else the page with it."""
    project = project_for(request.user, project_id)
    found = lapse_of(project, today(project))
    if pages.wants_part(request):
        context = {"project": project, "lapse": found}
        return render(request, "budgets/forecast.html#lapse", context)
    return forecast_page(request, project, lapse=found)


def forecast_page(
    request: HttpRequest,
    project: Project,
    *,
    sheet: ForecastSheet | None = None,
    lapse: Lapse | None = None,
    opened: Opened | None = None,
    says: str = "",
) -> HttpResponse:
    sheet = sheet or forecast_sheet(project, today(project))
    context = {
        "sheet": sheet,
        "matters": forecast_matters(project, sheet),
        "lapse": lapse,
        "opened": opened,
        "back": reverse("budgets:forecast", args=[project.pk]),
    }
    status = opened.status if opened else 200
    return shown(request, project, "forecast.html", context, status=status, says=says)


def to_forecast(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    url = reverse("budgets:forecast", args=[project.pk])
    return pages.after(request, url, says, lambda: forecast_page(request, project, says=says))


@require_http_methods(["GET", "POST"])
def line(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """What one line still needs."""
    project = project_for(request.user, project_id, change=True)
    row = line_in(project, pk)
    form = ToComeForm(data_of(request), instance=row, project=project)
    if posted(request) and form.is_valid():
        says = services.say_what_comes(line=row, values=form.cleaned_data, user=request.user)
        return to_forecast(request, project, says)
    url, name = reverse("budgets:forecast-line", args=[project.pk, pk]), line_in(project, pk).name
    opened = Opened(what="line", action=url, heading=f"What {name} still needs", form=form, pk=pk)
    return forecast_page(request, project, opened=opened)


@require_http_methods(["GET", "POST"])
def draw_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    sheet = forecast_sheet(project, today(project))
    form = DrawForm(
        data_of(request),
        project=project,
        pools=[(reserve.line, reserve.pool.left) for reserve in sheet.reserves],
        lines=sheet.lines,
        initial=wanted(request, sheet),
    )
    if posted(request) and form.is_valid() and (says := drawn(request, project, form)):
        return to_forecast(request, project, says)
    url = reverse("budgets:draw-add", args=[project.pk])
    opened = Opened(
        what="draw",
        action=url,
        heading="Draw from the contingency",
        form=form,
        question=WHERE_TO,
        button="Draw it",
    )
    return forecast_page(request, project, sheet=sheet, opened=opened)


def wanted(request: HttpRequest, sheet: ForecastSheet) -> dict[str, Any]:
    """The line that the address names, and what it lacks, as far as the pool goes."""
    row = next((r for r in sheet.over if str(r.line.pk) == request.GET.get("line")), None)
    if row is None:
        return {}
    return {"target": row.line.pk, "cents": min(row.over, max(0, sheet.pool.left)) or None}


def drawn(request: HttpRequest, project: Project, form: DrawForm) -> str:
    """What was done; nothing when somebody else emptied the pool at the same moment."""
    values = {name: form.cleaned_data[name] for name in ("source", "target", "cents", "reason")}
    try:
        made = services.draw(**values, today=today(project), user=request.user)
    except DrawTooLarge as error:
        form.add_error("cents", too_much(error.left, project.currency))
        return ""
    return f"Drew {money(made.cents, project.currency)} to {made.target.name}."


@require_http_methods(["GET", "POST"])
def draw_undo(request: HttpRequest, project_id: int, draw_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    draws = Draw.objects.select_related("project", "source", "target")
    found = get_object_or_404(draws, project=project, pk=draw_id)
    if posted(request):
        return to_forecast(request, project, services.undraw(draw=found, user=request.user))
    amount = money(found.cents, project.currency)
    opened = Opened(
        what="undraw",
        action=reverse("budgets:draw-undo", args=[project.pk, draw_id]),
        heading=f"Put {amount} back into the contingency?",
        pk=draw_id,
        question=f"{found.target.name} loses what it got on {day(found.day)}.",
        button="Put it back",
    )
    return forecast_page(request, project, opened=opened)
