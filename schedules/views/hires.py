"""Add, edit and remove hires and supervision."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_http_methods, require_POST

from projects.access import project_for
from schedules.forms.hires import HireForm
from schedules.models import Hammock
from schedules.services import hires as service
from schedules.views.showing import changed, show, wrong


@require_http_methods(["GET", "POST"])
def hire_edit(request: HttpRequest, project_id: int, hire_id: int | None = None) -> HttpResponse:
    """A hire of the project, or a new one."""
    project = project_for(request.user, project_id, change=True)
    hire = get_object_or_404(Hammock, project=project, pk=hire_id) if hire_id else Hammock()
    if not project.tasks.exists():
        return changed(request, project, "Add tasks first: a hire lasts from one to another.")
    form = HireForm(request.POST or None, instance=hire, project=project)
    if request.method == "GET":
        return show(request, project, opened={"kind": "hire", "pk": hire_id, "form": form})
    if form.is_valid():
        says = service.save_hire(
            project=project,
            user=request.user,
            hire=hire,
            from_tasks=form.cleaned_data["from_tasks"],
            to_tasks=form.cleaned_data["to_tasks"],
        )
        return changed(request, project, says)
    return wrong(request, project, kind="hire", pk=hire_id, form=form)


@require_POST
def hire_delete(request: HttpRequest, project_id: int, hire_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    hire = get_object_or_404(Hammock, project=project, pk=hire_id)
    says = service.delete_hire(project=project, user=request.user, hire=hire)
    return changed(request, project, says)
