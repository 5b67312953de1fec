"""What the demo's plan said on earlier days, as the engine says it, and the plans kept then."""

from __future__ import annotations

from collections.abc import Mapping
from copy import copy
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from django.contrib.auth.models import User

from packets.management.demo.days import Days
from projects.models import Project
from schedules import plan
from schedules.models import Forecast, KeyDate, KeyDateKind, Link, PlanOfRecord, Task
from schedules.plan.kept import freeze
from schedules.services.records import keep_plan

Row = Mapping[str, Any]


def tell(project: Project, steps: list[Row], days: Days) -> None:
    """One forecast a step; a step with a reason is kept as a plan of record as well."""
    rows = plan.read(project, days.today)
    PlanOfRecord.objects.filter(project=project).delete()
    for step in steps:
        on = days.worked(step["day"])
        frozen = freeze(as_it_was(rows, step, on), on)
        Forecast.objects.update_or_create(
            project=project,
            on=on,
            defaults={key: frozen[key] for key in ("public_on", "ready_on", "in_hand_days")},
        )
        if "kept" in step:
            keep(project, step["kept"], frozen, on)


def keep(project: Project, reason: str, frozen: Row, on: date) -> None:
    user = User.objects.get(username="artist")
    kept = keep_plan(project=project, user=user, today=on, reason=reason)
    at = datetime.combine(on, time(16), ZoneInfo(project.zone))
    PlanOfRecord.objects.filter(pk=kept.pk).update(rows=frozen, made_at=at)
    project.log.filter(sentence=f"Kept the plan as Rev {kept.letter}.").update(at=at)


def as_it_was(rows: plan.Rows, step: Row, on: date) -> plan.Rows:
    """The rows as somebody would have had them on a day, with the estimates of then."""
    without, extra = set(step.get("without", ())), step.get("extra")
    tasks = [task_then(t, step, on) for t in rows.tasks if t.name not in without]
    kept = {task.pk for task in tasks}
    links = [link for link in rows.links if {link.before_id, link.after_id} <= kept]
    if extra:
        tasks, links = [*tasks, extra_task(rows, extra)], [*links, extra_link(rows, extra)]
    dates = tuple(date_then(k, step) for k in rows.key_dates)
    return replace(rows, today=on, tasks=tuple(tasks), links=tuple(links), key_dates=dates)


def task_then(task: Task, step: Row, on: date) -> Task:
    then = copy(task)
    then.days = Decimal(step.get("days", {}).get(task.name, task.days))
    if task.finished_on and task.finished_on >= on:
        then.finished_on = None
    if task.started_on and task.started_on >= on:
        then.started_on = None
    then.remaining_days = then.remaining_on = None
    return then


def date_then(key_date: KeyDate, step: Row) -> KeyDate:
    then = copy(key_date)
    if key_date.kind == KeyDateKind.PUBLIC:
        then.on = key_date.on + timedelta(days=step.get("public", 0))
    return then


def extra_task(rows: plan.Rows, extra: Row) -> Task:
    """A task that was dropped later: it has a number that no row has."""
    lane = next(task.lane for task in rows.tasks if task.lane.name == extra["lane"])
    days = Decimal(extra["days"])
    return Task(pk=0, project=rows.project, name=extra["name"], lane=lane, days=days)


def extra_link(rows: plan.Rows, extra: Row) -> Link:
    after = next(task for task in rows.tasks if task.name == extra["before"])
    return Link(pk=0, project=rows.project, before_id=0, after_id=after.pk)
