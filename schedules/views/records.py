"""Keep the plan as the plan of record, and hold plans against each other."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import after, sheet
from schedules.forms.plain import focus_first
from schedules.forms.reasons import ReasonForm
from schedules.forms.record import NOW, CompareForm
from schedules.selectors.record import plans_kept, record_sheet
from schedules.services.records import keep_plan

TEMPLATE = "schedules/record.html"


@require_GET
def record(request: HttpRequest, project_id: int) -> HttpResponse:
    return show_record(request, project_for(request.user, project_id))


def show_record(
    request: HttpRequest,
    project: Project,
    opened: dict[str, Any] | None = None,
    says: str = "",
    status: int = 200,
) -> HttpResponse:
    kept = plans_kept(project)
    asked = {"second": NOW, **request.GET.dict()} if "first" in request.GET else None
    form = CompareForm(asked, kept=kept)
    context = record_sheet(project, today(project), *form.letters)
    context |= {"records": kept, "form": form, "opened": opened or {}}
    if form.is_bound and form.errors:
        status = 422
    return sheet(
        request,
        project,
        TEMPLATE,
        context,
        current="schedule",
        part="sheet",
        status=status,
        says=says,
    )


@require_http_methods(["GET", "POST"])
def record_keep(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = ReasonForm(request.POST or None)
    if request.method == "GET":
        focus_first(form)
        return show_record(request, project, {"kind": "record", "form": form})
    if not form.is_valid():
        return show_record(request, project, {"kind": "record", "form": form}, status=422)
    kept = keep_plan(
        project=project,
        user=request.user,
        today=today(project),
        reason=form.cleaned_data["reason"],
    )
    says, url = (
        f"The plan is kept as Rev {kept.letter}.",
        reverse("schedules:record", args=[project.pk]),
    )
    return after(request, url, says, lambda: show_record(request, project, says=says))
