"""What the schedule sheet shows: every task with its dates, its days in hand and its state."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from typing import Any

from projects.hooks import Level
from projects.models import Project
from projects.words import day
from schedules import engine
from schedules.models import Lane, PlanOfRecord, PlanState, Task
from schedules.plan import Rows, calendar_keys, current, early_days, late_days, read, shown_days
from schedules.selectors.hands import overbooked_words
from schedules.selectors.hires import hire_lines
from schedules.selectors.lede import lede
from schedules.selectors.update import record_of, to_answer
from schedules.selectors.wording import NEAR_DAYS, decimal_words, span_words
from schedules.timeline.rows import draw

GROUPINGS = {"phase": "By phase", "lane": "By lane"}
FOLDINGS = {"open": "Still to do", "all": "All tasks"}
ZOOMS = ("fit", "months", "weeks", "days", "paper")
AGAINSTS = ("nothing", "record")
NO_PATH = "no path to this end"
NOT_WAITED_FOR = "public date does not wait for it"
PLACINGS = ("earliest", "latest")


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskRow:
    """A task as the table shows it."""

    task: Task
    key: str  # its primary key, ready to print
    start: date
    finish: date
    late_finish: date
    in_hand: int | None  # whole days of its own calendar; None: the public date does not wait
    state: str
    level: Level
    tick: str  # what one click may say of it today: started, finished, or nothing
    to_end: bool  # whether the public date, or the end that was chosen, waits for it

    @property
    def when(self) -> str:
        return span_words(self.start, self.finish)

    @property
    def mark(self) -> str:
        """The class of the state: plain is how everything else looks."""
        return "" if self.level == Level.PLAIN else f"word {self.level}"

    @property
    def latest(self) -> str:
        return "" if self.task.finished_on or not self.to_end else day(self.late_finish)

    @property
    def days(self) -> str:
        return decimal_words(self.task.days)

    @property
    def in_hand_shown(self) -> str:
        return "" if self.in_hand is None else str(self.in_hand).replace("-", "−")


def schedule_sheet(
    project: Project,
    today: date,
    *,
    by: str = "phase",
    zoom: str = "fit",
    placed: str = "earliest",
    against: str = "nothing",
    shown: str = "open",
) -> dict[str, Any]:
    """The context of the sheet, in a constant number of queries."""
    state = current(project, today)
    rows = read(project, today)
    records = list(PlanOfRecord.objects.filter(project=project).defer("rows")[:12])
    record = records[0] if records else None
    return {
        "today": today,
        "rows": rows,
        "state": state,
        "lede": lede(rows, state),
        "overbooked": overbooked_words(rows),
        "to_answer": to_answer(rows, record_of(project)),
        "table": [event_told(row, rows, state) for row in task_rows(rows)],
        "by": by,
        "timeline": draw(
            rows,
            zoom=zoom,
            placed=placed,
            against=against,
            record=record,
            url=partial(place_in_table, today=today, shown=shown),
        ),
        "groupings": GROUPINGS.items(),
        "lanes": list(
            Lane.objects.filter(project=project).select_related("supplier__calendar", "calendar")
        ),
        "key_dates": key_dates(rows),
        "hires": hire_lines(rows),
        "records": records,
    }


def key_dates(rows: Rows) -> list[dict[str, Any]]:
    names = {task.pk: task.name for task in rows.tasks}
    return [{"row": k, "task": names.get(k.task_id or 0, "")} for k in rows.key_dates]


def task_rows(rows: Rows) -> list[TaskRow]:
    minutes = {key: calendar.day_minutes for key, calendar in rows.calendars.items()}
    keys = calendar_keys(rows)
    return [task_row(task, minutes[keys[task.pk]], rows.today) for task in rows.tasks]


def task_row(task: Task, day_minutes: int, today: date) -> TaskRow:
    start, finish = early_days(task)
    in_hand = (task.total_float or 0) // day_minutes if task.to_end else None
    state, level = state_of(task, in_hand, task.chain_position is not None)
    return TaskRow(
        task=task,
        key=str(task.pk),
        start=start,
        finish=finish,
        late_finish=late_days(task)[1],
        in_hand=None if task.finished_on else in_hand,
        state=state,
        level=level,
        tick=tick_of(task, start <= today),
        to_end=task.to_end,
    )


def event_told(row: TaskRow, rows: Rows, state: PlanState) -> TaskRow:
    """A late event is late by the working days of the plan, as everywhere, not by all days."""
    days, public = state.in_hand_days, rows.public
    if public is None or row.task.pk != public.task_id or days is None or days >= 0:
        return row
    return row if row.in_hand is None else replace(row, in_hand=days)


def reckoned(rows: Rows, row: TaskRow, plan: engine.Plan) -> TaskRow:
    """The row with its days in hand to another end, as a plan to that end has them."""
    task, dates = row.task, plan.dates[row.key]
    if task.finished_on:
        return row
    minutes = rows.calendars[calendar_keys(rows)[task.pk]].day_minutes
    in_hand = dates.total_float // minutes if dates.to_end else None
    state, level = state_of(task, in_hand, row.key in plan.chain, NO_PATH)
    late = shown_days(dates.late_start, dates.late_finish, closes=task.closes)[1]
    return replace(
        row, in_hand=in_hand, to_end=dates.to_end, late_finish=late, state=state, level=level
    )


def tick_of(task: Task, can_start: bool) -> str:
    if task.finished_on or not (can_start or task.started_on):
        return ""
    return "finished" if task.started_on or not task.days else "started"


def state_of(
    task: Task, in_hand: int | None, carries: bool, no_path: str = NOT_WAITED_FOR
) -> tuple[str, Level]:
    """A word for where the task stands, and its colour."""
    if task.finished_on:
        return "done", Level.HOLDS
    word, level = (no_path, Level.PLAIN) if in_hand is None else standing(in_hand, carries)
    if not task.started_on:
        return word, level
    quiet = level == Level.PLAIN
    return "under way" if quiet else f"under way, {word}", level


def standing(in_hand: int, carries: bool) -> tuple[str, Level]:
    if in_hand < 0:
        return "late", Level.BROKEN
    if carries:
        return "carries the date", Level.BROKEN
    if in_hand <= NEAR_DAYS:
        return "near", Level.NEAR
    return "has days in hand", Level.PLAIN


def grouped(rows: Iterable[TaskRow], by: str) -> list[tuple[str, list[TaskRow]]]:
    """By phase in the order of the tasks, or by lane in the order of the lanes."""
    groups: dict[str, list[TaskRow]] = {}
    if by == "lane":
        rows = sorted(rows, key=lambda r: (r.task.lane.position, r.task.lane_id))
    for row in rows:
        name = row.task.lane.name if by == "lane" else row.task.phase
        groups.setdefault(name or "No phase", []).append(row)
    return list(groups.items())


def listing(
    rows: Sequence[TaskRow], today: date, *, by: str, shown: str, opened: int | None
) -> dict[str, Any]:
    """The task table: its rows in groups, and how many are folded away."""
    to_do = unfolded(rows, today, opened)
    return {
        "groups": grouped(to_do if shown == "open" else rows, by),
        "folded": len(rows) - len(to_do),
        "shown": shown,
        "foldings": FOLDINGS.items(),
    }


def place_in_table(task: Task, *, today: date, shown: str) -> str:
    """Where a bar leads: to the task's row, unfolding the finished ones for it."""
    folded = shown == "open" and task.finished_on not in (None, today)
    return f"{'?shown=all' if folded else ''}#task-{task.pk}"


def unfolded(rows: Sequence[TaskRow], today: date, opened: int | None) -> list[TaskRow]:
    """What is still to do, with what was finished today or stands open; else all of it."""
    kept = [row for row in rows if row.task.finished_on in (None, today) or row.task.pk == opened]
    return kept or list(rows)


def find_row(rows: Rows, pk: int) -> TaskRow | None:
    return next((row for row in task_rows(rows) if row.task.pk == pk), None)
