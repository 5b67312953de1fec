"""Try a slip: the plan as it would be, held against the plan as it is. Nothing is saved."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from projects import hooks
from projects.models import Project
from projects.words import day
from schedules import engine, plan
from schedules.models import Task
from schedules.plan.rows import LIT
from schedules.selectors.slip_cost import Bill, bill
from schedules.selectors.trying import Slip, slipped
from schedules.selectors.wording import outcome_words, signed, span_words

SHOWN_MOVES = 12
WORST_FIRST = [hooks.Level.BROKEN, hooks.Level.NEAR, hooks.Level.HOLDS, hooks.Level.PLAIN]
BREAKS = (hooks.Level.BROKEN, hooks.Level.NEAR)


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
    dates: Sequence[Move]  # key dates that are moved, but for the public date
    chain: Sequence[ChainTask]
    breaks: Sequence[hooks.Ripple]  # which the changes break or bring near
    already: Sequence[hooks.Ripple]  # broken or near as it stands
    holds: Sequence[hooks.Ripple]
    bill: Bill
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

    @property
    def broken(self) -> int:
        """How many things outside the schedule it breaks, those only brought near left out."""
        return sum(1 for ripple in self.breaks if ripple.level == hooks.Level.BROKEN)


def preview(rows: plan.Rows, slips: Sequence[Slip], now: engine.Plan | None = None) -> Preview:
    """``now`` is the plan of ``rows``, if it was solved already; raises ``ScheduleError``."""
    changed = slipped(rows, slips)
    now, then = now or plan.solve(rows), plan.solve(changed)
    before, after = plan.plan_days(rows, now), plan.plan_days(changed, then)
    new, already, holds = told_apart(rows.project, before, after)
    return Preview(
        before=before,
        after=after,
        moves=moves(rows, now, then),
        dates=moved_dates(rows, changed),
        chain=chain(rows, now, then),
        breaks=new,
        already=already,
        holds=holds,
        bill=bill(rows, slips, (now, then), (before, after), changed),
        basis=basis(rows),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Shift:
    """A task whose first or last day is another in a second plan."""

    task: Task
    was: tuple[date, date]
    becomes: tuple[date, date]
    old: engine.Dates
    new: engine.Dates
    calendar: engine.Calendar


def shifts(rows: plan.Rows, now: engine.Plan, then: engine.Plan) -> list[Shift]:
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
            calendar = rows.calendars[keys[task.pk]]
            found.append(
                Shift(task=task, was=was, becomes=becomes, old=old, new=new, calendar=calendar)
            )
    return sorted(found, key=lambda shift: shift.becomes[0])


def moves(rows: plan.Rows, now: engine.Plan, then: engine.Plan) -> list[Move]:
    return [
        Move(
            name=shift.task.name,
            now=span_words(*shift.was),
            then=span_words(*shift.becomes),
            by=days_between(shift.calendar, shift.old, shift.new),
            start=shift.becomes[0],
        )
        for shift in shifts(rows, now, then)
    ]


def moved_dates(rows: plan.Rows, changed: plan.Rows) -> list[Move]:
    was = {k.pk: k.on for k in rows.key_dates}
    public = rows.public.pk if rows.public else None
    return [
        Move(
            name=k.name, now=day(was[k.pk]), then=day(k.on), by=(k.on - was[k.pk]).days, start=k.on
        )
        for k in changed.key_dates
        if k.on != was[k.pk] and k.pk != public
    ]


def days_between(calendar: engine.Calendar, old: engine.Dates, new: engine.Dates) -> int:
    """Working days by which it finishes later, or, if the finish stays, starts later."""
    minutes = calendar.between(old.early_finish, new.early_finish)
    if minutes == 0:
        minutes = calendar.between(old.early_start, new.early_start)
    return round(minutes / calendar.day_minutes)


def chain(rows: plan.Rows, now: engine.Plan, then: engine.Plan) -> list[ChainTask]:
    tasks = {str(task.pk): task for task in rows.tasks}
    found = []
    for key in then.chain:
        dates = then.dates[key]
        if not dates.finished:
            task = tasks[key]
            days = plan.shown_days(dates.early_start, dates.early_finish, closes=task.closes)
            found.append(
                ChainTask(name=task.name, when=span_words(*days), new=key not in now.chain)
            )
    return found


def ripples(project: Project, before: hooks.PlanDays, after: hooks.PlanDays) -> list[hooks.Ripple]:
    """What the other sheets say to it, the broken first."""
    found = [ripple for ask in hooks.ripples for ripple in ask(project, before, after)]
    return sorted(found, key=rank)


def rank(ripple: hooks.Ripple) -> int:
    return WORST_FIRST.index(ripple.level)


Told = tuple[list[hooks.Ripple], list[hooks.Ripple], list[hooks.Ripple]]


def told_apart(project: Project, before: hooks.PlanDays, after: hooks.PlanDays) -> Told:
    """What newly breaks, what is so already, and what holds.

    The way back, from the plan as it would be to the plan as it is, says how each stands now.
    """
    found = ripples(project, before, after)
    back = ripples(project, after, before)
    now = {(r.subject, r.url): rank(r) for r in back if not r.of_change}
    bad = [r for r in found if r.level in BREAKS]
    so_now = [r for r in bad if now.get((r.subject, r.url), len(WORST_FIRST)) <= rank(r)]
    return [r for r in bad if r not in so_now], so_now, [r for r in found if r not in bad]


def basis(rows: plan.Rows) -> str:
    """A digest of all that the plan is computed from, the day included."""
    network = plan.network(rows)
    calendars = {
        key: (c.week, sorted(c.exceptions.items()))
        for key, c in rows.calendars.items()
        if not key.endswith(LIT)  # follows from the others and the place
    }
    whole = (rows.today, network.activities, network.links, network.key_dates, network.end)
    return hashlib.sha256(repr((whole, calendars)).encode()).hexdigest()[:32]
