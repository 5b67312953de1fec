"""Look on for a better plan, and say how far it has come."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from projects import pages
from projects.access import project_for
from projects.pages import posted, wants_part
from worksheets import run
from worksheets.models import Worksheet
from worksheets.services import searching
from worksheets.views.showing import worksheet_in


def hopes(worksheet: Worksheet) -> bool:
    """Whether a longer search may still find something."""
    result = run.work_saved(worksheet).result
    return result is not None and result.can_improve


@require_http_methods(["GET", "POST"])
def search(request: HttpRequest, project_id: int, worksheet_id: int) -> HttpResponse:
    """POST starts it; GET says how far it is, as a piece or as a plain page."""
    project = project_for(request.user, project_id, change=posted(request))
    found = worksheet_in(project, worksheet_id)
    here = reverse("worksheets:search", args=[project.pk, found.pk])
    if posted(request):
        searching.start(worksheet=found, user=request.user)
        if not wants_part(request):
            return redirect(here)
        found.refresh_from_db()
    now = searching.progress(found)
    context = {"worksheet": found, "search": now, "searches": not now.running and hopes(found)}
    if wants_part(request):
        piece = {**context, "project": project, "polled": True}
        return render(request, "worksheets/_searching.html", piece)
    return pages.sheet(request, project, "worksheets/searching.html", context, current="worksheets")
