"""Add, rename, order and remove lanes."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_http_methods, require_POST

from projects.access import project_for
from projects.words import plural
from schedules.forms.lanes import LaneForm
from schedules.models import Lane
from schedules.services import lanes as service
from schedules.views.showing import changed, show, wrong


@require_http_methods(["GET", "POST"])
def lane_edit(request: HttpRequest, project_id: int, lane_id: int | None = None) -> HttpResponse:
    """A lane of the project, or a new one."""
    project = project_for(request.user, project_id, change=True)
    lane = get_object_or_404(Lane, project=project, pk=lane_id) if lane_id else Lane()
    form = LaneForm(request.POST or None, instance=lane, project=project)
    if request.method == "GET":
        return show(request, project, opened={"kind": "lane", "pk": lane_id, "form": form})
    if form.is_valid():
        says = service.save_lane(project=project, user=request.user, lane=lane)
        return changed(request, project, says)
    return wrong(request, project, kind="lane", pk=lane_id, form=form)


@require_POST
def lane_delete(request: HttpRequest, project_id: int, lane_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    lane = get_object_or_404(Lane, project=project, pk=lane_id)
    held = lane.tasks.count()
    if held:
        form = LaneForm(instance=lane, project=project)
        form.problem = (  # type: ignore[attr-defined]
            f"{lane} still holds {plural(held, 'task')}. Move them to another lane first."
        )
        return wrong(request, project, kind="lane", pk=lane.pk, form=form)
    says = service.delete_lane(project=project, user=request.user, lane=lane)
    return changed(request, project, says)


@require_POST
def lane_move(request: HttpRequest, project_id: int, lane_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    lane = get_object_or_404(Lane, project=project, pk=lane_id)
    up = request.POST.get("way") == "up"
    says = service.move_lane(project=project, user=request.user, lane=lane, up=up)
    return changed(request, project, says)
