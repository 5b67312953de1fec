"""Write tasks and their progress."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db.models import Max

from projects.log import write
from projects.models import Project, Stage
from projects.words import day, listed, plural
from schedules.models import Lane, Link, Task
from schedules.selectors.wording import days_words
from schedules.services.planning import changes, in_words, replanned
from schedules.services.ties import agree

User = AbstractBaseUser | AnonymousUser
LABELS = {
    "name": "name",
    "lane": "lane",
    "days": "days",
    "phase": "phase",
    "calendar": "calendar",
    "low_days": "days if all goes well",
    "high_days": "days if it goes badly",
    "returns_percent": "comes back, in % of times,",
    "returns_days": "days of each return",
    "waits": "a wait",
    "crash_days": "shorter by at most",
    "crash_day_cents": "cost of each day less",
    "closes": "closes what goes before",
    "outdoor": "outdoors",
    "daylight": "needs daylight",
    "not_before": "not before",
    "not_before_reason": "reason of that day",
    "ahead_reason": "goes on regardless",
    "stage": "stage",
    "order": "order",
    "note": "note",
}
PROGRESS = {"started_on": "started", "finished_on": "finished", "remaining_days": "days left"}


def add_task(
    *,
    project: Project,
    user: User,
    today: date,
    task: Task,
    waits_for: Task | None = None,
    also: Iterable[Lane] = (),
) -> Task:
    with replanned(project, today):
        task.project = project
        last = project.tasks.aggregate(last=Max("position"))["last"]
        task.position = 0 if last is None else last + 1
        task.save()
        task.also.set(also)
        if task.stage:
            agree(task.stage, task)
        waits = ""
        if waits_for:
            Link.objects.create(project=project, before=waits_for, after=task)
            waits = f", after “{waits_for}”"
        sentence = f"Added the task “{task}” of {days_words(task.days)} to {task.lane}{waits}."
        write(project=project, user=user, about="schedules", sentence=sentence)
    return task


def save_task(
    *, project: Project, user: User, today: date, task: Task, also: Iterable[Lane] | None = None
) -> bool:
    """False when nothing was changed."""
    with replanned(project, today):
        old = Task.objects.select_for_update().get(pk=task.pk)
        changed = changes(old, task, LABELS)
        words = [in_words(changed, LABELS, project.currency)] if changed else []
        words += needs(task, also)
        if changed:
            task.save(update_fields=list(changed))
            if "stage" in changed and task.stage:
                agree(task.stage, task)
        if words:
            sentence = f"Changed “{old}”: {', '.join(words)}."
            write(project=project, user=user, about="schedules", sentence=sentence)
    return bool(words)


def needs(task: Task, also: Iterable[Lane] | None) -> list[str]:
    """Keep the other lanes that the task needs; what that changed, in words."""
    if also is None:
        return []
    wanted, held = list(also), list(task.also.all())
    if {lane.pk for lane in wanted} == {lane.pk for lane in held}:
        return []
    task.also.set(wanted)
    names = listed([lane.name for lane in wanted]) if wanted else "nobody else"
    return [f"also needs {names}"]


def delete_task(*, project: Project, user: User, today: date, task: Task) -> str:
    with replanned(project, today):
        links = task.links_in.count() + task.links_out.count()
        tail = f" and its {plural(links, 'link')}" if links else ""
        task.delete()
        sentence = f"Removed the task “{task}”{tail}."
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def mark_progress(
    *, project: Project, user: User, today: date, task: Task, left_said: bool = False
) -> str:
    """Keep when the task started, finished, and what is left; a tied stage follows.

    With ``left_said`` what is left counts from this morning, even if the number is the same.
    """
    with replanned(project, today):
        old = Task.objects.select_for_update().get(pk=task.pk)
        changed = changes(old, task, PROGRESS)
        if "remaining_days" in changed or left_said:
            task.remaining_on = None if task.remaining_days is None else today
        task.said_on = today
        task.save(update_fields=[*changed, "remaining_on", "said_on"])
        if "finished_on" in changed:
            follow_stage(task)
        if changed or left_said:
            write(project=project, user=user, about="schedules", sentence=progress_words(task))
    return progress_words(task)


def follow_stage(task: Task) -> None:
    if task.stage_id:
        Stage.objects.filter(pk=task.stage_id).update(done_on=task.finished_on)


def progress_words(task: Task) -> str:
    if task.finished_on:
        return f"“{task}” finished on {day(task.finished_on)}."
    if not task.started_on:
        return f"“{task}” has not started."
    left = ""
    if task.remaining_days is not None:
        left = f"; {days_words(task.remaining_days)} are left"
    return f"“{task}” started on {day(task.started_on)}{left}."
