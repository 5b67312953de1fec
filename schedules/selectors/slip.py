"""Try a slip: the plan as it would be, held against the plan as it is. Nothing is saved."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from copy import copy
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal

from projects import hooks
from projects.models import Project
from schedules import engine, plan
from schedules.models import KeyDate, Task
from schedules.selectors.wording import outcome_words, signed, span_words

SHOWN_MOVES = 12
WORST_FIRST = [hooks.Level.BROKEN, hooks.Level.NEAR, hooks.Level.HOLDS, hooks.Level.PLAIN]
BREAKS = (hooks.Level.BROKEN, hooks.Level.NEAR)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One change to try: a task or a key date, by days or to a day."""

    task: Task | None = None
    key_date: KeyDate | None = None
    days: Decimal | None = None
    on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A task that moves: its days now and then, and by how many of its working days."""

    name: str
    now: str
    then: str
    by: int
    start: date

    @property
    def by_shown(self) -> str:
        return signed(self.by)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainTask:
    name: str
    when: str
    new: bool  # it does not carry the date now


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    before: hooks.PlanDays
    after: hooks.PlanDays
    moves: Sequence[Move]
    chain: Sequence[ChainTask]
    breaks: Sequence[hooks.Ripple]
    holds: Sequence[hooks.Ripple]
    basis: str  # what the preview was computed from, to know whether it still stands

    @property
    def public_now(self) -> str:
        return outcome_words(self.before.in_hand_days)

    @property
    def public_then(self) -> str:
        return outcome_words(self.after.in_hand_days)

    @property
    def public_by(self) -> int:
        """Days in hand won; below zero, lost."""
        return (self.after.in_hand_days or 0) - (self.before.in_hand_days or 0)

    @property
    def public_breaks(self) -> bool:
        return (self.after.in_hand_days or 0) < 0

    @property
    def public_by_shown(self) -> str:
        return signed(self.public_by)

    @property
    def public_moves(self) -> bool:
        return self.before.public_on != self.after.public_on

    @property
    def first_moves(self) -> Sequence[Move]:
        return self.moves[:SHOWN_MOVES]

    @property
    def other_moves(self) -> Sequence[Move]:
        return self.moves[SHOWN_MOVES:]

    @property
    def nothing_moves(self) -> bool:
        return not self.moves and self.before.key_dates == self.after.key_dates


def preview(rows: plan.Rows, slip: Slip) -> Preview:
    """Solves twice; raises ``engine.ScheduleError``."""
    changed = slipped(rows, slip)
    now, then = plan.solve(rows), plan.solve(changed)
    before, after = plan.plan_days(rows, now), plan.plan_days(changed, then)
    found = ripples(rows.project, before, after)
    return Preview(
        before=before,
        after=after,
        moves=moves(rows, now, then),
        chain=chain(rows, now, then),
        breaks=[r for r in found if r.level in BREAKS],
        holds=[r for r in found if r.level not in BREAKS],
        basis=basis(rows),
    )


def slipped(rows: plan.Rows, slip: Slip) -> plan.Rows:
    """The rows as they would be; those given are left alone."""
    if slip.key_date:
        moved = copy(slip.key_date)
        moved.on = slip.on or moved.on + timedelta(days=int(slip.days or 0))
        dates = [moved if k.pk == moved.pk else k for k in rows.key_dates]
        return replace(rows, key_dates=tuple(dates))
    assert slip.task is not None
    task = copy(slip.task)
    change_task(rows, task, slip)
    return replace(rows, tasks=tuple(task if t.pk == task.pk else t for t in rows.tasks))


def change_task(rows: plan.Rows, task: Task, slip: Slip) -> None:
    """A task under way has so many days more left; the time that is gone stays gone."""
    if slip.on:
        task.not_before = slip.on
        return
    extra = slip.days or Decimal(0)
    if task.started_on:
        task.remaining_days = max(Decimal(0), days_left(rows, task) + extra)
        task.remaining_on = rows.today
    task.days = max(Decimal(0), task.days + extra)


def days_left(rows: plan.Rows, task: Task) -> Decimal:
    calendar = rows.calendars[plan.calendar_keys(rows)[task.pk]]
    minutes = plan.activity(task, calendar, engine.instant(rows.today)).remaining or 0
    return (Decimal(minutes) / calendar.day_minutes).quantize(Decimal("0.01"))


def moves(rows: plan.Rows, now: engine.Plan, then: engine.Plan) -> list[Move]:
    """Every task whose first or last day changes, in the order of the new plan.

    Not the public event itself: whether its day is met is told apart.
    """
    keys = plan.calendar_keys(rows)
    event = rows.public.task_id if rows.public else None
    found = []
    for task in (t for t in rows.tasks if t.pk != event):
        old, new = now.dates[str(task.pk)], then.dates[str(task.pk)]
        was = plan.shown_days(old.early_start, old.early_finish, closes=task.closes)
        becomes = plan.shown_days(new.early_start, new.early_finish, closes=task.closes)
        if was != becomes:
            by = days_between(rows.calendars[keys[task.pk]], old, new)
            found.append(
                Move(
                    name=task.name,
                    now=span_words(*was),
                    then=span_words(*becomes),
                    by=by,
                    start=becomes[0],
                )
            )
    return sorted(found, key=lambda move: move.start)


def days_between(calendar: engine.Calendar, old: engine.Dates, new: engine.Dates) -> int:
    """Working days by which it finishes later, or, if the finish stays, starts later."""
    minutes = calendar.between(old.early_finish, new.early_finish)
    if minutes == 0:
        minutes = calendar.between(old.early_start, new.early_start)
    return round(minutes / calendar.day_minutes)


def chain(rows: plan.Rows, now: engine.Plan, then: engine.Plan) -> list[ChainTask]:
    names = {str(task.pk): task.name for task in rows.tasks}
    found = []
    for key in then.chain:
        dates = then.dates[key]
        if not dates.finished:
            when = span_words(*plan.shown_days(dates.early_start, dates.early_finish))
            found.append(ChainTask(name=names[key], when=when, new=key not in now.chain))
    return found


def ripples(project: Project, before: hooks.PlanDays, after: hooks.PlanDays) -> list[hooks.Ripple]:
    """What the other sheets say to it, the broken first."""
    found = [ripple for ask in hooks.ripples for ripple in ask(project, before, after)]
    return sorted(found, key=lambda ripple: WORST_FIRST.index(ripple.level))


def basis(rows: plan.Rows) -> str:
    """A digest of all that the plan is computed from, the day included."""
    network = plan.network(rows)
    calendars = {key: (c.week, sorted(c.exceptions.items())) for key, c in rows.calendars.items()}
    whole = (rows.today, network.activities, network.links, network.key_dates, network.end)
    return hashlib.sha256(repr((whole, calendars)).encode()).hexdigest()[:32]
