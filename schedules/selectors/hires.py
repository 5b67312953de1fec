"""Hires and supervision as the schedule shows them: their days, their cost, their tasks."""

from __future__ import annotations

from dataclasses import dataclass

from projects.words import listed, money, plural
from schedules.models import Hammock
from schedules.plan import Hire, Rows, hires
from schedules.selectors.wording import span_words

GONE = "Its first or its last task is gone: choose them anew."
BACKWARD = "What ends it is done before what begins it: look at its tasks."


@dataclass(frozen=True, slots=True, kw_only=True)
class HireLine:
    row: Hammock
    lasts: str = ""  # “from “Lift on site” to “Fix crank box””
    when: str = ""
    days: str = ""
    cost: str = ""
    problem: str = ""


def hire_lines(rows: Rows) -> list[HireLine]:
    """Every hire, with its dates by the stored plan; four queries at most."""
    found = list(Hammock.objects.filter(project=rows.project).select_related("lane"))
    if not found:
        return []
    dated = {hire.pk: hire for hire in hires(rows)}
    names = {task.pk: task.name for task in rows.tasks}
    return [hire_line(rows, row, dated.get(row.pk), names) for row in found]


def hire_line(rows: Rows, row: Hammock, hire: Hire | None, names: dict[int, str]) -> HireLine:
    if hire is None:
        return HireLine(row=row, problem=GONE)
    return HireLine(
        row=row,
        lasts=f"from {named(hire.opened_by, names)} to {named(hire.closed_by, names)}",
        when=span_words(hire.first, hire.last),
        days=plural(hire.days, "day"),
        cost=money(hire.cents, rows.project.currency),
        problem=BACKWARD if hire.finish < hire.start else "",
    )


def named(keys: tuple[int, ...], names: dict[int, str]) -> str:
    return listed([f"“{names[key]}”" for key in keys])


def hires_of(rows: Rows, task: int) -> str:
    """What a task opens and closes: “It opens “Platform lift hire”, Mon 4 – Wed 6 Jan.”"""
    said = []
    for hire in hires(rows):
        verbs = ["opens"] * (task in hire.opened_by) + ["closes"] * (task in hire.closed_by)
        if verbs:
            said.append(f"It {listed(verbs)} “{hire.name}”, {span_words(hire.first, hire.last)}.")
    return " ".join(said)
