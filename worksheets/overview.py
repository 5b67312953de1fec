"""What other pages show of the worksheets: the overview’s panel, and the parts drawn to scale."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from django.urls import reverse

from projects import hooks
from projects.hooks import Level, Panel, PanelRow, PartDrawing
from projects.models import Project
from projects.words import plural
from worksheets.selectors.drawn import KEY, drawn
from worksheets.selectors.listing import Kept, kept_of

MOST_ROWS = 8
RANK = (Level.BROKEN, Level.NEAR, Level.PLAIN)


@hooks.overview.register("worksheets", place=48)
def worksheets_panel(project: Project, today: date) -> Panel | None:
    """Nothing while nothing has been worked out."""
    found = kept_of(project)
    if not found:
        return None
    rows = [row for kept in found if (row := pressing(kept))]
    rows.sort(key=lambda row: RANK.index(row.level))
    calm = f"{plural(len(found), 'worksheet')}, and none is over a limit that was entered"
    url = reverse("worksheets:worksheets", args=[project.pk])
    return Panel(
        title="Worksheets",
        rows=tuple(rows[:MOST_ROWS]) or (PanelRow(text=calm, url=url),),
        empty="",
        url=url,
    )


def pressing(kept: Kept) -> PanelRow | None:
    """None for a worksheet that asks for nothing."""
    told = list(reasons(kept))
    if not told:
        return None
    worksheet = kept.worksheet
    return PanelRow(
        text=worksheet.title,
        detail="; ".join(words for _, words in told),
        url=reverse("worksheets:worksheet", args=[worksheet.project_id, worksheet.pk]),
        level=min((level for level, _ in told), key=RANK.index),
    )


def reasons(kept: Kept) -> Iterator[tuple[Level, str]]:
    run = kept.run
    if kept.word.startswith("over"):
        yield Level.BROKEN, kept.word
    if run is None or run.problem:
        yield Level.NEAR, "it has no result"
    if kept.behind:
        yield Level.NEAR, "it has changed since it was handed on"
    if run and run.licensed and not hasattr(run, "review"):
        yield Level.NEAR, "this version was checked by nobody"


@hooks.part_drawings.register("worksheets")
def elevation(project: Project, today: date) -> PartDrawing | None:
    """The elevation on the parts sheet, with its findings beside it."""
    found = drawn(project)
    if found.empty:
        return None
    sheet = (
        reverse("worksheets:worksheet", args=[project.pk, found.worksheet.pk])
        if found.worksheet
        else reverse("worksheets:new", args=[project.pk, KEY])
    )
    return PartDrawing(
        title="Elevation",
        wide=found.elevation,
        narrow=found.elevation_narrow,
        sentence=found.sentence,
        said=tuple((each.level, each.word, each.says, each.rule) for each in found.marked),
        links=(
            (reverse("worksheets:drawing", args=[project.pk]), "Elevation and section, large"),
            (sheet, "Worksheet on reach"),
        ),
    )
