"""From rows to the engine that examines a plan: who waits, who is nobody, what has a reason."""

from __future__ import annotations

from dataclasses import replace

from projects.starts import starting_plans
from schedules import engine
from schedules.engine import health
from schedules.models import KeyDate, KeyDateEffect, KeyDateKind, Lane, Task
from schedules.plan.rows import Rows
from schedules.plan.translate import network

NOBODY = {"", "?", "nobody", "none", "no one", "someone", "somebody", "tba", "tbd"}
NOBODY |= {"open", "unknown", "unassigned", "to be decided", "not decided", "to be found"}


def examine(rows: Rows) -> tuple[engine.Plan | None, tuple[health.Ailment, ...]]:
    """The plan, and all that ails it; a loop or a calendar that is never open leaves no plan.

    Raises other ScheduleErrors.
    """
    made = as_typed(rows)
    try:
        return health.examine(made, data_date=engine.instant(rows.today), facts=facts(rows))
    except engine.NoWorkingTime:
        shut = [each for each in engine.check(made) if each.code == health.Code.CLOSED]
        if not shut:
            raise
        closed = (health.Ailment(code=health.Code.CLOSED, activity=e.activity) for e in shut)
        return None, tuple(closed)


def as_typed(rows: Rows) -> engine.Network:
    """The network, with actual days as they were typed even where they cross."""
    made = network(rows)
    crossed = {str(t.pk): t for t in rows.tasks if crosses(t)}
    if not crossed:
        return made
    activities = (
        replace(a, actual_start=engine.instant(crossed[a.key].started_on) + 1440)  # type: ignore[arg-type]
        if a.key in crossed
        else a
        for a in made.activities
    )
    return replace(made, activities=tuple(activities))


def crosses(task: Task) -> bool:
    return bool(task.started_on and task.finished_on and task.finished_on < task.started_on)


def facts(rows: Rows) -> health.Facts:
    starts = {f"start-{t.pk}" for t in rows.tasks if t.not_before and t.not_before_reason.strip()}
    unowned = {lane.pk for lane in {t.lane_id: t.lane for t in rows.tasks}.values() if nobody(lane)}
    return health.Facts(
        links={str(link.pk) for link in rows.links if link.reason.strip()},
        dates=starts | {str(k.pk) for k in rows.key_dates if explained(k)},
        activities={str(t.pk) for t in rows.tasks if t.note.strip()},
        waiting={str(t.pk) for t in rows.tasks if t.waits},
        unowned={str(t.pk) for t in rows.tasks if t.lane_id in unowned},
        until=engine.instant(rows.today) + 1440,  # today counts to its end
    )


def explained(key_date: KeyDate) -> bool:
    """An event and the end of a permit speak for themselves."""
    speaks = key_date.kind in (KeyDateKind.PUBLIC, KeyDateKind.EXPIRY)
    return speaks or key_date.effect == KeyDateEffect.EVENT or bool(key_date.reason.strip())


def nobody(lane: Lane) -> bool:
    """Whether a lane names nobody: a word for it, or still the trade of a starting plan.

    Any other name is taken for a person or a body; the rows do not know better.
    """
    if lane.supplier_id:
        return False
    return lane.name.strip().lower().rstrip(".") in NOBODY or lane.name in trades()


def trades() -> set[str]:
    """The lanes of the starting plans for which somebody is still to be chosen."""
    plans = starting_plans().values()
    return {lane["name"] for p in plans for lane in p["lanes"] if lane["holder"] == "supplier"}
