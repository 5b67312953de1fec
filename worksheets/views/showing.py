"""The page of a worksheet: its inputs on the left, its result on the right."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404

from projects import pages
from projects.models import Part, Project
from projects.pages import Opened
from worksheets import run
from worksheets.engine.sheet import Sheet
from worksheets.facts import facts_of
from worksheets.forms.typed import fieldsets
from worksheets.models import Worksheet
from worksheets.selectors.reviews import checked
from worksheets.selectors.shown import outcome, parts_for
from worksheets.selectors.standing import standing
from worksheets.services.searching import progress
from worksheets.sheets import sheets


def sheet_named(key: str) -> Sheet:
    if key not in sheets():
        raise Http404
    return sheets()[key]


def worksheet_in(project: Project, pk: int) -> Worksheet:
    rows = Worksheet.objects.select_related("project", "part")
    found = get_object_or_404(rows, project=project, pk=pk)
    if found.sheet not in sheets():
        raise Http404
    return found


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What somebody has in the form: it may differ from what is kept."""

    sheet: Sheet
    project: Project
    title: str
    part: Part | None
    typed: Mapping[str, Any]
    worksheet: Worksheet | None = None
    more: str = ""  # the table that shows further rows
    says: str = ""
    wrong_title: str = ""
    meanwhile: str = ""  # somebody else saved it
    opened: Opened | None = None
    status: int = 200


def worksheet_page(request: HttpRequest, asked: Asked) -> HttpResponse:
    return pages.sheet(
        request,
        asked.project,
        "worksheets/worksheet.html",
        page_context(asked),
        current="worksheets",
        part="sheet",
        status=asked.opened.status if asked.opened else asked.status,
        says=asked.says,
    )


def page_context(asked: Asked) -> dict[str, Any]:
    """Both halves: the form as it was filled in, and what comes out of it."""
    sheet, project, kept = asked.sheet, asked.project, asked.worksheet
    facts = facts_of(project, asked.part)
    last = run.last_run(kept) if kept else None
    found = last.kept if last else None
    worked = run.work(sheet, asked.typed, project, asked.part, facts=facts, kept=found)
    return {
        "sheet": sheet,
        "asked": asked,
        "worksheet": kept,
        "blocks": fieldsets(
            sheet,
            asked.typed,
            problems=worked.problems,
            facts=facts,
            system=run.system_of(project),
            more=asked.more,
        ),
        "parts": parts_for(project, sheet),
        "o": outcome(worked),
        "opened": asked.opened,
        **(kept_context(kept, worked) if kept else {}),
    }


def kept_context(worksheet: Worksheet, worked: run.Worked) -> dict[str, Any]:
    """What only a kept worksheet has: versions, hands, a review, a longer search."""
    return {
        "standing": standing(worksheet, worked),
        "review": checked(worksheet, worked),
        "search": progress(worksheet) if worked.sheet.improve else None,
        "searches": worked.result is not None and worked.result.can_improve,
    }


def kept_in(project: Project, text: str) -> Mapping[str, Any] | None:
    """What a kept worksheet, named by its number, has found out already."""
    found = project.worksheets.filter(pk=int(text)).first() if text.isdecimal() else None
    last = run.last_run(found) if found else None
    return last.kept if last else None


def part_in(project: Project, text: str) -> Part | None:
    return project.parts.filter(pk=int(text)).first() if text.isdecimal() else None
