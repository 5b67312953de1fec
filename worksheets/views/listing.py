"""Every worksheet of the project."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

from projects import pages
from projects.access import project_for
from worksheets.selectors.listing import listing
from worksheets.selectors.sources import every_source


@require_GET
def worksheets(request: HttpRequest, project_id: int) -> HttpResponse:
    return listing_page(request, project_id)


def listing_page(request: HttpRequest, project_id: int, says: str = "") -> HttpResponse:
    project = project_for(request.user, project_id)
    return pages.sheet(
        request,
        project,
        "worksheets/worksheets.html",
        {"found": listing(project)},
        current="worksheets",
        part="sheet",
        says=says,
    )


@require_GET
def sources(request: HttpRequest, project_id: int) -> HttpResponse:
    """Where the figures come from, the weak ones said."""
    project = project_for(request.user, project_id)
    context = {"found": every_source()}
    return pages.sheet(
        request, project, "worksheets/sources.html", context, current="worksheets", part="sheet"
    )
