"""Mend what ails a plan where there is one right answer; keep reasons."""

from __future__ import annotations

from datetime import date, time

from django.db import transaction
from django.db.models import F

from projects.log import write
from projects.models import Project
from projects.words import day, day_year
from schedules.models import (
    Calendar,
    KeyDate,
    KeyDateEffect,
    KeyDateKind,
    LagClock,
    Link,
    LinkKind,
    Task,
)
from schedules.selectors.links import link_words
from schedules.services.planning import replanned
from schedules.services.tasks import User

HOURS_A_DAY = 24
AROUND = "Day and night"


class NothingToMend(Exception):
    """Somebody mended it meanwhile; the sentence says so."""


def tie_to_public_date(*, project: Project, user: User, today: date, task: Task) -> str:
    """The public date waits for the task. Raises ``engine.Cycle`` when the task follows it."""
    public = KeyDate.objects.filter(project=project, kind=KeyDateKind.PUBLIC).first()
    if public is None or public.task is None:
        raise NothingToMend("Set the public date first, and the task that happens on it.")
    if Link.objects.filter(before=task, after=public.task, kind=LinkKind.FS).exists():
        raise NothingToMend(f"“{public.task}” waits for “{task}” already.")
    with replanned(project, today):
        link = Link.objects.create(project=project, before=task, after=public.task)
        sentence = f"“{link.after}” waits for “{task}”: {link_words(link)}."
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def make_waiting_task(*, project: Project, user: User, today: date, link: Link) -> str:
    """A long wait in a link becomes a task that takes nobody's hands; no date moves."""
    if link.lag <= 0:
        raise NothingToMend(f"“{link.after}” has no wait after “{link.before}” any more.")
    with replanned(project, today):
        name = (link.reason.strip() or f"wait after {link.before}")[:120]
        Task.objects.filter(project=project, position__gt=link.before.position).update(
            position=F("position") + 1
        )
        waiting = Task.objects.create(
            project=project,
            name=name[0].upper() + name[1:],
            phase=link.before.phase,
            position=link.before.position + 1,
            waits=True,
            **length(link, project),
        )
        join(link, waiting)
        sentence = f"Made the wait between “{link.before}” and “{link.after}” a task: “{waiting}”."
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def length(link: Link, project: Project) -> dict[str, object]:
    """Days, lane and calendar of a wait: those of a task, the project's hours, or the clock's.

    Hours become hundredths of a day, so an odd wait may end some minutes off.
    """
    task = link.after if link.lag_clock == LagClock.SUCCESSOR else link.before
    if link.lag_clock == LagClock.PROJECT:
        own = Calendar.objects.filter(project=project, is_default=True).first()
        calendar = own or round_the_clock(project)
        return {"days": link.lag, "lane": task.lane, "calendar": calendar}
    elapsed = link.lag_clock == LagClock.ELAPSED
    if elapsed or task.key_dates.filter(effect=KeyDateEffect.EVENT).exists():
        days = round(link.lag / HOURS_A_DAY if elapsed else link.lag, 2)
        return {"days": days, "lane": task.lane, "calendar": round_the_clock(project)}
    own, daylight = task.calendar, task.daylight
    return {"days": link.lag, "lane": task.lane, "calendar": own, "daylight": daylight}


def round_the_clock(project: Project) -> Calendar:
    hours = {"weekdays": "1111111", "opens": time(0), "closes": time(0), "keeps_holidays": False}
    own = Calendar.objects.filter(project=project, supplier=None, exceptions=None, **hours)
    found = next((calendar for calendar in own if not calendar.day_hours), None)
    return found or Calendar.objects.create(project=project, name=AROUND, **hours)


def join(link: Link, waiting: Task) -> None:
    """The same two points are held, with the wait as a task between them."""
    from_finish = link.kind in (LinkKind.FS, LinkKind.FF)
    to_start = link.kind in (LinkKind.FS, LinkKind.SS)
    first = LinkKind.FS if from_finish else LinkKind.SS
    second = LinkKind.FS if to_start else LinkKind.FF
    Link.objects.filter(pk=link.pk).delete()
    for before, after, kind in ((link.before, waiting, first), (waiting, link.after, second)):
        Link.objects.create(project_id=link.project_id, before=before, after=after, kind=kind)


def say_it_waits(*, project: Project, user: User, today: date, task: Task) -> str:
    """A review or a delivery takes nobody's hands, however long it is."""
    with replanned(project, today):
        Task.objects.filter(pk=task.pk).update(waits=True)
        sentence = f"“{task}” only waits: it takes nobody’s hands."
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def set_to_today(*, project: Project, user: User, today: date, task: Task) -> str:
    """A day that is still to come, marked as if it had been, becomes today."""
    with replanned(project, today):
        task = Task.objects.select_for_update().get(pk=task.pk)
        names = ("started_on", "finished_on")
        ahead = [name for name in names if (getattr(task, name) or today) > today]
        if not ahead:
            raise NothingToMend(f"“{task}” has no day that is still to come.")
        for name in ahead:
            setattr(task, name, today)
        task.save(update_fields=ahead)
        if task.stage_id and "finished_on" in ahead:
            task.stage.done_on = today  # type: ignore[union-attr]
            task.stage.save(update_fields=["done_on"])  # type: ignore[union-attr]
        sentence = f"Set the day of “{task}” that was still to come to {day(today)}."
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


@transaction.atomic
def explain_link(*, project: Project, user: User, link: Link, reason: str) -> str:
    Link.objects.filter(pk=link.pk).update(reason=reason)
    sentence = f"Said why “{link.after}” waits after “{link.before}”."
    write(project=project, user=user, about="schedules", sentence=sentence, reason=reason)
    return sentence


@transaction.atomic
def explain_key_date(*, project: Project, user: User, key_date: KeyDate, reason: str) -> str:
    KeyDate.objects.filter(pk=key_date.pk).update(reason=reason)
    sentence = f"Said why “{key_date}” is on {day_year(key_date.on)}."
    write(project=project, user=user, about="schedules", sentence=sentence, reason=reason)
    return sentence


@transaction.atomic
def explain_start(*, project: Project, user: User, task: Task, reason: str) -> str:
    if task.not_before is None:
        raise NothingToMend(f"“{task}” has no first day any more.")
    Task.objects.filter(pk=task.pk).update(not_before_reason=reason)
    sentence = f"Said why “{task}” cannot start before {day_year(task.not_before)}."
    write(project=project, user=user, about="schedules", sentence=sentence, reason=reason)
    return sentence
