"""The chance of the public date, what would buy more of it, and what it is computed from."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import after, data_of, posted, sheet, wants_part
from schedules import engine, titleblock
from schedules.forms.chance import EstimateForm, WeatherForm
from schedules.forms.plain import sentence
from schedules.models import ChanceResult, Task
from schedules.plan import current, read
from schedules.selectors.buys import buys
from schedules.selectors.chance import lede, odds
from schedules.services.chance import answered, ranking, save_estimate, save_weather

TOO_WET = "outdoor work would not end for years. Look at the wet days of each month."


@require_GET
def chance(request: HttpRequest, project_id: int) -> HttpResponse:
    return show(request, project_for(request.user, project_id))


@require_GET
def chance_buys(request: HttpRequest, project_id: int) -> HttpResponse:
    """The ranked list alone for htmx, else the page with it."""
    return show(request, project_for(request.user, project_id), part="buys", rank=True)


@require_GET
def chance_cell(request: HttpRequest, project_id: int) -> HttpResponse:
    """The figure of the title block, worked out if it has to be; else the page of it."""
    project = project_for(request.user, project_id)
    if not wants_part(request):
        return redirect(reverse("schedules:chance", args=[project.pk]))
    day = today(project)
    current(project, day)
    try:
        answered(read(project, day))
    except engine.ScheduleError:
        return HttpResponse(status=204)
    cell = titleblock.chance(project, day)
    return render(request, "_titlecell.html", {"cell": cell}) if cell else HttpResponse()


@require_POST
def chance_weather(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = WeatherForm(request.POST, weather=getattr(project, "weather", None))
    if not form.is_valid():
        return show(request, project, status=422, weather_form=form)
    source = form.cleaned_data["source"]
    says = save_weather(project=project, user=request.user, wet_days=form.wet_days(), source=source)
    return answer(request, project, says)


def chance_task(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    """What may come of a task: a form on the page."""
    project = project_for(request.user, project_id, change=True)
    task = get_object_or_404(Task, pk=task_id, project=project)
    form = EstimateForm(data_of(request), instance=task, project=project)
    if not posted(request) or not form.is_valid():
        status = 422 if posted(request) else 200
        return show(request, project, status=status, estimate=form)
    says = save_estimate(
        project=project, user=request.user, today=today(project), task=form.save(commit=False)
    )
    return answer(request, project, says)


def answer(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    url = reverse("schedules:chance", args=[project.pk])
    return after(request, url, says, lambda: show(request, project, says=says))


def show(
    request: HttpRequest,
    project: Project,
    *,
    part: str = "sheet",
    rank: bool = False,
    status: int = 200,
    says: str = "",
    **forms: Any,
) -> HttpResponse:
    day = today(project)
    current(project, day)
    rows = read(project, day)
    found, problem = worked_out(rows, rank)
    figures = odds(rows, found) if found else None
    bought = buys(rows, found) if found else None
    context = {
        "odds": figures,
        "buys": bought,
        "problem": problem,
        "public": rows.public,
        "lede": lede(rows, figures, bought.best if bought else ""),
        "weather": getattr(project, "weather", None),
        "weather_form": WeatherForm(weather=getattr(project, "weather", None)),
        **forms,
    }
    return sheet(
        request,
        project,
        "schedules/chance.html",
        context,
        current="schedule",
        part=part,
        status=status,
        says=says,
    )


def worked_out(rows: Any, rank: bool) -> tuple[ChanceResult | None, str]:
    try:
        return (ranking if rank else answered)(rows), ""
    except engine.ScheduleError as error:
        return None, TOO_WET if error.code == "too_wet" else sentence(error)
