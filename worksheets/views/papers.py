"""A worksheet on paper, and the files it makes."""

from __future__ import annotations

from pathlib import PurePath

from django.http import Http404, HttpRequest, HttpResponse
from django.utils.text import slugify
from django.views.decorators.http import require_GET

from projects.access import project_for
from projects.clock import today
from projects.paper import print_page
from worksheets import run
from worksheets.selectors.export import as_csv
from worksheets.selectors.on_paper import paper_context
from worksheets.views.showing import worksheet_in

TYPES = {
    ".pdf": "application/pdf",
    ".svg": "image/svg+xml",
    ".dxf": "image/vnd.dxf",
    ".csv": "text/csv; charset=utf-8",
}

TABLES = "figures.csv"  # every worksheet has it


@require_GET
def paper(request: HttpRequest, project_id: int, worksheet_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    worksheet = worksheet_in(project, worksheet_id)
    context = paper_context(project, worksheet, today(project))
    data = print_page("worksheets/paper.html", context)
    return taken_away(data, f"{slugify(worksheet.title)}.pdf")


@require_GET
def file(request: HttpRequest, project_id: int, worksheet_id: int, name: str) -> HttpResponse:
    """A pattern, a cutting file: made from what is kept."""
    project = project_for(request.user, project_id)
    worksheet = worksheet_in(project, worksheet_id)
    if name == TABLES:
        return taken_away(as_csv(worksheet), f"{slugify(worksheet.title)}.csv")
    worked = run.work_saved(worksheet)
    found = next((each for each in worked.sheet.files if each.name == name), None)
    if found is None or worked.result is None:
        raise Http404
    return taken_away(found.make(worked.reading.given), f"{slugify(worksheet.title)}-{name}")


def taken_away(data: bytes, name: str) -> HttpResponse:
    kind = TYPES.get(PurePath(name).suffix, "application/octet-stream")
    response = HttpResponse(data, content_type=kind)
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    response["X-Content-Type-Options"] = "nosniff"
    return response
