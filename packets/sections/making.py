"""How it is made and put up: the tasks of each maker, with their days."""

from __future__ import annotations

from collections import defaultdict
from datetime import date

from packets.outline import Context, Place, Section
from projects.hooks import TaskDays
from projects.models import Project, Topic
from projects.words import day_year
from schedules import plan


class Making(Section):
    key = "making"
    title = "Fabrication and installation"
    topics = (Topic.MAKING, Topic.INSTALLING)
    dated = True
    place = Place("schedules:schedule", "Open the schedule")

    def rows(self, project: Project, today: date) -> Context:
        look = plan.look(project, today)
        rows, days = look.rows, look.days.tasks
        lanes: dict[str, list[dict[str, str]]] = defaultdict(list)
        for task in sorted(
            rows.tasks, key=lambda t: (t.lane.position, t.lane_id, days[t.pk].start)
        ):
            lanes[task.lane.name].append(task_row(days[task.pk]))
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


def task_row(task: TaskDays) -> dict[str, str]:
    return {
        "name": task.name,
        "start": day_year(task.start),
        "finish": day_year(task.finish),
        "span": span(task.start, task.finish),
    }


def span(start: date, finish: date) -> str:
    """One day, or from the first to the last."""
    return day_year(start) if start == finish else f"{day_year(start)} to {day_year(finish)}"


section = Making()
