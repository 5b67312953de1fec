"""Two panels of the overview: what carries the date, and the next actions by lane."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from django.urls import reverse

from projects import hooks
from projects.models import Project
from projects.words import day
from schedules import engine
from schedules.models import AppliedSlip, Task
from schedules.plan import Rows, current, early_days, late_days, look
from schedules.selectors.lede import lede, open_chain
from schedules.selectors.notices import waiting_for

MOST_ROWS = 8


@hooks.overview.register("schedules.chain", place=10)
def what_carries_the_date(project: Project, today: date) -> hooks.Panel | None:
    state = current(project, today)
    rows = look(project, today).rows
    first = lede(rows, state)
    return hooks.Panel(
        title="What carries the date",
        sentence=f"{first.says} {first.action}".strip(),
        rows=tuple(chain_row(rows, task) for task in open_chain(rows)[:MOST_ROWS]),
        empty="Nothing waits on the public date. Add tasks and links on the schedule.",
        url=reverse("schedules:schedule", args=[project.pk]),
        wide=True,
    )


def chain_row(rows: Rows, task: Task) -> hooks.PanelRow:
    start, finish = early_days(task)
    return hooks.PanelRow(
        text=f"{task} ({task.lane})",
        detail=f"{day(start)} to {day(finish)}" if start != finish else day(start),
        url=reverse("schedules:why", args=[rows.project.pk, task.pk]),
        level=hooks.Level.BROKEN if is_late(task) else hooks.Level.PLAIN,
    )


def is_late(task: Task) -> bool:
    return task.to_end and (task.total_float or 0) < 0


@hooks.overview.register("schedules.next", place=20)
def next_actions(project: Project, today: date) -> hooks.Panel | None:
    current(project, today)
    rows = look(project, today).rows
    return hooks.Panel(
        title="Next actions by lane",
        rows=tuple(action_row(rows, task) for task in first_of_each_lane(rows)[:MOST_ROWS]),
        empty="Every task is finished, or none is planned yet.",
        url=reverse("schedules:schedule", args=[project.pk]),
    )


def first_of_each_lane(rows: Rows) -> list[Task]:
    """What each lane does next: what can be done now before what must wait."""
    now = engine.instant(rows.today)
    ready = {t.pk: can_start(rows, t, now) for t in rows.tasks}
    waiting = sorted((t for t in rows.tasks if not t.finished_on), key=lambda t: turn(t, ready))
    first: dict[int, Task] = {}
    for task in waiting:
        first.setdefault(task.lane_id, task)
    return list(first.values())


def turn(task: Task, ready: Mapping[int, bool]) -> tuple[bool, int, int]:
    by = task.late_start if ready[task.pk] else task.early_start
    return not ready[task.pk], by or 0, task.position


def can_start(rows: Rows, task: Task, now: int) -> bool:
    if task.started_on or (task.to_end and (task.late_start or 0) < now):
        return True
    calendar = rows.calendars[rows.hours_of(task)]
    return (task.early_start or 0) <= calendar.snap(now)


def action_row(rows: Rows, task: Task) -> hooks.PanelRow:
    now = engine.instant(rows.today)
    last_start = late_days(task)[0]
    start, finish = early_days(task)
    if task.started_on:
        detail = f"under way, finish by {day(finish)}"
    elif task.to_end and (task.late_start or 0) < now:
        detail = f"should have started by {day(last_start)}"
    elif not can_start(rows, task, now):
        detail = f"from {day(start)}"
    else:
        detail = f"start by {day(last_start)}" if task.to_end else "can start now"
    return hooks.PanelRow(
        text=f"{task.lane}: {task}",
        detail=detail,
        url=reverse("schedules:schedule", args=[rows.project.pk]) + f"#task-{task.pk}",
        level=hooks.Level.BROKEN if is_late(task) else hooks.Level.PLAIN,
    )


@hooks.overview.register("schedules.notices", place=15)
def to_be_told(project: Project, today: date) -> hooks.Panel | None:
    """Only while somebody waits for a notice."""
    waiting = waiting_for(project)
    if not waiting.parties:
        return None
    url = reverse("schedules:notices", args=[project.pk])
    row = hooks.PanelRow(
        text=waiting.to_send, detail=waiting.named, url=url, level=hooks.Level.NEAR
    )
    return hooks.Panel(title="Who is to be told", rows=(row,), empty="", url=url, wide=True)


@hooks.takebacks.register("schedules.slips")
def ways_back(project: Project) -> dict[str, str]:
    """The page on which an applied slip can be taken back, by its entry in the log."""
    url = reverse("schedules:slip", args=[project.pk])
    slips = AppliedSlip.objects.filter(project=project, undone_at=None)
    return {slip.sentence: f"{url}?applied={slip.pk}" for slip in slips.order_by("pk")}
