"""Who changed what, when and why."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from projects.access import project_for
from projects.pages import sheet
from projects.selectors.log import SHEETS, log_page, people_in_log


@require_safe
def log(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    about, who = request.GET.get("about", ""), request.GET.get("who", "")
    people = people_in_log(project)
    about = about if about in SHEETS else ""
    who = who if who in people else ""
    context = {
        "found": log_page(project, about=about, who=who, page=request.GET.get("page", "1")),
        "about": about,
        "who": who,
        "topics": SHEETS.items(),
        "people": people,
    }
    return sheet(request, project, "projects/log.html", context, current="log", part="sheet")
