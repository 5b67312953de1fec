"""The plan in days, as pages and the other apps see it."""

from __future__ import annotations

from datetime import date

from projects.hooks import PlanDays, TaskDays
from schedules import engine
from schedules.models import Task
from schedules.plan.rows import Rows


def plan_days(rows: Rows, plan: engine.Plan) -> PlanDays:
    """The plan in days, for the slip preview and whatever else hangs on its dates."""
    public = rows.public
    return PlanDays(
        tasks={t.pk: task_days(t, plan.dates[str(t.pk)]) for t in rows.tasks},
        key_dates={k.pk: k.on for k in rows.key_dates},
        public_on=public.on if public else None,
        public_name=public.name if public else "",
        work_done_on=None if plan.ready_at is None else engine.day_that_ends(plan.ready_at),
        finish_on=engine.day_that_ends(plan.finish) if rows.tasks else None,
        in_hand_days=in_hand_days(rows, plan),
        today=rows.today,
    )


def task_days(task: Task, dates: engine.Dates) -> TaskDays:
    start, finish = shown_days(dates.early_start, dates.early_finish, closes=task.closes)
    late = shown_days(dates.late_start, dates.late_finish, closes=task.closes)[1]
    return TaskDays(
        pk=task.pk,
        name=task.name,
        start=start,
        finish=finish,
        late_finish=late,
        order_id=task.order_id,
        supplier_id=task.lane.supplier_id,
        to_end=dates.to_end,
        finished=dates.finished,
    )


def shown_days(start: int, finish: int, *, closes: bool = False) -> tuple[date, date]:
    """First and last day, both worked.

    A task of no length is shown on the day that begins at its instant; one that ``closes``
    what goes before, on the day that ends there.
    """
    if start == finish:
        day = engine.day_that_ends(start) if closes else engine.day_that_begins(start)
        return day, day
    return engine.day_that_begins(start), engine.day_that_ends(finish)


def early_days(task: Task) -> tuple[date, date]:
    """The days of the stored plan, as early as may be."""
    return shown_days(task.early_start or 0, task.early_finish or 0, closes=task.closes)


def late_days(task: Task) -> tuple[date, date]:
    """The days of the stored plan, as late as may be."""
    return shown_days(task.late_start or 0, task.late_finish or 0, closes=task.closes)


def in_hand_days(rows: Rows, plan: engine.Plan) -> int | None:
    """Whole working days, rounded down: never flattering, and late by a part is late by one."""
    if plan.in_hand is None:
        return None
    return plan.in_hand // rows.calendars[rows.default].day_minutes
