"""When: the lanes timeline as on screen, and its dates as a table."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import partial

from packets.outline import Context, Place, Section
from packets.sections.making import span
from projects.models import Project
from projects.words import day_year, plural
from schedules import engine, plan
from schedules.models import KeyDate
from schedules.timeline.drawing import Timeline as Drawing
from schedules.timeline.rows import WIDE, draw_pages

TALLEST = 660  # of a drawing on one wide page, in its own units; it shrinks a little to fit


class Timeline(Section):
    key = "timeline"
    title = "Timeline"
    dated = True
    place = Place("schedules:schedule", "Open the schedule")

    def rows(self, project: Project, today: date) -> Context:
        look = plan.look(project, today)
        rows, days = look.rows, look.days
        in_hand = days.in_hand_days
        return {
            "tasks": [(t.name, span(t.start, t.finish)) for t in days.tasks.values()],
            "key_dates": rows.key_dates,
            "in_hand": in_hand_sentence(in_hand),
            "days": "not known" if in_hand is None else str(in_hand),
            "drawn": partial(drawn, rows, look.plan),
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


def key_date_words(row: KeyDate) -> str:
    return day_year(row.on)


def without_year(before: str, after: str) -> tuple[str, str]:
    """Years are said only where they differ."""
    years = {word for text in (before, after) for word in text.split() if len(word) == 4}
    if len(years) != 1:
        return before, after
    year = " " + years.pop()
    return before.replace(year, ""), after.replace(year, "")


def in_hand_sentence(days: int | None) -> str:
    if days is None:
        return ""
    if days < 0:
        return f"As planned, the work is late by {plural(-days, 'working day')}."
    return f"The plan keeps {plural(days, 'working day')} in hand before the public date."


@dataclass(frozen=True, slots=True)
class Drawn:
    """The lanes timeline on as many pages as its letters need, with one key for all."""

    sheets: list[Drawing]

    @property
    def key(self) -> list[tuple[str, str]]:
        return list(dict.fromkeys(mark for sheet in self.sheets for mark in sheet.key))


def drawn(rows: plan.Rows, solved: engine.Plan) -> Drawn:
    pages = draw_pages(rows, tall=TALLEST, metrics=WIDE, plan=solved)
    return Drawn([page for page in pages if not page.empty])


section = Timeline()
