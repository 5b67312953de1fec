"""A part or the site changed: run what rests on it anew, and say what is different."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.urls import reverse

from projects import hooks
from projects.hooks import Level, PartNote
from projects.models import Project
from worksheets.models import Run
from worksheets.run import differences
from worksheets.selectors.handed import on_lines
from worksheets.selectors.listing import Kept, kept_of
from worksheets.services.saving import rerun_all


@hooks.reworks.register("worksheets")
def rework(project: Project, why: str, user: Any) -> list[str]:
    return rerun_all(project=project, why=why, user=user)


@hooks.part_notes.register("worksheets")
def notes(project: Project, today: date) -> dict[int, list[PartNote]]:
    """The worksheets of each part with what they say now."""
    found: dict[int, list[PartNote]] = {}
    kept = [each for each in kept_of(project) if each.worksheet.part_id and each.run]
    earlier = runs_before(kept)
    for each in kept:
        assert each.worksheet.part_id is not None
        found.setdefault(each.worksheet.part_id, []).append(note(each, earlier))
    return found


@hooks.line_notes.register("worksheets")
def notes_of_lines(project: Project) -> dict[int, list[PartNote]]:
    """The worksheets that budget lines take their quantity from."""
    found: dict[int, list[PartNote]] = {}
    for row, changed in on_lines(project):
        assert row.line_id is not None
        note = PartNote(
            text=row.worksheet.title,
            changed="changed since" if changed else "",
            url=reverse("worksheets:worksheet", args=[project.pk, row.worksheet_id]),
        )
        found.setdefault(row.line_id, []).append(note)
    return found


def runs_before(kept: list[Kept]) -> dict[tuple[int, int], Run]:
    """The run before the last of each worksheet, in one query."""
    wanted = {(each.worksheet.pk, each.run.number - 1) for each in kept if each.run}
    rows = Run.objects.filter(
        worksheet__in=[pk for pk, _ in wanted], number__in={number for _, number in wanted}
    )
    return {(r.worksheet_id, r.number): r for r in rows if (r.worksheet_id, r.number) in wanted}


def note(kept: Kept, earlier: dict[tuple[int, int], Run]) -> PartNote:
    worksheet, run = kept.worksheet, kept.run
    assert run is not None
    before = earlier.get((worksheet.pk, run.number - 1))
    changed = differences(before, run) if before else []
    return PartNote(
        text=worksheet.title,
        detail=run.says or run.problem,
        changed="; ".join(changed[:3]),
        url=reverse("worksheets:worksheet", args=[worksheet.project_id, worksheet.pk]),
        level=Level(kept.level),
    )
