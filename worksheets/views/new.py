"""A worksheet before it is kept: try it, add rows, keep it."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from projects import pages
from projects.access import project_for
from projects.models import Project
from projects.pages import posted
from worksheets import run
from worksheets.engine.sheet import Sheet
from worksheets.forms.typed import fieldsets, sent
from worksheets.models import Worksheet
from worksheets.selectors.shown import first_part, outcome
from worksheets.services import saving
from worksheets.views.showing import (
    Asked,
    kept_in,
    part_in,
    sheet_named,
    worksheet_in,
    worksheet_page,
)

LONGEST_TITLE = 120


@require_http_methods(["GET", "POST"])
def worksheet_new(request: HttpRequest, project_id: int, sheet: str) -> HttpResponse:
    """GET with ``part`` chooses it; with ``recipe`` fills in the published example."""
    project = project_for(request.user, project_id, change=posted(request))
    found = sheet_named(sheet)
    if not posted(request):
        return worksheet_page(request, fresh(request, project, found))
    asked = asked_of(request, project, found)
    if asked.status != 200 or asked.more or "try" in request.POST:
        return worksheet_page(request, asked)
    worksheet, says = saving.begin(
        project=project,
        sheet=found,
        title=asked.title,
        part=asked.part,
        typed=asked.typed,
        user=request.user,
    )
    return to_worksheet(request, project, worksheet.pk, says)


def fresh(request: HttpRequest, project: Project, sheet: Sheet) -> Asked:
    recipe = "recipe" in request.GET
    asked = part_in(project, request.GET.get("part", ""))
    part = None if recipe else asked or first_part(project, sheet)
    title = f"{sheet.title.split(':')[0]} of {part.name}" if part else sheet.title
    typed = dict(sheet.recipe.typed) if recipe else {}
    return Asked(sheet=sheet, project=project, title=title, part=part, typed=typed)


def asked_of(request: HttpRequest, project: Project, sheet: Sheet) -> Asked:
    """What was sent; with a sentence when the title is missing."""
    title = " ".join(request.POST.get("title", "").split())
    wrong = "" if title else "Give it a name, such as Paint for the viaduct pier."
    if len(title) > LONGEST_TITLE:
        wrong = f"This name has {len(title)} characters; at most {LONGEST_TITLE} can be kept."
    return Asked(
        sheet=sheet,
        project=project,
        title=title[: LONGEST_TITLE * 2],
        part=part_in(project, request.POST.get("part", "")),
        typed=sent(sheet, request.POST),
        more=request.POST.get("more", ""),
        wrong_title=wrong,
        status=422 if wrong else 200,
    )


def to_worksheet(request: HttpRequest, project: Project, pk: int, says: str) -> HttpResponse:
    """After a change: the kept worksheet, as a piece or by a redirect."""
    url = reverse("worksheets:worksheet", args=[project.pk, pk])
    return pages.after(request, url, says, lambda: kept_page(request, project, pk, says))


def kept_page(request: HttpRequest, project: Project, pk: int, says: str = "") -> HttpResponse:
    return worksheet_page(request, kept_asked(project, worksheet_in(project, pk), says))


def kept_asked(project: Project, worksheet: Worksheet, says: str = "") -> Asked:
    """A kept worksheet as it is, with nothing changed in its form."""
    return Asked(
        sheet=sheet_named(worksheet.sheet),
        project=project,
        title=worksheet.title,
        part=worksheet.part,
        typed=worksheet.typed,
        worksheet=worksheet,
        says=says,
    )


@require_POST
def worksheet_try(request: HttpRequest, project_id: int, sheet: str) -> HttpResponse:
    """The result of what stands in the form now, with the sentences beside the fields."""
    project = project_for(request.user, project_id, change=True)
    found = sheet_named(sheet)
    asked = asked_of(request, project, found)
    kept = kept_in(project, request.POST.get("kept", ""))
    worked = run.work(found, asked.typed, project, asked.part, kept=kept)
    blocks = fieldsets(
        found,
        asked.typed,
        problems=worked.problems,
        facts=worked.reading.given.facts,
        system=run.system_of(project),
    )
    context = {"o": outcome(worked), "project": project, "blocks": blocks, "live": True}
    return render(request, "worksheets/_live.html", context)
