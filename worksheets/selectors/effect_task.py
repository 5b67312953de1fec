"""What days, or a first possible day, do to a task and to the plan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from projects.hooks import Level
from projects.words import day_year, plural
from schedules import plan
from schedules.models import Task
from schedules.selectors.slip import Preview, preview
from schedules.selectors.trying import Slip
from schedules.selectors.wording import days_words
from worksheets.selectors.desk import Change, Desk, Effect

HUNDREDTH = Decimal("0.01")
MOST_MOVES = 4


def on_task(desk: Desk, values: Mapping[str, Any]) -> Effect:
    task = values["task"]
    found = preview(plan.read(desk.project, desk.today), slips(task, values))
    return Effect(
        where=f"the task “{task.name}”",
        target=f"task-{task.pk}",
        changes=(*own_changes(task, values), public(found)),
        warnings=tuple(broken(found)),
        notes=tuple(moves(found)),
        words=desk.words,
    )


def slips(task: Task, values: Mapping[str, Any]) -> list[Slip]:
    found = []
    if values.get("days") is not None:
        found.append(Slip(task=task, days=values["days"] - task.days))
    if values.get("not_before"):
        found.append(Slip(task=task, on=values["not_before"]))
    return found


def own_changes(task: Task, values: Mapping[str, Any]) -> Iterator[Change]:
    if values.get("days") is not None:
        yield Change(
            label="Working days", was=days_words(task.days), becomes=days_words(values["days"])
        )
    for name, label in (("low_days", "If all goes well"), ("high_days", "If it goes badly")):
        was = getattr(task, name)
        now = in_proportion(task, values).get(name)
        if was is not None and now is not None:
            yield Change(label=label, was=days_words(was), becomes=days_words(now))
    if values.get("not_before"):
        was = day_year(task.not_before) if task.not_before else "any day"
        yield Change(label="Not before", was=was, becomes=day_year(values["not_before"]))


def in_proportion(task: Task, values: Mapping[str, Any]) -> dict[str, Decimal]:
    """The least and the most days scaled as the likely ones are, in whole hundredths."""
    days = values.get("days")
    if days is None or not values.get("keep") or not task.days:
        return {}
    return {
        name: (getattr(task, name) * days / task.days).quantize(HUNDREDTH, ROUND_HALF_UP)
        for name in ("low_days", "high_days")
        if getattr(task, name) is not None
    }


def public(found: Preview) -> Change:
    name = found.before.public_name or "Public date"
    return Change(label=name, was=found.public_now, becomes=found.public_then)


def broken(found: Preview) -> Iterator[str]:
    """The public date, where it held before, and what else breaks."""
    if found.public_breaks and (found.before.in_hand_days or 0) >= 0:
        yield f"{found.after.public_name or 'The public date'} would be {found.public_then}."
    for ripple in found.breaks:
        if ripple.level == Level.BROKEN:
            yield f"{ripple.subject} {ripple.says}"


def moves(found: Preview) -> Iterator[str]:
    """What moves with it, the first few by name."""
    for move in found.moves[:MOST_MOVES]:
        yield f"“{move.name}” moves from {move.now} to {move.then}."
    if (more := len(found.moves) - MOST_MOVES) > 0:
        yield f"{plural(more, 'more task moves', 'more tasks move')} with it."
    if not found.moves:
        yield "No task moves."
