"""Add, rename, order and remove lanes."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_http_methods, require_POST

from projects.access import project_for
from projects.clock import today
from projects.words import listed, plural
from schedules import engine
from schedules.forms.lanes import LaneForm
from schedules.forms.plain import explain
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
        try:
            says = service.save_lane(
                project=project, user=request.user, today=today(project), lane=lane
            )
            return changed(request, project, says)
        except engine.ScheduleError as error:
            explain(form, error, "calendar")
    return wrong(request, project, kind="lane", pk=lane_id, form=form)


@require_POST
def lane_delete(request: HttpRequest, project_id: int, lane_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    lane = get_object_or_404(Lane, project=project, pk=lane_id)
    held = held_words(lane)
    if held:
        form = LaneForm(instance=lane, project=project)
        form.problem = (  # type: ignore[attr-defined]
            f"{lane} still holds {held}. Move them to another lane first."
        )
        return wrong(request, project, kind="lane", pk=lane.pk, form=form)
    says = service.delete_lane(project=project, user=request.user, lane=lane)
    return changed(request, project, says)


def held_words(lane: Lane) -> str:
    """“3 tasks and 1 hire”; nothing when the lane is empty."""
    held = {"task": lane.tasks.count(), "hire": lane.hammocks.count()}
    return listed([plural(count, noun) for noun, count in held.items() if count])


@require_POST
def lane_move(request: HttpRequest, project_id: int, lane_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    lane = get_object_or_404(Lane, project=project, pk=lane_id)
    up = request.POST.get("way") == "up"
    says = service.move_lane(project=project, user=request.user, lane=lane, up=up)
    return changed(request, project, says)
