"""Add and remove the links that a task waits on."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_POST

from projects.access import project_for
from projects.clock import today
from projects.pages import wants_part
from schedules import engine
from schedules.forms.links import LinkForm
from schedules.forms.plain import explain
from schedules.models import Link, Task
from schedules.services import links as service
from schedules.views.showing import changed, show, wrong
from schedules.views.tasks import opened_task


@require_POST
def link_add(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    task = get_object_or_404(Task, project=project, pk=task_id)
    form = LinkForm(request.POST, instance=Link(after=task), task=task, auto_id="link_%s")
    if form.is_valid():
        try:
            says = service.add_link(
                project=project, user=request.user, today=today(project), link=form.instance
            )
            return still_open(request, project_id, task, says)
        except engine.ScheduleError as error:
            explain(form, error, "before")
    return wrong(request, project, **opened_task(project, task, link=form))


@require_POST
def link_delete(request: HttpRequest, project_id: int, link_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    link = get_object_or_404(
        Link.objects.select_related("before", "after"), project=project, pk=link_id
    )
    task = link.after
    says = service.delete_link(project=project, user=request.user, today=today(project), link=link)
    return still_open(request, project_id, task, says)


def still_open(request: HttpRequest, project_id: int, task: Task, says: str) -> HttpResponse:
    """The row stays open for the next link."""
    project = project_for(request.user, project_id, change=True)
    if wants_part(request):
        return show(request, project, opened=opened_task(project, task), says=says)
    return changed(request, project, says)
