"""When: the lanes timeline as on screen, and its dates as a table."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import partial

from packets.outline import Context, Place, Section
from packets.sections.making import span
from projects.models import Project
from projects.words import day_year, plural
from schedules import plan
from schedules.models import KeyDate, PlanState, Task
from schedules.timeline.drawing import Timeline as Drawing
from schedules.timeline.rows import draw

TALLEST = 520  # of a drawing on one wide page, in its own units
TASKS_A_PAGE = 20  # in a plan that is taller, so that the letters stay readable


class Timeline(Section):
    key = "timeline"
    title = "Timeline"
    place = Place("schedules:schedule", "Open the schedule")

    def rows(self, project: Project, today: date) -> Context:
        state = plan.current(project, today)
        tasks = list(Task.objects.filter(project=project, early_start__isnull=False))
        return {
            "tasks": [task_pair(task) for task in tasks],
            "key_dates": list(KeyDate.objects.filter(project=project)),
            "in_hand": in_hand_sentence(state),
            "days": "not known" if state.in_hand_days is None else str(state.in_hand_days),
            "drawings": partial(drawings, project, today),
        }

    def row_facts(self, context: Context) -> list[tuple[str, str]]:
        dates = [(row.name, key_date_words(row)) for row in context["key_dates"]]
        return [*dates, ("Days in hand", context["days"]), *context["tasks"]]

    def missing(self, context: Context) -> str:
        return "" if context["tasks"] else "No tasks yet"

    def change(self, name: str, before: str | None, after: str | None) -> str:
        if before and after and name != "Days in hand":
            before, after = without_year(before, after)
            return f"{name} moved from {before} to {after}."
        return super().change(name, before, after)


def task_pair(task: Task) -> tuple[str, str]:
    return task.name, span(*plan.shown_days(task.early_start or 0, task.early_finish or 0))


def key_date_words(row: KeyDate) -> str:
    return day_year(row.on)


def without_year(before: str, after: str) -> tuple[str, str]:
    """Years are said only where they differ."""
    years = {word for text in (before, after) for word in text.split() if len(word) == 4}
    if len(years) != 1:
        return before, after
    year = " " + years.pop()
    return before.replace(year, ""), after.replace(year, "")


def in_hand_sentence(state: PlanState) -> str:
    days = state.in_hand_days
    if days is None:
        return ""
    if days < 0:
        return f"As planned, the work is late by {plural(-days, 'working day')}."
    return f"The plan keeps {plural(days, 'working day')} in hand before the public date."


def drawings(project: Project, today: date) -> list[Drawing]:
    """The lanes timeline on as many pages as its letters need."""
    rows = plan.read(project, today)
    whole = draw(rows, for_print=True)
    if whole.empty or whole.height <= TALLEST:
        return [] if whole.empty else [whole]
    return [draw(some, for_print=True) for some in in_pages(rows)]


def in_pages(rows: plan.Rows) -> Iterator[plan.Rows]:
    """Lane by lane, a page's worth of tasks at a time."""
    dated = [task for task in rows.tasks if task.early_start is not None]
    dated.sort(key=lambda t: (t.lane.position, t.lane_id, t.early_start, t.pk))
    for first in range(0, len(dated), TASKS_A_PAGE):
        tasks = tuple(dated[first : first + TASKS_A_PAGE])
        kept = {task.pk for task in tasks}
        links = tuple(k for k in rows.links if k.before_id in kept and k.after_id in kept)
        yield replace(rows, tasks=tasks, links=links)


section = Timeline()
