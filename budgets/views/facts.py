"""Dated rates and thresholds, each with its source."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

from budgets.views.pages import shown
from projects.access import project_for


@require_GET
def facts(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return shown(request, project, "facts.html", {})
