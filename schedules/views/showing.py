"""Answer with the schedule sheet, with a piece of it open or after a change."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.urls import reverse

from projects.clock import today
from projects.models import Project
from projects.pages import after, sheet
from schedules.selectors.ends import to_end
from schedules.selectors.schedule import (
    AGAINSTS,
    FOLDINGS,
    GROUPINGS,
    PLACINGS,
    ZOOMS,
    listing,
    schedule_sheet,
)
from schedules.views.returning import gone_back, remember, way_back

CHOICES: dict[str, Collection[str]] = {
    "by": GROUPINGS,
    "shown": FOLDINGS,
    "zoom": ZOOMS,
    "placed": PLACINGS,
    "against": AGAINSTS,
}
TEMPLATE = "schedules/schedule.html"
NOTHING = {"kind": "", "pk": None}  # stands open: each row asks, and what is missing is slow


def show(
    request: HttpRequest,
    project: Project,
    *,
    opened: dict[str, Any] | None = None,
    status: int = 200,
    says: str = "",
) -> HttpResponse:
    """The sheet; ``opened`` names the piece that is open for editing and holds its forms."""
    remember(request)
    wanted = {name: chosen(request, name, choices) for name, choices in CHOICES.items()}
    context = schedule_sheet(project, today(project), **wanted)
    context["to_end"] = counted = to_end(
        context["rows"], context["table"], end_of(request, project)
    )
    context["opened"] = opened = {**NOTHING, **(opened or {})}
    context |= listing(
        counted.rows, context["today"], by=wanted["by"], shown=wanted["shown"], opened=opened["pk"]
    )
    context["back"] = way_back(request, project)
    context["task_url"] = task_url(project)
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


def end_of(request: HttpRequest, project: Project) -> int | None:
    """The task that days in hand are counted to: asked for now, or earlier in this session."""
    key, asked = f"schedule-end-{project.pk}", request.GET.get("end", "")
    if asked.isdecimal():
        request.session[key] = int(asked[:9])
    return request.session.get(key)


def task_url(project: Project) -> str:
    """The start of every task's address: looking up 360 of them takes longer than the plan."""
    return reverse("schedules:task-edit", args=[project.pk, 0]).removesuffix("0/")


def chosen(request: HttpRequest, name: str, choices: Collection[str]) -> str:
    """How the user wants to see the sheet: asked for now, or earlier in this session."""
    kept = str(request.session.get(f"schedule-{name}", ""))
    asked = request.GET.get(name, "")
    if asked in choices and asked != kept:
        request.session[f"schedule-{name}"] = kept = asked
    return kept if kept in choices else next(iter(choices))


def changed(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    """After a change: the sheet for htmx, else back to it."""
    if back := way_back(request, project):
        return gone_back(request, back, says)
    url = reverse("schedules:schedule", args=[project.pk])
    return after(request, url, says, lambda: show(request, project, says=says), push=False)


def wrong(request: HttpRequest, project: Project, **opened: Any) -> HttpResponse:
    """What was typed, with what is wrong beside it."""
    return show(request, project, opened=opened, status=422)
