"""A stage and the task that carries it: when one is done, so is the other."""

from __future__ import annotations

from datetime import date

from projects.models import Stage
from schedules.models import Task


def agree(stage: Stage, task: Task) -> None:
    if stage.done_on:
        finish_task(stage, stage.done_on)
    elif task.finished_on:
        stage.done_on = task.finished_on
        stage.save(update_fields=["done_on"])


def finish_task(stage: Stage, on: date | None) -> Task | None:
    """A finished task has no days left; one that is open again counts from its duration."""
    task = Task.objects.filter(stage=stage).first()
    if task:
        task.finished_on = on
        task.remaining_days = task.remaining_on = None
        task.save(update_fields=["finished_on", "remaining_days", "remaining_on"])
    return task
