"""Write parts, who makes them, and their stages with the tasks that carry these."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.db import transaction
from django.db.models import Max

from projects import hooks
from projects.access import type_user
from projects.log import write
from projects.models import Part, Project, Stage, StageName
from projects.words import day
from schedules.models import Task
from schedules.selectors.parts import open_before_words
from schedules.services.planning import replanned
from schedules.services.ties import agree, finish_task
from suppliers.models import Making, Supplier


def note(project: Project, user: type_user, sentence: str) -> str:
    write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


@transaction.atomic
def part_save(*, part: Part, maker: Supplier | None, stages: Sequence[str], user: type_user) -> str:
    """Save a part with its maker and the stages it goes through."""
    verb = "Changed" if part.pk else "Added"
    if part.pk is None:
        last = part.project.parts.aggregate(last=Max("position"))["last"]
        part.position = 0 if last is None else last + 1
    part.save()
    set_maker(part, maker)
    set_stages(part, stages)
    return with_consequences(part.project, user, f"{verb} the part “{part}”.")


def set_maker(part: Part, maker: Supplier | None) -> None:
    if maker is None:
        Making.objects.filter(part=part).delete()
    else:
        Making.objects.update_or_create(part=part, defaults={"supplier": maker})


def set_stages(part: Part, names: Sequence[str]) -> None:
    """Add the stages that are missing; take away those that are not wanted and not done."""
    part.stages.exclude(name__in=names).filter(done_on=None).delete()
    present = set(part.stages.values_list("name", flat=True))
    order = list(StageName.values)
    Stage.objects.bulk_create(
        Stage(part=part, name=name, position=order.index(name))
        for name in names
        if name not in present
    )


@transaction.atomic
def part_delete(*, part: Part, user: type_user) -> str:
    """The tasks of its stages stay in the schedule."""
    part.delete()
    return with_consequences(part.project, user, f"Removed the part “{part}”.")


def with_consequences(project: Project, user: type_user, sentence: str) -> str:
    """The sentence, and what it leads to in what was worked out from the parts."""
    told = hooks.rework(project, sentence, user)
    return note(project, user, " ".join(filter(None, (sentence, told))))


def stage_tick(*, stage: Stage, on: date, user: type_user, today: date) -> str:
    """Done on a day; the tied task is finished that day, and the plan follows."""
    project = stage.part.project
    with replanned(project, today):
        stage.done_on = on
        stage.save(update_fields=["done_on"])
        task = finish_task(stage, on)
        sentence = f"{title(stage)} was done on {day(on)}{with_task(task)}."
        note(project, user, sentence)
    return " ".join(filter(None, (sentence, open_before_words(stage))))


def stage_untick(*, stage: Stage, user: type_user, today: date) -> str:
    """Not done after all; nor is the tied task."""
    project = stage.part.project
    with replanned(project, today):
        stage.done_on = None
        stage.save(update_fields=["done_on"])
        task = finish_task(stage, None)
        return note(project, user, f"{title(stage)} is not done yet{with_task(task)}.")


def stage_tie(*, stage: Stage, task: Task | None, user: type_user, today: date) -> str:
    """Let a task carry the stage; when one of the two is done, so is the other."""
    project = stage.part.project
    with replanned(project, today):
        Task.objects.filter(stage=stage).update(stage=None)
        if task is None:
            return note(project, user, f"{title(stage)} is no longer tied to a task.")
        task.stage = stage
        task.save(update_fields=["stage"])
        agree(stage, task)
        return note(project, user, f"{title(stage)} is now the task “{task}”.")


def title(stage: Stage) -> str:
    return f"{stage.get_name_display()} of “{stage.part}”"


def with_task(task: Task | None) -> str:
    return f", and with it the task “{task}”" if task else ""
