"""Shorten the plan: what each day costs, and which tasks pay for it."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

from projects.access import project_for
from projects.clock import today
from projects.pages import sheet
from schedules.plan import current
from schedules.selectors.shorten import Prices


@require_GET
def shorten(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    day = today(project)
    current(project, day)
    context = {"found": Prices(project, day)}
    template = "schedules/shorten.html"
    return sheet(request, project, template, context, current="schedule", part="sheet")
