"""Keep worksheets, run them anew, take them away."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db import transaction

from projects.access import type_user
from projects.log import short_name, write
from projects.models import Part, Project
from worksheets import run
from worksheets.engine.sheet import Sheet
from worksheets.facts import Known
from worksheets.models import Run, Worksheet
from worksheets.sheets import sheets


class Overtaken(Exception):
    """Somebody else saved the worksheet meanwhile."""


def note(project: Project, user: type_user | None, sentence: str) -> str:
    write(project=project, user=user, about="worksheets", sentence=sentence)
    return sentence


@transaction.atomic
def begin(
    *,
    project: Project,
    sheet: Sheet,
    title: str,
    part: Part | None,
    typed: Mapping[str, Any],
    user: type_user,
) -> tuple[Worksheet, str]:
    """Keep a new worksheet with its first run."""
    worksheet = Worksheet.objects.create(
        project=project, sheet=sheet.key, title=title, part=part, typed=dict(typed)
    )
    run.record(worksheet, run.work_saved(worksheet), who=short_name(user), why="First worked out.")
    return worksheet, note(project, user, f"Kept the worksheet “{title}”.")


@transaction.atomic
def save(
    *,
    worksheet: Worksheet,
    title: str,
    part: Part | None,
    typed: Mapping[str, Any],
    version: int,
    user: type_user,
) -> str:
    """Change the inputs; a new run is kept when anything that it came from has changed.

    Raises Overtaken when the worksheet has moved on from ``version``.
    """
    locked = Worksheet.objects.select_for_update().get(pk=worksheet.pk)
    if locked.version != version:
        raise Overtaken
    worksheet.title, worksheet.part, worksheet.typed = title, part, dict(typed)
    worksheet.version = version + 1
    worksheet.save(update_fields=["title", "part", "typed", "version"])
    made = refreshed(worksheet, who=short_name(user), why="The inputs were changed.")
    if made is None:
        return f"Saved “{title}”. Its result stays as it was."
    return note(worksheet.project, user, f"Changed the worksheet “{title}”: {made.says}"[:400])


def refreshed(worksheet: Worksheet, *, who: str, why: str) -> Run | None:
    """A new run with what the project knows now, if anything is different from the last."""
    before = run.last_run(worksheet)
    return renewed(worksheet, before, run.work_kept(worksheet, before), who=who, why=why)


def renewed(
    worksheet: Worksheet, before: Run | None, worked: run.Worked, *, who: str, why: str
) -> Run | None:
    """Keep a run, unless nothing would be different from the one before."""
    if before is not None and run.unchanged(before, worked):
        return None
    return run.record(worksheet, worked, who=who, why=why)


@transaction.atomic
def rerun_all(*, project: Project, why: str, user: type_user | None) -> list[str]:
    """Run every worksheet anew after something of the project changed; tell what is different."""
    told: list[str] = []
    known = Known(project)
    for worksheet, before in run.with_last(project.worksheets.all()):
        facts = known.of(worksheet.part)
        told += rerun(worksheet, before, facts, why=why, user=user)
    return told


def rerun(
    worksheet: Worksheet,
    before: Run | None,
    facts: Mapping[str, Any],
    *,
    why: str,
    user: type_user | None,
) -> list[str]:
    if worksheet.sheet not in sheets():
        return []
    worked = run.work_kept(worksheet, before, facts)
    after = renewed(worksheet, before, worked, who=short_name(user), why=why)
    changed = run.differences(before, after) if after else []
    if not changed:
        return []
    return [f"“{worksheet.title}”: {'; '.join(changed[:3])}."]


@transaction.atomic
def delete(*, worksheet: Worksheet, user: type_user) -> str:
    """What was handed on stays where it went."""
    title = worksheet.title
    worksheet.delete()
    return note(worksheet.project, user, f"Took away the worksheet “{title}”.")
