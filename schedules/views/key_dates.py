"""Add, edit and remove key dates."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_http_methods, require_POST

from projects.access import project_for
from projects.clock import today
from schedules import engine
from schedules.forms.key_dates import KeyDateForm
from schedules.forms.plain import explain
from schedules.models import KeyDate
from schedules.services import key_dates as service
from schedules.views.showing import changed, show, wrong


@require_http_methods(["GET", "POST"])
def key_date_edit(
    request: HttpRequest, project_id: int, key_date_id: int | None = None
) -> HttpResponse:
    """A key date of the project, or a new one."""
    project = project_for(request.user, project_id, change=True)
    found = {"project": project, "pk": key_date_id}
    row = get_object_or_404(KeyDate, **found) if key_date_id else KeyDate()
    day = today(project)
    form = KeyDateForm(request.POST or None, instance=row, project=project, today=day)
    if request.method == "GET":
        return show(request, project, opened={"kind": "date", "pk": key_date_id, "form": form})
    if form.is_valid():
        try:
            says = service.save_key_date(
                project=project, user=request.user, today=day, key_date=row
            )
            return changed(request, project, says)
        except engine.ScheduleError as error:
            explain(form, error, "on")
    return wrong(request, project, kind="date", pk=key_date_id, form=form)


@require_POST
def key_date_delete(request: HttpRequest, project_id: int, key_date_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    row = get_object_or_404(KeyDate, project=project, pk=key_date_id)
    says = service.delete_key_date(
        project=project, user=request.user, today=today(project), key_date=row
    )
    return changed(request, project, says)
