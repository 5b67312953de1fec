"""The project drawn to scale: elevation and section, with what the rules on reach say."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.utils.safestring import mark_safe
from django.utils.text import slugify
from django.views.decorators.http import require_GET

from projects import pages
from projects.access import project_for
from projects.clock import today
from projects.paper import in_drawing, print_page
from worksheets.selectors.drawn import KEY, USERS, drawn
from worksheets.sheets import sheets
from worksheets.views.papers import taken_away

DRAWING_CSS = "drawing.css"


@require_GET
def drawing(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    found = drawn(project, chosen(request))
    context = {"d": found, "sheet": sheets()[KEY], **choices(found.chosen)}
    context["query"] = request.GET.urlencode() if chosen(request) else ""
    return pages.sheet(
        request, project, "worksheets/drawing.html", context, current="worksheets", part="sheet"
    )


def chosen(request: HttpRequest) -> dict[str, str] | None:
    """What the form asks for; None before it was sent. What is not in it stays as it was."""
    if "rules" not in request.GET:
        return None
    known = dict(sheets()[KEY].input("rules").options)  # type: ignore[attr-defined]
    asked = request.GET["rules"]
    users = {name: "yes" if name in request.GET else "no" for name in USERS}
    return ({"rules": asked} if asked in known else {}) | (users if any_of(users) else {})


def any_of(users: dict[str, str]) -> bool:
    return "yes" in users.values()


def choices(asked: Any) -> dict[str, Any]:
    """The form: each rule set and each user, with which of them is chosen."""
    sheet = sheets()[KEY]
    options = sheet.input("rules").options  # type: ignore[attr-defined]
    return {
        "rule_sets": [(key, label, asked["rules"] == key) for key, label in options],
        "users": [(name, sheet.input(name).label, bool(asked[name])) for name in USERS],
    }


@require_GET
def drawing_paper(request: HttpRequest, project_id: int) -> HttpResponse:
    """On wide pages, at the scale that the drawings name."""
    project = project_for(request.user, project_id)
    found = drawn(project, chosen(request))
    context = {
        "project": project,
        "heading": "Elevation and section",
        "about": "Elevation and section",
        "day": today(project),
        "d": found,
        "sheet": sheets()[KEY],
        "drawings": [
            ("Elevation", mark_safe(in_drawing(found.elevation, DRAWING_CSS))),
            ("Section", mark_safe(in_drawing(found.section, DRAWING_CSS))),
        ],
    }
    data = print_page("worksheets/drawing_paper.html", context)
    return taken_away(data, f"{slugify(project.name)}-elevation.pdf")
