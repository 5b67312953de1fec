"""What should have happened by today, what is under way, and what was answered."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from enum import StrEnum

from projects.hooks import Level
from projects.models import Project
from projects.words import day, plural
from schedules import engine
from schedules.models import PlanOfRecord, PlanState, Task
from schedules.plan import (
    Rows,
    activity,
    calendar_keys,
    current,
    early_days,
    opening,
    read,
    work_minutes,
)
from schedules.selectors.sequence import Ahead, out_of_sequence
from schedules.selectors.wording import days_words

QUIET_DAYS = 7  # so long may work under way go on without a word
Days = tuple[date, date]


class Asked(StrEnum):
    START = "Should have started"
    FINISH = "Should be finished"
    GOING = "Under way"
    OTHER = "Not planned for today"


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """The days that the last plan of record gave to each task."""

    letter: str = ""
    days: Mapping[int, Days]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A button: what it saves, what it says, and the day that it stands for."""

    value: str
    label: str
    day: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    task: Task
    asked: Asked
    planned: str
    choices: tuple[Choice, ...]
    answered: bool

    @property
    def level(self) -> Level:
        return Level.NEAR if self.asked in (Asked.START, Asked.FINISH) else Level.PLAIN


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """All that the update page shows, whoever looks."""

    state: PlanState
    questions: list[Question]
    answered: int
    last: str  # when somebody last said how things stand
    ahead: list[Ahead]
    others: list[Task]  # not asked about, and not finished
    planned: bool  # whether there is any task

    @property
    def count(self) -> int:
        return len(self.questions)

    @property
    def nothing_asked(self) -> str:
        if not self.planned:
            return "Nothing is planned yet, so there is nothing to ask about."
        return (
            "All is up to date: nothing should have started or ended by today without a word. "
            + self.last
        )

    @property
    def left(self) -> int:
        return self.count - self.answered


def update_page(project: Project, today: date, also: int | None = None) -> Page:
    state = current(project, today)
    rows = read(project, today)
    found = questions(rows, record_of(project), also)
    asked = {q.task.pk for q in found}
    return Page(
        state=state,
        questions=found,
        answered=sum(1 for q in found if q.answered),
        last=last_words(rows),
        ahead=out_of_sequence(rows),
        others=[t for t in rows.tasks if t.pk not in asked and not t.finished_on],
        planned=bool(rows.tasks),
    )


def record_of(project: Project) -> Record:
    kept = PlanOfRecord.objects.filter(project=project).values_list("letter", "rows").first()
    if kept is None:
        return Record(days={})
    return Record(
        letter=kept[0],
        days={
            row["pk"]: (date.fromisoformat(row["start"]), date.fromisoformat(row["finish"]))
            for row in kept[1].get("tasks", ())
        },
    )


def questions(rows: Rows, record: Record, also: int | None = None) -> list[Question]:
    """In the order of the plan; those answered today keep their place."""
    keys = calendar_keys(rows)
    found = []
    for task in rows.tasks:
        asked = asked_of(rows, record, task, rows.calendars[keys[task.pk]])
        if asked is None and (task.pk == also or task.said_on == rows.today):
            asked = Asked.OTHER
        if asked:
            found.append(question(rows, record, task, asked, rows.calendars[keys[task.pk]]))
    return found


def asked_of(rows: Rows, record: Record, task: Task, calendar: engine.Calendar) -> Asked | None:
    """What is to be asked of a task today; nothing of what is done or has time."""
    if task.finished_on or task.early_start is None:
        return None
    if task.started_on:
        return Asked.FINISH if due_day(task, calendar, rows.today) <= rows.today else Asked.GOING
    planned = record.days.get(task.pk, early_days(task))[0]
    can_start = early_days(task)[0] <= rows.today
    return Asked.START if can_start and planned <= rows.today else None


