"""What each task can be shortened by and what that costs, and the cheapest plans."""

from __future__ import annotations

from collections.abc import Mapping

from schedules import engine
from schedules.engine import crash
from schedules.plan.rows import Rows
from schedules.plan.translate import calendar_keys, network

MOST_DAYS = 40


def shortenings(rows: Rows) -> dict[str, crash.Shortening]:
    """A step is a whole day of the task's own calendar; tasks that are done have none."""
    keys = calendar_keys(rows)
    return {
        str(task.pk): crash.Shortening(
            step=rows.calendars[keys[task.pk]].day_minutes,
            most=task.crash_days,
            cost=task.crash_day_cents or 0,
        )
        for task in rows.tasks
        if task.crash_days and not task.finished_on
    }


def curve(rows: Rows) -> crash.Curve:
    """The least cost of every day won, counted on the project's calendar."""
    unit = rows.calendars[rows.default].day_minutes
    now = engine.instant(rows.today)
    bare = network(rows)
    return crash.curve(bare, shortenings(rows), data_date=now, unit=unit, most=MOST_DAYS)


def other_ways(rows: Rows) -> tuple[crash.Shortened, ...]:
    """All ways to win the first day, the cheapest first."""
    unit = rows.calendars[rows.default].day_minutes
    now = engine.instant(rows.today)
    return crash.next_ways(network(rows), shortenings(rows), data_date=now, unit=unit, most=4)


def in_hand(rows: Rows, steps: Mapping[str, int]) -> engine.Plan:
    """The plan with these steps taken."""
    shorter = crash.shortened(network(rows), shortenings(rows), steps)
    return engine.solve(shorter, data_date=engine.instant(rows.today))
