"""One pair of hands: who is booked twice, and the plan in which nobody is."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import after, sheet
from schedules import engine
from schedules.forms.plain import sentence
from schedules.plan import current
from schedules.selectors.hands import Book
from schedules.selectors.levelled import Level
from schedules.services.hands import apply_order, undo_order
from schedules.services.slip import PlanChanged


@require_GET
def hands(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return show(request, project, level=request.GET.get("level", ""))


def show(
    request: HttpRequest,
    project: Project,
    *,
    level: str = "",
    status: int = 200,
    says: str = "",
) -> HttpResponse:
    """``level`` is ``first`` or ``better`` where the levelled plan is wanted."""
    day = today(project)
    current(project, day)
    book = Book(project, day)
    context: dict[str, Any] = {
        "book": book,
        "level": None,
        "plan_changed": status == 409,
        "problem": "",
    }
    if level in ("first", "better"):
        try:
            context["level"] = Level(book, better=level == "better")
        except engine.ScheduleError as error:
            context["problem"] = book.problem(error) or sentence(error)
    return sheet(
        request,
        project,
        "schedules/hands.html",
        context,
        current="schedule",
        part="sheet",
        status=status,
        says=says,
    )


@require_POST
def hands_apply(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    seen = request.POST.get("seen", "")
    try:
        says = apply_order(project=project, user=request.user, today=today(project), seen=seen)
    except PlanChanged:
        return show(request, project, level="first", status=409)
    return changed(request, project, says)


@require_POST
def hands_undo(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    says = undo_order(project=project, user=request.user, today=today(project))
    return changed(request, project, says)


def changed(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    url = reverse("schedules:hands", args=[project.pk])
    return after(request, url, says, lambda: show(request, project, says=says))
