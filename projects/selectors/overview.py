"""What the overview shows besides the panels that the apps give."""

from __future__ import annotations

from datetime import date

from projects import hooks
from projects.models import Part, Picture, Project

NOTHING = "Nothing is planned yet. Give the project a public date in the schedule."


def panels_of(project: Project, today: date) -> list[hooks.Panel]:
    found = [panel(project, today) for panel in hooks.overview]
    return [panel for panel in found if panel is not None]


def lede_of(panels: list[hooks.Panel]) -> str:
    return next((panel.sentence for panel in panels if panel.sentence), NOTHING)


def pictures_of(project: Project) -> list[Picture]:
    return list(Picture.objects.filter(project=project).select_related("part"))


def parts_with_stages(project: Project) -> list[Part]:
    return list(Part.objects.filter(project=project).prefetch_related("stages"))
