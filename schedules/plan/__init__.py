"""Between the rows and the engine: read all, solve, write back what changed.

The only place that knows both worlds. Whatever can move a date calls ``recompute`` in its own
transaction; pages read the stored plan through ``current``.
"""

from schedules.plan.days import (
    early_days,
    in_hand_days,
    late_days,
    plan_days,
    shown_days,
    task_days,
)
from schedules.plan.hires import Hire, hires
from schedules.plan.looking import Look, look
from schedules.plan.rows import ALWAYS, Rows, holidays_around, key_dates_of, minutes, read, tasks_of
from schedules.plan.store import current, recompute
from schedules.plan.translate import (
    activity,
    bound_of,
    calendar_keys,
    hours,
    network,
    opening,
    solve,
    work_minutes,
)

__all__ = [
    "ALWAYS",
    "Hire",
    "Look",
    "Rows",
    "activity",
    "bound_of",
    "calendar_keys",
    "current",
    "early_days",
    "hires",
    "holidays_around",
    "hours",
    "in_hand_days",
    "key_dates_of",
    "late_days",
    "look",
    "minutes",
    "network",
    "opening",
    "plan_days",
    "read",
    "recompute",
    "shown_days",
    "solve",
    "task_days",
    "tasks_of",
    "work_minutes",
]
