"""Your projects, each with the figures of its title block."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser

from projects.hooks import Cell
from projects.models import Membership, Project


@dataclass(frozen=True, slots=True, kw_only=True)
class HomeRow:
    project: Project
    role: str
    cells: tuple[tuple[str, Cell | None], ...]  # (column, cell), None where there is no figure


def home_rows(
    user: AbstractBaseUser | AnonymousUser, *, cells_of: Callable[[Project], list[Cell]]
) -> tuple[list[str], list[HomeRow]]:
    """The columns that the title blocks have, and a row a project."""
    memberships = Membership.objects.select_related("project").filter(user_id=user.pk or 0)
    own = list(memberships.order_by("project__name", "project_id"))
    cells = {row.project_id: cells_of(row.project) for row in own}
    columns = list(dict.fromkeys(cell.label for found in cells.values() for cell in found))
    return columns, [
        HomeRow(
            project=row.project,
            role=row.get_role_display(),
            cells=in_columns(columns, cells[row.project_id]),
        )
        for row in own
    ]


def in_columns(columns: Sequence[str], cells: list[Cell]) -> tuple[tuple[str, Cell | None], ...]:
    by_label = {cell.label: cell for cell in cells}
    return tuple((label, by_label.get(label)) for label in columns)
