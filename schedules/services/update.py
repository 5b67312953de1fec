"""Keep what was answered to an update, and take an answer back."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from projects.log import write
from projects.models import Project
from projects.words import day
from schedules.models import Task
from schedules.services.planning import replanned
from schedules.services.tasks import User, follow_stage, mark_progress, progress_words

DAYS = ("started_on", "finished_on", "remaining_on", "said_on")
State = dict[str, str | None]  # how far a task is, as a session can hold it


class Changed(Exception):
    """The task was changed after the answer that is to be taken back."""


def state_of(task: Task) -> State:
    found: State = {n: v.isoformat() if (v := getattr(task, n)) else None for n in DAYS}
    left = task.remaining_days
    return found | {"remaining_days": None if left is None else f"{left.normalize():f}"}


def set_state(task: Task, state: State) -> None:
    for name in DAYS:
        value = state[name]
        setattr(task, name, date.fromisoformat(value) if value else None)
    left = state["remaining_days"]
    task.remaining_days = None if left is None else Decimal(left)


def begin(*, project: Project, user: User, today: date, task: Task, on: date) -> str:
    task.started_on = on
    return mark_progress(project=project, user=user, today=today, task=task)


def finish(
    *, project: Project, user: User, today: date, task: Task, on: date, begun: date | None = None
) -> str:
    """``begun`` is when it is taken to have started, if nobody said so before."""
    task.started_on = task.started_on or min(begun or on, on)
    task.finished_on, task.remaining_days = on, None
    return mark_progress(project=project, user=user, today=today, task=task)


def say_left(*, project: Project, user: User, today: date, task: Task, left: Decimal) -> str:
    task.remaining_days = left
    return mark_progress(project=project, user=user, today=today, task=task, left_said=True)


def not_yet(*, project: Project, user: User, today: date, task: Task) -> str:
    """Nothing moves; that somebody looked is kept."""
    verb = "was not finished" if task.started_on else "had not started"
    sentence = f"“{task}” {verb} by {day(today)}."
    with replanned(project, today):
        task.said_on = today
        task.save(update_fields=["said_on"])
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def take_back(
    *, project: Project, user: User, today: date, task: Task, was: State, became: State
) -> str:
    """The task as it was before the answer; refused when somebody changed it since."""
    with replanned(project, today):
        held = Task.objects.select_for_update().get(pk=task.pk)
        if state_of(held) != became:
            raise Changed
        finished = held.finished_on
        set_state(held, was)
        held.save(update_fields=[*DAYS, "remaining_days"])
        if held.finished_on != finished:
            follow_stage(held)
        sentence = f"Took back the answer: {progress_words(held)}"
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def go_ahead(*, project: Project, user: User, today: date, task: Task, reason: str) -> str:
    """Its rest goes on regardless of what it waits for; without a reason it waits again."""
    with replanned(project, today):
        task.ahead_reason = reason
        task.save(update_fields=["ahead_reason"])
        says = "goes on regardless of what it waits for" if reason else "waits again"
        sentence = f"“{task}” {says}."
        write(project=project, user=user, about="schedules", sentence=sentence, reason=reason)
    return sentence
