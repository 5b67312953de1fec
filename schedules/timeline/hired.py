"""Hires and supervision, drawn as long as the tasks that need them last."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from schedules import engine
from schedules.models import Lane
from schedules.plan import Rows
from schedules.plan.hires import Hire as Found
from schedules.plan.hires import hires, stored_plan
from schedules.timeline.maker import Maker
from schedules.timeline.marks import Hire, Placed
from schedules.timeline.wording import counted, span


def hires_drawn(rows: Rows, plan: engine.Plan | None, maker: Maker) -> Iterator[tuple[Lane, Hire]]:
    """With the lane that holds each: it may hold no task."""
    for found in hires(rows, as_drawn(plan or stored_plan(rows), maker)):
        start, finish = maker.whole_days(found.first, found.last)
        yield (
            found.lane,
            Hire(
                key=str(found.pk),
                name=found.name,
                lane=str(found.lane.pk),
                start=start,
                finish=finish,
                title=title(found),
            ),
        )


def as_drawn(plan: engine.Plan, maker: Maker) -> engine.Plan:
    """The plan with each task where the drawing has it: as early or as late as can be."""
    if maker.placed is not Placed.LATEST:
        return plan
    tasks = {str(task.pk): task for task in maker.rows.tasks}
    dates = {}
    for key, known in plan.dates.items():
        start, finish = maker.chosen(tasks[key])
        dates[key] = known._replace(early_start=start, early_finish=finish)
    return replace(plan, dates=dates)


def title(found: Found) -> str:
    days = counted(found.days, "day")
    return f"{found.name}: {span(found.first, found.last)}, {days} worked, as long as it is needed"
