"""The answers that somebody gave today, kept in their session so that each can be taken back."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Any

from django.contrib.sessions.backends.base import SessionBase
from django.http import HttpRequest

from projects.clock import today
from projects.models import Project
from schedules.forms.update import AnswerForm
from schedules.models import PlanState, Task
from schedules.selectors.update import Question
from schedules.selectors.wording import in_hand_words
from schedules.services.tasks import progress_words
from schedules.services.update import State


@dataclass(frozen=True, kw_only=True)
class Line:
    """A question as the page shows it: open with its form, or answered."""

    ask: Question
    form: AnswerForm
    says: str
    undo: bool


@dataclass(kw_only=True)
class Kept:
    session: SessionBase
    key: str
    on: str
    before: int | None = None  # days in hand before the first answer
    answers: dict[str, Any] = field(default_factory=dict)

    @classmethod
    def of(cls, request: HttpRequest, project: Project) -> Kept:
        """Those of today; yesterday's are forgotten."""
        key, on = f"update-{project.pk}", today(project).isoformat()
        held = request.session.get(key, {})
        if held.get("on") != on:
            held = {}
        return cls(
            session=request.session,
            key=key,
            on=on,
            before=held.get("before"),
            answers=held.get("answers", {}),
        )

    def keep(self, task: Task, was: State, became: State, says: str, before: int | None) -> None:
        """The first answer of the day holds what the task was; the last one what it is."""
        if not self.answers:
            self.before = before
        held = self.answers.get(str(task.pk), {})
        first = held.get("was", was)
        self.answers[str(task.pk)] = {"was": first, "became": became, "says": says}
        self.save()

    def forget(self, task: Task) -> None:
        self.answers.pop(str(task.pk), None)
        self.save()

    def save(self) -> None:
        self.session[self.key] = {"on": self.on, "before": self.before, "answers": self.answers}

    def taken(self, task: Task) -> tuple[State, State] | None:
        held = self.answers.get(str(task.pk))
        return (held["was"], held["became"]) if held else None

    def line(self, ask: Question, wrong: AnswerForm | None) -> Line:
        """``wrong`` is a form that was refused; it stands where its task does."""
        held = self.answers.get(str(ask.task.pk), {})
        mine = wrong if wrong and wrong.task.pk == ask.task.pk else None
        return Line(
            ask=ask,
            form=mine or AnswerForm(task=ask.task, today=date.fromisoformat(self.on)),
            says=held.get("says") or progress_words(ask.task),
            undo=bool(held),
        )

    def effect(self, state: PlanState) -> str:
        """“3 days in hand before these answers, 1 day in hand now.”"""
        if not self.answers:
            return ""
        now = in_hand_words(state.in_hand_days)
        if self.before == state.in_hand_days:
            return f"The answers moved nothing: {now}, as before."
        was = in_hand_words(self.before).capitalize()
        return f"{was} before these answers; {now} now."
