"""Back to the page from which a form was opened, once the form is done with."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse

from projects.models import Project
from projects.pages import wants_part

KEPT = "schedule-came-from"
PAGES = ("health",)


def remember(request: HttpRequest) -> None:
    """Keep where somebody came from; a fresh look at a whole page forgets it."""
    if request.method != "GET" or wants_part(request):
        return
    if (page := request.GET.get("from")) in PAGES:
        request.session[KEPT] = page
    elif KEPT in request.session:
        del request.session[KEPT]


def way_back(request: HttpRequest, project: Project) -> str:
    """The address of that page; empty when somebody came from nowhere else."""
    page = request.session.get(KEPT)
    return reverse(f"schedules:{page}", args=[project.pk]) if page in PAGES else ""


def gone_back(request: HttpRequest, url: str, says: str) -> HttpResponse:
    """Leave the form for the page it was opened from, with what was done in the status line."""
    request.session.pop(KEPT, None)
    messages.success(request, says)
    if wants_part(request):
        return HttpResponse(headers={"HX-Redirect": url})
    return redirect(url)
