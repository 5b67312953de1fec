"""A starting plan becomes lanes, tasks and links, laid out back from the public date."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django.db import transaction

from projects import hooks
from projects.models import Stage
from schedules.models import (
    Calendar,
    KeyDate,
    KeyDateEffect,
    KeyDateKind,
    LagClock,
    Lane,
    Link,
    Task,
)
from schedules.plan import recompute

Row = Mapping[str, Any]


@hooks.beginnings.register("schedules.plan", place=30)
@transaction.atomic
def lay_out_plan(beginning: hooks.Beginning) -> None:
    """Leaves ``notes["tasks"]`` and ``notes["lanes"]``: rows by their key in the plan."""
    project, plan = beginning.project, beginning.plan
    Calendar.objects.create(
        project=project, name="Working days", weekdays=beginning.weekdays, is_default=True
    )
    lanes = lay_out_lanes(beginning)
    tasks = lay_out_tasks(beginning, lanes)
    Link.objects.bulk_create([link_of(row, project.pk, tasks) for row in plan["links"]])
    KeyDate.objects.create(
        project=project,
        name=beginning.public_name,
        kind=KeyDateKind.PUBLIC,
        on=beginning.public_on,
        effect=KeyDateEffect.EVENT,
        task=tasks[plan["event"]],
    )
    beginning.notes.update(lanes=lanes, tasks=tasks)
    recompute(project, beginning.today)


def lay_out_lanes(beginning: hooks.Beginning) -> dict[str, Lane]:
    rows = beginning.plan["lanes"]
    made = Lane.objects.bulk_create(
        Lane(project=beginning.project, name=row["name"], position=n) for n, row in enumerate(rows)
    )
    return {row["key"]: lane for row, lane in zip(rows, made, strict=True)}


def lay_out_tasks(beginning: hooks.Beginning, lanes: Mapping[str, Lane]) -> dict[str, Task]:
    rows = beginning.plan["tasks"]
    stages = free_stages(beginning)
    made = Task.objects.bulk_create(
        Task(
            project=beginning.project,
            name=row["name"],
            phase=row["phase"],
            lane=lanes[row["lane"]],
            days=Decimal(str(row["days"])),
            closes=row.get("closes", False),
            low_days=Decimal(str(row["low"])),
            high_days=Decimal(str(row["high"])),
            outdoor=row["outdoor"],
            daylight=row["daylight"],
            stage=stages.pop(stage_key(row), None),
            position=n,
        )
        for n, row in enumerate(rows)
    )
    return {row["key"]: task for row, task in zip(rows, made, strict=True)}


def free_stages(beginning: hooks.Beginning) -> dict[tuple[str, str], Stage]:
    """The stages that no task holds yet, by the name of their part and their own."""
    found = Stage.objects.filter(part__project=beginning.project, task=None).select_related("part")
    return {(stage.part.name, str(stage.name)): stage for stage in found}


def stage_key(row: Row) -> tuple[str, str]:
    return row.get("part") or "", re.sub("[ -]", "_", row.get("stage") or "")


def link_of(row: Row, project_id: int, tasks: Mapping[str, Task]) -> Link:
    elapsed = "lag_hours" in row
    return Link(
        project_id=project_id,
        before=tasks[row["before"]],
        after=tasks[row["after"]],
        kind=row["kind"],
        lag=Decimal(str(row.get("lag_hours") or row.get("lag_days") or 0)),
        lag_clock=LagClock.ELAPSED if elapsed else LagClock.WORK,
        reason=row.get("reason", ""),
    )
