"""The money cell of the title block."""

from __future__ import annotations

from datetime import date

from django.urls import reverse

from budgets.selectors.left import money_left
from projects import hooks
from projects.hooks import Cell, Level
from projects.models import Project
from projects.words import money


@hooks.titleblock.register("budgets.left", place=40)
def left(project: Project, today: date) -> Cell:
    url = reverse("budgets:money", args=[project.pk])
    found = money_left(project)
    if not found.pot and not found.spent and not found.committed:
        return Cell(label="Money left", value="–", detail="no fund signed yet", url=url)
    return Cell(
        label="Money left",
        value=money(whole(found.left), project.currency),
        detail=f"of {money(whole(found.pot), project.currency)}",
        url=url,
        level=Level.BROKEN if found.left < 0 else Level.HOLDS,
    )


def whole(cents: int) -> int:
    """Whole dollars, rounded down: never flattering."""
    return cents // 100 * 100
