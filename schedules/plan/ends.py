"""The plan seen from another end than the public date: the same dates, other days in hand."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from schedules import engine
from schedules.plan.rows import Rows
from schedules.plan.translate import network

EVENT, NO_EARLIER, NO_LATER = (
    engine.KeyDateRole.EVENT,
    engine.KeyDateRole.NO_EARLIER,
    engine.KeyDateRole.NO_LATER,
)
GOAL = "the chosen end"  # a moment on the last day of an end that has one


def ends(rows: Rows) -> list[int]:
    """Tasks that days in hand can be counted to: those with a key date, and open ends."""
    waited_for = {row.before_id for row in rows.links}
    dated = {k.task_id for k in rows.key_dates if k.effect in ("event", "no_later")}
    return [
        t.pk for t in rows.tasks if not t.finished_on and (t.pk in dated or t.pk not in waited_for)
    ]


def solve_to(rows: Rows, end: int) -> engine.Plan:
    """A backward pass from this end alone: no other date bounds how late a task may be.

    An end with a last day is late by that day, any other when it comes later than now planned.
    """
    laid, key = network(rows), str(end)
    last_days = [k.at for k in laid.key_dates if k.activity == key and k.role is NO_LATER]
    held = tuple(from_here(laid.key_dates, key))
    if last_days:
        laid = replace(
            laid,
            activities=(*laid.activities, goal(laid)),
            links=(*laid.links, engine.Link(key=GOAL, before=key, after=GOAL)),
        )
        held += (engine.KeyDate(key=GOAL, activity=GOAL, at=min(last_days), role=EVENT),)
        key = GOAL
    seen = replace(laid, key_dates=held, end=key)
    return engine.solve(seen, data_date=engine.instant(rows.today))


def goal(laid: engine.Network) -> engine.Activity:
    return engine.Activity(key=GOAL, duration=0, calendar=laid.project_calendar)


def from_here(key_dates: Iterable[engine.KeyDate], end: str) -> Iterable[engine.KeyDate]:
    """What holds early dates, and the date of the end itself."""
    for held in key_dates:
        if held.role is EVENT and held.activity != end:
            yield replace(held, role=NO_EARLIER)
        elif held.role is not NO_LATER:
            yield held
