"""Permits that expire, papers that fall due and booked slots, held against the tasks."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from django.urls import reverse

from projects import hooks
from projects.hooks import Level, PlanDays, Ripple, TaskDays
from projects.models import Project
from projects.words import day, plural
from schedules.models import KeyDate, KeyDateEffect, KeyDateKind

NEAR_DAYS = 3


@hooks.ripples.register("schedules.key_dates", place=10)
def key_dates(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    url = reverse("schedules:schedule", args=[project.pk]) + "#dates"
    found = []
    for row in KeyDate.objects.filter(project=project):
        said = judge(row)(row, before, after)
        if said:
            found.append(Ripple(level=said[0], subject=row.name, says=said[1], url=url))
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
    return slot if row.kind == KeyDateKind.DELIVERY else nothing


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
    """Nothing to say unless a task must be finished by it."""
    task = after.tasks.get(row.task_id or 0)
    on = after.key_dates.get(row.pk, row.on)
    if task is None:
        return None
    return room(on, task.finish, fact(row, "is due", on), f"{task.name} would finish")


def room(on: date, until: date, said: str, what: str) -> tuple[Level, str]:
    days = (on - until).days
    if days < 0:
        return Level.BROKEN, f"{said}; {what} {day(until)}, {plural(-days, 'day')} after it."
    if days <= NEAR_DAYS:
        left = f"only {plural(days, 'day')} before it" if days else "on that very day"
        return Level.NEAR, f"{said}; {what} {day(until)}, {left}."
    return Level.HOLDS, f"{said}; {what} {day(until)}: {plural(days, 'day')} to spare."


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
