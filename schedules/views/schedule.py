"""The schedule sheet, and why a task is where it is."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_GET

from projects.access import project_for
from projects.clock import today
from schedules.models import Task
from schedules.plan import current, read
from schedules.selectors.why import why_of
from schedules.views.showing import show


@require_GET
def schedule(request: HttpRequest, project_id: int) -> HttpResponse:
    return show(request, project_for(request.user, project_id))


@require_GET
def why(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    task = get_object_or_404(Task, project=project, pk=task_id)
    current(project, today(project))
    reasons = why_of(read(project, today(project)), task.pk)
    return show(request, project, opened={"kind": "why", "pk": task.pk, "why": reasons})
