"""Hours, goods and space given, with their evidence."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

from budgets.views.pages import shown
from projects.access import project_for


@require_GET
def gifts(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return shown(request, project, "gifts.html", {})
