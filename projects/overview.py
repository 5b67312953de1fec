"""The project's own block on the overview: how far each part is."""

from __future__ import annotations

from datetime import date

from django.urls import reverse

from projects import hooks
from projects.models import Part, Project
from projects.selectors.overview import parts_with_stages

SHOWN = 8


@hooks.overview.register("projects.parts", place=60)
def parts(project: Project, today: date) -> hooks.Panel:
    found = parts_with_stages(project)
    rows = [part_row(part) for part in found[:SHOWN]]
    if len(found) > SHOWN:
        rows.append(hooks.PanelRow(text=f"and {len(found) - SHOWN} more"))
    return hooks.Panel(
        title="Parts",
        rows=tuple(rows),
        empty="No parts yet. A part is a thing that is made, such as a lantern frame or its skin.",
        url=reverse("schedules:parts", args=[project.pk]),
    )


def part_row(part: Part) -> hooks.PanelRow:
    stages = list(part.stages.all())
    left = [stage for stage in stages if stage.done_on is None]
    if not stages:
        return hooks.PanelRow(text=part.name, detail="no stages yet")
    if not left:
        return hooks.PanelRow(text=part.name, detail="all stages done", level=hooks.Level.HOLDS)
    detail = f"{len(stages) - len(left)} of {len(stages)} stages done; next: "
    return hooks.PanelRow(text=part.name, detail=detail + left[0].get_name_display().lower())
