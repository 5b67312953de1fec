"""Write the computed plan back to the rows."""

from __future__ import annotations

from datetime import date

from django.db import connection, transaction

from projects.models import Project
from schedules import engine
from schedules.models import ChanceResult, Forecast, PlanState, Task
from schedules.plan.days import in_hand_days
from schedules.plan.once import forget, once
from schedules.plan.rows import Rows, read
from schedules.plan.translate import solve

STORED = [
    "early_start",
    "early_finish",
    "late_start",
    "late_finish",
    "total_float",
    "free_float",
    "to_end",
    "chain_position",
    "drivers",
]


@transaction.atomic
def recompute(project: Project, today: date) -> PlanState:
    """Solve the saved project and store the plan; raises ``engine.ScheduleError``."""
    forget(project)
    rows = read(project, today)
    plan = solve(rows)
    store_dates(rows, plan)
    state, _ = PlanState.objects.update_or_create(project=project, defaults=state_of(rows, plan))
    say_today(rows, plan)
    ChanceResult.objects.filter(project=project).update(basis="")  # to be looked at again
    return state


def say_today(rows: Rows, plan: engine.Plan) -> None:
    """Keep what the plan says today of the public date; what it said before stays."""
    said = Forecast(
        project=rows.project,
        on=rows.today,
        public_on=rows.public.on if rows.public else None,
        ready_on=None if plan.ready_at is None else engine.day_that_ends(plan.ready_at),
        in_hand_days=in_hand_days(rows, plan),
    )
    Forecast.objects.bulk_create(
        [said],
        update_conflicts=True,
        unique_fields=["project", "on"],
        update_fields=["public_on", "ready_on", "in_hand_days"],
    )


def current(project: Project, today: date) -> PlanState:
    """The stored plan's state, computed anew on a new day."""
    return once(project, ("state", today), lambda: state_on(project, today))


def state_on(project: Project, today: date) -> PlanState:
    state = PlanState.objects.filter(project=project).first()
    if state is None or state.computed_on != today:
        state = recompute(project, today)
    return state


def store_dates(rows: Rows, plan: engine.Plan) -> None:
    place = {key: n for n, key in enumerate(plan.chain)}
    changed = []
    for task in rows.tasks:
        new = stored_values(plan.dates[str(task.pk)], place.get(str(task.pk)))
        if any(getattr(task, name) != value for name, value in new.items()):
            for name, value in new.items():
                setattr(task, name, value)
            changed.append(task)
    if changed:
        update_stored(changed)


def update_stored(tasks: list[Task]) -> None:
    """One prepared statement for all rows: ``bulk_update`` takes several times as long."""
    columns = [field for field in Task._meta.concrete_fields if field.name in STORED]
    places = ", ".join(f"{connection.ops.quote_name(str(c.column))} = %s" for c in columns)
    table = connection.ops.quote_name(Task._meta.db_table)
    values = [
        [*(c.get_db_prep_save(getattr(t, c.attname), connection) for c in columns), t.pk]
        for t in tasks
    ]
    with connection.cursor() as cursor:
        cursor.executemany(f"UPDATE {table} SET {places} WHERE id = %s", values)


def stored_values(dates: engine.Dates, chain_position: int | None) -> dict[str, object]:
    return {
        "early_start": dates.early_start,
        "early_finish": dates.early_finish,
        "late_start": dates.late_start,
        "late_finish": dates.late_finish,
        "total_float": dates.total_float,
        "free_float": dates.free_float,
        "to_end": dates.to_end,
        "chain_position": chain_position,
        "drivers": [{"reason": str(d.reason), "key": d.key, "at": d.at} for d in dates.drivers],
    }


def state_of(rows: Rows, plan: engine.Plan) -> dict[str, object]:
    return {
        "finish": plan.finish,
        "ready_at": plan.ready_at,
        "in_hand": plan.in_hand,
        "in_hand_days": in_hand_days(rows, plan),
        "to_start_now": late_starts(rows, plan),
        "computed_on": rows.today,
    }


def late_starts(rows: Rows, plan: engine.Plan) -> int:
    now = engine.instant(rows.today)
    waiting = [t for t in rows.tasks if not t.started_on and not t.finished_on]
    dates = [plan.dates[str(t.pk)] for t in waiting]
    return sum(1 for d in dates if d.to_end and d.late_start < now)
