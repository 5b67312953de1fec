"""Permits that expire, papers that fall due, slots, hires and meetings, against the tasks."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from django.urls import reverse

from projects import hooks
from projects.hooks import Level, PlanDays, Ripple, TaskDays
from projects.models import Project
from projects.words import day, plural, span
from schedules.models import KeyDate, KeyDateEffect, KeyDateKind
from schedules.plan import key_dates_of
from schedules.selectors.parties import hire_spans
from suppliers.selectors import OPEN_ORDERS, needed_days, window_level

NEAR_DAYS = 3


@hooks.ripples.register("schedules.key_dates", place=10)
def key_dates(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    url = reverse("schedules:schedule", args=[project.pk]) + "#dates"
    found = []
    for row in key_dates_of(project):
        said = judge(row)(row, before, after)
        if said:
            found.append(Ripple(level=said[0], subject=row.name, says=said[1], url=url))
    return found


@hooks.ripples.register("schedules.fixed", place=5)
def fixed_dates(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    """A date that was said to be fixed, and would be moved all the same."""
    url = reverse("schedules:schedule", args=[project.pk]) + "#dates"
    return [
        Ripple(
            level=Level.NEAR,
            subject=row.name,
            says=f"is marked as fixed: ask whoever set it whether {day(on)} will do.",
            url=url,
            of_change=True,
        )
        for row in key_dates_of(project)
        if not row.movable
        and (on := after.key_dates.get(row.pk))
        and on != before.key_dates.get(row.pk)
    ]


@hooks.ripples.register("schedules.hires", place=15)
def hire_windows(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    """A hire that would last beyond the days it is booked for."""
    was = {hire.pk: days for hire, days in hire_spans(project, before)}
    found = []
    for hire, days in hire_spans(project, after):
        order = hire.order
        if order is None or order.state not in OPEN_ORDERS or not order.window:
            continue
        if needed_days(t for t in after.tasks.values() if t.order_id == order.pk) == days:
            continue  # the order says it itself
        level = window_level(order, *days)
        if days != was.get(hire.pk) and level in (Level.BROKEN, Level.NEAR):
            says = f"is booked {order.window}; it would last {span(*days)}."
            url = reverse("suppliers:supplier", args=[project.pk, order.supplier_id])
            found.append(Ripple(level=level, subject=hire.name, says=says, url=url))
    return found


Said = tuple[Level, str] | None
Judge = Callable[[KeyDate, PlanDays, PlanDays], Said]


def judge(row: KeyDate) -> Judge:
    if row.kind == KeyDateKind.PUBLIC:
        return nothing
    if row.kind == KeyDateKind.EXPIRY:
        return expiry
    if row.kind == KeyDateKind.DUE or row.effect == KeyDateEffect.NO_LATER:
        return last_day
    if row.kind == KeyDateKind.DELIVERY:
        return slot
    return meeting if row.effect == KeyDateEffect.NONE else nothing


def nothing(row: KeyDate, before: PlanDays, after: PlanDays) -> Said:
    return None


def expiry(row: KeyDate, before: PlanDays, after: PlanDays) -> Said:
    """It must outlast its task; tied to none, all the work before the public date."""
    task = after.tasks.get(row.task_id or 0)
    on = after.key_dates.get(row.pk, row.on)
    until = task.finish if task else after.work_done_on
    what = f"{task.name} would finish" if task else "the work would be done"
    return room(on, until, fact(row, "expires", on), what) if until else None


def fact(row: KeyDate, verb: str, on: date) -> str:
    """“expires Fri 30 Oct”, unless the name of the date says so already."""
    said = verb.removeprefix("is ") in row.name.lower()
    return f"on {day(on)}" if said else f"{verb} {day(on)}"


def last_day(row: KeyDate, before: PlanDays, after: PlanDays) -> Said:
    """A task must be finished by it; a paper that is due after the opening, after that."""
    task = after.tasks.get(row.task_id or 0)
    on = after.key_dates.get(row.pk, row.on)
    if task is None:
        return after_opening(row, on, before, after)
    return room(on, task.finish, fact(row, "is due", on), f"{task.name} would finish")


def room(on: date, until: date, said: str, what: str) -> tuple[Level, str]:
    days = (on - until).days
    if days < 0:
        return Level.BROKEN, f"{said}; {what} {day(until)}, {plural(-days, 'day')} after it."
    if days <= NEAR_DAYS:
        left = f"only {plural(days, 'day')} before it" if days else "on that very day"
        return Level.NEAR, f"{said}; {what} {day(until)}, {left}."
    return Level.HOLDS, f"{said}; {what} {day(until)}: {plural(days, 'day')} to spare."


def after_opening(row: KeyDate, on: date, before: PlanDays, after: PlanDays) -> Said:
    """Only where the public date would pass a paper's due date, on which nothing else hangs."""
    was, then = before.public_on, after.public_on
    if not (was and then) or was == then or not was <= before.key_dates.get(row.pk, row.on):
        return None
    if then <= on:
        return None
    return Level.BROKEN, f"{fact(row, 'is due', on)}, before {after.public_name}, {day(then)}."


def meeting(row: KeyDate, before: PlanDays, after: PlanDays) -> Said:
    """A hearing or visit that belongs to a task, and drives nothing: is it still in its days?"""
    task = after.tasks.get(row.task_id or 0)
    if task is None or task.finished:
        return None
    on = after.key_dates.get(row.pk, row.on)
    said = f"is on {day(on)}; {task.name} would be {span(task.start, task.finish)}"
    if task.start <= on <= task.finish:
        return Level.HOLDS, f"{said}: still in its days."
    return Level.NEAR, f"{said}."


def slot(row: KeyDate, before: PlanDays, after: PlanDays) -> Said:
    task = after.tasks.get(row.task_id or 0)
    if task is None or task.finished:
        return None
    return booked(after.key_dates.get(row.pk, row.on), task, before.tasks.get(task.pk))


def booked(on: date, task: TaskDays, was: TaskDays | None) -> tuple[Level, str]:
    said = f"is booked for {day(on)}; {task.name} would start {day(task.start)}"
    if task.start < on:
        return Level.BROKEN, f"{said}, before it comes."
    if was and task.start > was.start and task.start > on:
        return Level.NEAR, f"{said}, {plural((task.start - on).days, 'day')} after it comes."
    return Level.HOLDS, f"{said}: still in time."
