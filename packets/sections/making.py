"""How it is made and put up: the tasks of each maker, with their days."""

from __future__ import annotations

from collections import defaultdict
from datetime import date

from packets.outline import Context, Place, Section
from projects.models import Project, Topic
from projects.words import day_year
from schedules import plan
from schedules.models import Task


class Making(Section):
    key = "making"
    title = "Fabrication and installation"
    topics = (Topic.MAKING, Topic.INSTALLING)
    place = Place("schedules:schedule", "Open the schedule")

    def rows(self, project: Project, today: date) -> Context:
        plan.current(project, today)
        tasks = Task.objects.filter(project=project, early_start__isnull=False)
        lanes: dict[str, list[dict[str, str]]] = defaultdict(list)
        ordered = tasks.select_related("lane").order_by("lane__position", "early_start", "pk")
        for task in ordered:
            lanes[task.lane.name].append(task_row(task))
        return {"lanes": list(lanes.items())}

    def row_facts(self, context: Context) -> list[tuple[str, str]]:
        return [
            (f"{row['name']} ({lane})", row["span"])
            for lane, rows in context["lanes"]
            for row in rows
        ]

    def missing(self, context: Context) -> str:
        return "" if context["lanes"] or self.words(context) else "No tasks and no text yet"

    def change(self, name: str, before: str | None, after: str | None) -> str:
        if before and after and not before.startswith("#"):
            return f"{name} moved from {before} to {after}."
        return super().change(name, before, after)


def task_row(task: Task) -> dict[str, str]:
    start, finish = plan.shown_days(task.early_start or 0, task.early_finish or 0)
    return {
        "name": task.name,
        "phase": task.phase,
        "start": day_year(start),
        "finish": day_year(finish),
        "span": span(start, finish),
    }


def span(start: date, finish: date) -> str:
    """One day, or from the first to the last."""
    return day_year(start) if start == finish else f"{day_year(start)} to {day_year(finish)}"


section = Making()
