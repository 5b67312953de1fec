"""The chance of the public date in words: how many draws make it, and what they hang on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from projects.hooks import Level
from projects.words import day, plural
from schedules import engine, plan
from schedules.models import ChanceResult, Task
from schedules.plan.chance import high_days, is_certain, low_days, wet_days
from schedules.selectors.wording import decimal_words
from schedules.timeline.curve import Curve, curve

HOLDS, NEAR = 80, 50  # percent from which the date holds, and from which it is near
LEAST_SHARE = 0.01  # of the draws that a task must carry the date in to be listed
SHOWN = (10, 20, 50, 80, 90, 95)  # of the points of the curve, in the table


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """A task that carries the date in some of the draws."""

    task: Task
    of_100: str
    lasts: str
    certain: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    of_100: int
    on: date
    mark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Odds:
    """What the page shows of the draws."""

    made: str  # “82 of 100 draws”
    level: Level
    half_by: date
    most_by: date  # 80 of 100
    by: date
    within: str
    points: Sequence[Point]
    curve: Curve
    carriers: Sequence[Carrier]
    certain: Sequence[Task]
    single: str
    optimistic: bool
    draws: int
    varies: bool
    outdoors: int  # open tasks outdoors
    wet: bool  # whether anybody has said how many days are wet


def odds(rows: plan.Rows, found: ChanceResult) -> Odds | None:
    """None when there is no date to make."""
    data, public = found.data, rows.public
    if "percent" not in data or public is None:
        return None
    half, most = (day_of(at) for share in (50, 80) for at in [dict(data["points"])[share]])
    tasks = [t for t in rows.tasks if not t.finished_on and t.to_end and t.days > 0]
    return Odds(
        made=draws_words(data["percent"]),
        level=level(data["percent"]),
        half_by=half,
        most_by=most,
        by=public.on,
        within=within_words(data),
        points=[Point(of_100=n, on=day_of(at)) for n, at in data["points"] if n in SHOWN],
        curve=curve(data, public.on),
        carriers=carriers(rows, data["carried"]),
        certain=[t for t in tasks if is_certain(t)],
        single=percent_words(data["single"]) if data["single"] is not None else "",
        optimistic=(data["single"] or 0) > data["percent"],
        draws=data["draws"],
        varies=data["ends"][0] != data["ends"][1],
        outdoors=len([t for t in tasks if t.outdoor]),
        wet=any(wet_days(rows)),
    )


def day_of(at: int) -> date:
    return engine.day_that_ends(at)


def carriers(rows: plan.Rows, shares: Mapping[str, float]) -> list[Carrier]:
    """Those still to do, the ones that carry most often first; not the event itself."""
    event = rows.public.task_id if rows.public else None
    tasks = {str(t.pk): t for t in rows.tasks if not t.finished_on and t.pk != event}
    ordered = sorted(shares.items(), key=lambda item: -item[1])
    listed = [(tasks[k], share) for k, share in ordered if k in tasks and share >= LEAST_SHARE]
    return [
        Carrier(
            task=t,
            of_100=of_100(100 * share),
            lasts=lasts(t),
            certain=t.days > 0 and is_certain(t),
        )
        for t, share in listed
    ]


def lasts(task: Task) -> str:
    """“12 to 22 days, most likely 15”, “5 days”: the whole of it, also when it has begun."""
    low, high = low_days(task), high_days(task)
    if not task.days:
        return "no length"
    words = f"{decimal_words(task.days)} days" if task.days != 1 else "1 day"
    if low != high:
        said = decimal_words(task.days)
        words = f"{decimal_words(low)} to {decimal_words(high)} days, most likely {said}"
    again = (task.returns_days or Decimal(0)).normalize()
    if task.returns_percent and again:
        times = f"in {task.returns_percent} of 100"
        words += f"; {times} it comes back for {decimal_words(again)} more"
    return words


def level(percent: float) -> Level:
    if percent >= HOLDS:
        return Level.HOLDS
    return Level.NEAR if percent >= NEAR else Level.BROKEN


def of_100(percent: float) -> str:
    """“82”, “under 1”, “over 99”: never all or nothing unless it is."""
    if 0 < percent < 1:
        return "under 1"
    return "over 99" if 99 < percent < 100 else f"{round(percent)}"


def percent_words(percent: float) -> str:
    return f"{of_100(percent)} %"


def draws_words(percent: float) -> str:
    """“82 of 100 draws”, “every draw”, “no draw”."""
    if percent in (0, 100):
        return "every draw" if percent else "no draw"
    return f"{of_100(percent)} of 100 draws"


def within_words(data: Mapping[str, Any]) -> str:
    """How far another run of draws may be off, in 19 of 20 runs: two standard errors."""
    points = 2 * data["error"]
    if not points:
        return "another run of draws would say the same"
    size = "less than 1 point" if points < 1 else f"about {plural(round(points), 'point')}"
    return f"another run of draws would differ by {size}, 19 times in 20"


def lede(rows: plan.Rows, found: Odds | None, best: str) -> tuple[str, str]:
    """What matters now, and the next action."""
    public = rows.public
    if found is None or public is None:
        return "The chance of a date can be worked out once there is a date to make.", ""
    says = f"In {found.made} {public.name} on {day(public.on)} is made"
    if not found.varies:
        return f"{says}: all tasks are taken as certain.", "Say what may come of them."
    says += f"; half the draws are ready by {day(found.half_by)}."
    return says, f"What buys the most: {best}." if best else ""
