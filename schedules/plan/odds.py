"""What is kept of the draws of a plan, as plain data, and what it was computed from."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from typing import Any

from schedules import engine
from schedules.plan.buys import Bought, bought
from schedules.plan.chance import DRAWS, Chances, Drawing, due, spreads, wet_days
from schedules.plan.rows import Rows
from schedules.plan.translate import network
from suppliers.models import Order

POINTS = (5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95)
TAIL = 0.002  # of the draws at either end are not drawn


def basis(rows: Rows) -> str:
    """A digest of all that the chance is computed from: the day and the weather included."""
    whole = network(rows)
    used = sorted({a.calendar for a in whole.activities} | {whole.project_calendar})
    calendars = [(k, rows.calendars[k].week, sorted(rows.calendars[k].exceptions.items()))
                 for k in used]  # fmt: skip
    links = (whole.activities, whole.links, whole.key_dates, whole.end, whole.zone)
    drawn = (spreads(rows), wet_days(rows), due(rows), DRAWS)
    return digest((rows.today, links, calendars, drawn))


def buys_basis(rows: Rows) -> str:
    """What the ranking hangs on beside all that."""
    tasks = [(t.pk, t.name, t.lane_id, t.waits, t.crash_days, t.crash_day_cents, t.order_id)
             for t in rows.tasks]  # fmt: skip
    lanes = sorted({(t.lane_id, t.lane.name, t.lane.day_cents) for t in rows.tasks})
    mine = [t.order_id for t in rows.tasks if t.order_id and not t.finished_on]
    orders = Order.objects.filter(pk__in=mine).order_by("pk").values_list("pk", "title", "state")
    return digest((basis(rows), tasks, lanes, list(orders)))


def digest(what: object) -> str:
    return hashlib.sha256(repr(what).encode()).hexdigest()[:32]


def drawn(rows: Rows) -> dict[str, Any]:
    """The figures of the page; without ``percent`` when there is no date to make."""
    found = Drawing(rows).of(rows)
    if found is None:
        return {}
    outcome = found.outcome
    return {
        "percent": found.percent,
        "error": 100 * outcome.error(found.by),
        "draws": found.draws,
        "by": found.by,
        "points": [[share, outcome.ready_with(share / 100)] for share in POINTS],
        "curve": [[at, share] for at, share in outcome.by_day() if TAIL < share < 1 - TAIL],
        "ends": [outcome.ready_with(1 / found.draws), outcome.ready_with(1)],
        "carried": {key: share for key, share in outcome.carried.items() if share},
        "single": single_path(rows, found),
    }


def ranked(rows: Rows) -> list[dict[str, Any]]:
    """Every action with its chance, as it is kept; empty when there is no date to make."""
    drawing = Drawing(rows)
    base = drawing.of(rows)
    return [plain(found) for found in bought(rows, drawing, base)] if base else []


def plain(found: Bought) -> dict[str, Any]:
    action = found.action
    return {
        "kind": str(action.kind),
        "percent": found.percent,
        "days": action.days,
        "cents": action.cents,
        "task": action.task.pk if action.task else None,
        "lane": action.lane.pk if action.lane else None,
        "order": action.order.pk if action.order else None,
        "supplier": action.order.supplier_id if action.order else None,
        "title": action.order.title if action.order else "",
    }


def single_path(rows: Rows, found: Chances) -> float | None:
    """The percentage that the classic formula gives for the longest path alone.

    In working days, each task on its own calendar; without wet days and without reviews
    that come back. None when no task of the path has a range.
    """
    from schedules.engine.chance import chance_by

    whole, ranges = network(rows), spreads(rows)
    plan = engine.solve(whole, data_date=engine.instant(rows.today))
    means, variances = path_figures(whole, ranges)
    path = path_of(whole, plan, variances)
    spread = sum(variances.get(key, 0.0) for key in path)
    ready = plan.ready_at if is_event(whole) else plan.finish
    if not spread or ready is None:
        return None
    calendar = whole.calendars[whole.project_calendar]
    room = calendar.between(ready, found.by) / calendar.day_minutes
    return 100 * chance_by(sum(means.get(key, 0.0) for key in path), spread, room)


def is_event(whole: engine.Network) -> bool:
    """Whether the end happens on its date, so that what comes before it is what counts."""
    event = engine.KeyDateRole.EVENT
    return any(k.activity == whole.end and k.role is event for k in whole.key_dates)


def path_figures(
    whole: engine.Network, ranges: dict[str, Any]
) -> tuple[dict[str, float], dict[str, float]]:
    """By how many days each task is expected to take longer than planned, and its variance."""
    from schedules.engine.chance import expected, variance

    means, variances = {}, {}
    for activity in whole.activities:
        spread, day = ranges.get(activity.key), whole.calendars[activity.calendar].day_minutes
        if spread is None or not activity.duration:
            continue
        left = activity.duration if activity.remaining is None else activity.remaining
        share = left / activity.duration / day
        low, likely, high = (n * share for n in (spread.low, activity.duration, spread.high))
        means[activity.key] = expected(low, likely, high) - likely
        variances[activity.key] = variance(low, high)
    return means, variances


def path_of(
    whole: engine.Network, plan: engine.Plan, variances: dict[str, float]
) -> tuple[str, ...]:
    """The longest path into the end: the tie of most variance, else as the plan traced it.

    An event that its own date holds is driven by nothing, so its last task is asked.
    """
    from schedules.engine.chance import critical_path

    if not is_event(whole):
        return critical_path(whole, plan, variances)
    if len(plan.chain) < 2:
        return plan.chain
    return critical_path(replace(whole, end=plan.chain[-2]), plan, variances)
