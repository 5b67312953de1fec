"""A kept worksheet: change it, look at an earlier run, take it away."""

from __future__ import annotations

from dataclasses import replace

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from projects import pages
from projects.access import project_for
from projects.pages import Opened, posted
from worksheets.selectors.earlier import earlier_run
from worksheets.services import saving
from worksheets.views.listing import listing_page
from worksheets.views.new import asked_of, kept_page, to_worksheet
from worksheets.views.showing import Asked, sheet_named, worksheet_in, worksheet_page

MEANWHILE = (
    "Somebody else saved this worksheet while you had it open. What you typed is still here; "
    "save again to keep yours."
)


@require_http_methods(["GET", "POST"])
def worksheet(request: HttpRequest, project_id: int, worksheet_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=posted(request))
    if not posted(request):
        return kept_page(request, project, worksheet_id)
    found = worksheet_in(project, worksheet_id)
    asked = replace(asked_of(request, project, sheet_named(found.sheet)), worksheet=found)
    if asked.status != 200 or asked.more or "try" in request.POST:
        return worksheet_page(request, asked)
    return saved(request, asked)


def saved(request: HttpRequest, asked: Asked) -> HttpResponse:
    worksheet = asked.worksheet
    assert worksheet is not None
    version = request.POST.get("version", "")
    try:
        says = saving.save(
            worksheet=worksheet,
            title=asked.title,
            part=asked.part,
            typed=asked.typed,
            version=int(version) if version.isdecimal() else 0,
            user=request.user,
        )
    except saving.Overtaken:
        return worksheet_page(request, replace(asked, meanwhile=MEANWHILE, status=409))
    return to_worksheet(request, asked.project, worksheet.pk, says)


@require_http_methods(["GET", "POST"])
def worksheet_delete(request: HttpRequest, project_id: int, worksheet_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = worksheet_in(project, worksheet_id)
    if posted(request):
        says = saving.delete(worksheet=found, user=request.user)
        url = reverse("worksheets:worksheets", args=[project.pk])
        return pages.after(request, url, says, lambda: listing_page(request, project.pk, says))
    opened = Opened(
        what="delete",
        action=reverse("worksheets:delete", args=[project.pk, found.pk]),
        heading=f"Take away “{found.title}”?",
        question="Its earlier versions go with it. What was handed on stays where it is.",
        button="Take it away",
    )
    asked = Asked(
        sheet=sheet_named(found.sheet),
        project=project,
        title=found.title,
        part=found.part,
        typed=found.typed,
        worksheet=found,
        opened=opened,
    )
    return worksheet_page(request, asked)


@require_GET
def worksheet_run(
    request: HttpRequest, project_id: int, worksheet_id: int, number: int
) -> HttpResponse:
    """An earlier version as it was kept."""
    project = project_for(request.user, project_id)
    found = worksheet_in(project, worksheet_id)
    run = get_object_or_404(found.runs, number=number)
    context = {"worksheet": found, "run": run, "e": earlier_run(found, run)}
    return pages.sheet(
        request, project, "worksheets/run.html", context, current="worksheets", part="sheet"
    )