def due_day(task: Task, calendar: engine.Calendar, today: date) -> date:
    """When work under way should end, by what was last said of it."""
    assert task.started_on
    days, since = task.days, opening(calendar, task.started_on)
    if task.remaining_days is not None:
        days, since = task.remaining_days, engine.instant(task.remaining_on or today)
    left = work_minutes(days, calendar)
    return engine.day_that_ends(calendar.add(since, left)) if left else engine.moment(since).date()


def question(
    rows: Rows, record: Record, task: Task, asked: Asked, calendar: engine.Calendar
) -> Question:
    planned = planned_days(record, task, calendar, rows.today)
    return Question(
        task=task,
        asked=asked,
        planned=planned_words(rows, record, task, asked, planned),
        choices=tuple(choices(rows.today, task, planned)),
        answered=task.said_on == rows.today,
    )


def planned_days(record: Record, task: Task, calendar: engine.Calendar, today: date) -> Days:
    """By the plan of record; else as the plan has it, or had it when the work began."""
    if task.pk in record.days:
        return record.days[task.pk]
    if task.started_on and not task.finished_on:
        return task.started_on, due_day(task, calendar, today)
    return early_days(task)


def planned_words(rows: Rows, record: Record, task: Task, asked: Asked, planned: Days) -> str:
    kept = f" (Rev {record.letter})" if task.pk in record.days else ""
    if asked is Asked.START or not task.started_on:
        verb = "start" if task.days else "happen"
        return f"{task.lane}. Planned to {verb} {day(planned[0])}{kept}."
    begun = f"{task.lane}. Started {day(task.started_on)}"
    if asked is Asked.FINISH and planned[1] > rows.today:
        return f"{begun}. By what was last said of it, it should have ended by now."
    begun += f", planned to end {day(planned[1])}{kept}."
    if asked is Asked.FINISH:
        return f"{begun} Until you say more, the plan counts one day more."
    left = left_days(rows, task)
    verb = "is" if left == 1 else "are"
    return f"{begun} {days_words(left)} {verb} left, so it ends {day(early_days(task)[1])}."


def left_days(rows: Rows, task: Task) -> Decimal:
    calendar = rows.calendars[calendar_keys(rows)[task.pk]]
    minutes = activity(task, calendar, engine.instant(rows.today)).remaining or 0
    return (Decimal(minutes) / calendar.day_minutes).quantize(Decimal("0.01"))


def choices(today: date, task: Task, planned: Days) -> Iterable[Choice]:
    """The answers that one press gives."""
    start, finish = planned
    if not task.started_on and task.days:
        if start < today:
            yield choice("started", start, "Started as planned")
        yield choice("started", today, "Started today")
    done = "Finished" if task.days else "Happened"
    begun = task.started_on or start
    if begun <= finish < today:
        yield choice("finished", finish, f"{done} as planned", begun)
    yield choice("finished", today, f"{done} today", min(begun, today))
    yield Choice(value="not_yet", label="Goes on" if task.started_on else "Not yet")


def choice(verb: str, on: date, label: str, begun: date | None = None) -> Choice:
    value = ":".join([verb, on.isoformat(), *([begun.isoformat()] if begun else [])])
    return Choice(value=value, label=label, day=day(on))


def to_answer(rows: Rows, record: Record) -> int:
    """How many tasks want a word: due, or under way and silent for a week."""
    quiet = rows.today - timedelta(days=QUIET_DAYS)
    keys = calendar_keys(rows)
    found = 0
    for task in (t for t in rows.tasks if t.said_on != rows.today):
        asked = asked_of(rows, record, task, rows.calendars[keys[task.pk]])
        silent = (task.said_on or quiet) <= quiet
        found += bool(asked) and (silent or asked is not Asked.GOING)
    return found


def last_words(rows: Rows) -> str:
    """“The last update was 9 days ago, on Mon 16 Nov.”"""
    last = max((t.said_on for t in rows.tasks if t.said_on), default=None)
    if last is None:
        return "Nobody has said yet how things stand."
    if last >= rows.today:
        return "The last update was today."
    return f"The last update was {plural((rows.today - last).days, 'day')} ago, on {day(last)}."
