"""Whose hands each task takes, and the plan in which nobody is booked twice."""

from __future__ import annotations

from dataclasses import replace
from decimal import ROUND_CEILING, Decimal

from schedules import engine
from schedules.engine import levelling
from schedules.models import Lane, Link, Task
from schedules.plan.rows import Rows
from schedules.plan.translate import network

SAME_HANDS = "Same hands"
CENT = Decimal("0.01")


def hands_of(rows: Rows) -> levelling.Hands:
    """Two queries. A task takes one of its lane and one of each other that it needs."""
    lanes = Lane.objects.filter(project=rows.project, capacity__isnull=False)
    capacity = {str(lane.pk): lane.capacity or 0 for lane in lanes}
    needs = {str(t.pk): {str(t.lane_id): 1} for t in rows.tasks if takes_hands(t)}
    others = Task.also.through.objects.filter(task__project=rows.project)
    for task, lane in others.values_list("task_id", "lane_id"):
        if str(task) in needs:
            needs[str(task)][str(lane)] = 1
    return levelling.Hands(capacity=capacity, needs=needs)


def takes_hands(task: Task) -> bool:
    return not (task.waits or task.finished_on)


def unordered(rows: Rows) -> Rows:
    """Without the order links of an earlier levelling."""
    return replace(rows, links=tuple(link for link in rows.links if not link.same_hands))


def level(rows: Rows, hands: levelling.Hands, *, effort: float = 0.0) -> levelling.Levelled:
    """From scratch: old order links do not count. Raises ``engine.ScheduleError``."""
    now = engine.instant(rows.today)
    return levelling.level(network(unordered(rows)), hands, data_date=now, effort=effort)


def overloads(
    rows: Rows, hands: levelling.Hands, plan: engine.Plan
) -> tuple[levelling.Overload, ...]:
    now = engine.instant(rows.today)
    return levelling.overloads(network(rows), hands, plan, data_date=now)


def order_rows(rows: Rows, found: levelling.Levelled) -> list[Link]:
    """The order links as rows, not saved; a lag in working days is never cut short."""
    by_key = {a.key: a for a in found.network.activities}
    made = []
    for each in found.order:
        day = rows.calendars[by_key[each.before].calendar].day_minutes
        made.append(
            Link(
                project=rows.project,
                before_id=int(each.before),
                after_id=int(each.after),
                kind=each.kind.value,
                lag=(Decimal(each.lag) / day).quantize(CENT, ROUND_CEILING),
                reason=SAME_HANDS,
                same_hands=True,
            )
        )
    return made
