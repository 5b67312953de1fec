"""Key dates from a calendar file: read it, look at what it holds, keep what is ticked."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_POST

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import sheet
from schedules import engine
from schedules.forms.feeds import FileForm, KeepForm, packed, unpacked
from schedules.forms.plain import explain
from schedules.selectors.file_dates import Found
from schedules.services.file_dates import from_file, keep_days, news_of
from schedules.views.feeds import show

Days = Collection[Found]


@require_POST
def dates_read(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = FileForm(request.POST, request.FILES, project=project, today=today(project))
    if not form.is_valid():
        return show(request, project, form=form)
    found = form.cleaned_data["file"]
    keep = KeepForm(project=project, initial={"found": packed(project, found.days)})
    return offer(request, project, keep, found.days, left_out=found.left_out)


@require_POST
def dates_keep(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = KeepForm(request.POST, project=project)
    if form.is_valid():
        try:
            return kept(request, project, form.cleaned_data)
        except engine.ScheduleError as error:
            explain(form, error)
    days = unpacked(project, request.POST.get("found", "")) or []
    return offer(request, project, form, days, ticked=request.POST.getlist("tick"))


def kept(request: HttpRequest, project: Project, data: dict[str, Any]) -> HttpResponse:
    says = keep_days(
        project=project,
        user=request.user,
        today=today(project),
        days=data["days"],
        kind=data["kind"],
    )
    messages.success(request, says)
    return redirect(reverse("schedules:schedule", args=[project.pk]) + "#dates")


def offer(
    request: HttpRequest,
    project: Project,
    form: KeepForm,
    days: Days,
    *,
    left_out: int = 0,
    ticked: list[str] | None = None,
) -> HttpResponse:
    """What was read, with a tick each; new and moved days are ticked at first."""
    known = from_file(project)
    rows = []
    for place, day in enumerate(days):
        before = known.get(day.uid)
        news = news_of(day, before)
        tick = bool(news) if ticked is None else str(place) in ticked
        rows.append({"place": place, "day": day, "before": before, "news": news, "tick": tick})
    context = {"form": form, "rows": rows, "left_out": left_out}
    status = 422 if form.is_bound else 200
    return sheet(
        request, project, "schedules/dates_found.html", context, current="schedule", status=status
    )
