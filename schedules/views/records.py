"""Keep the plan as the plan of record."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_http_methods

from projects.access import project_for
from projects.clock import today
from schedules.forms.plain import focus_first
from schedules.forms.reasons import ReasonForm
from schedules.services.records import keep_plan
from schedules.views.showing import changed, show, wrong


@require_http_methods(["GET", "POST"])
def record_keep(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = ReasonForm(request.POST or None)
    if request.method == "GET":
        focus_first(form)
        return show(request, project, opened={"kind": "record", "form": form})
    if form.is_valid():
        kept = keep_plan(
            project=project,
            user=request.user,
            today=today(project),
            reason=form.cleaned_data["reason"],
        )
        return changed(request, project, f"The plan is kept as Rev {kept.letter}.")
    return wrong(request, project, kind="record", form=form)
