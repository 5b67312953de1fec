"""A task is given days, or a first day on which it can start."""

from __future__ import annotations

from copy import copy
from decimal import ROUND_UP, Decimal
from typing import Any

from django import forms

from projects.fields import DayField, DaysField, ShortText
from schedules.forms.task_rules import RULES
from schedules.models import Task
from worksheets.engine.result import ToTask
from worksheets.forms.handing import HandForm
from worksheets.selectors.effect_task import in_proportion

HUNDREDTH = Decimal("0.01")
NONE_LEFT = (
    "Every task has started, or none is planned. Add a task on the schedule first; for one that is "
    "under way, say there how many days are left."
)


class TaskHand(HandForm):
    task = forms.ModelChoiceField(
        Task.objects.none(),
        label="Task that has not started",
        empty_label="Choose a task",
        error_messages={"required": "Choose the task that this is about."},
    )
    days = DaysField(label="Working days", required=False, help_text="Empty: they stay.")
    keep = forms.BooleanField(
        label="Keep its least and most days in proportion", required=False, initial=True
    )
    not_before = DayField(label="Cannot start before", required=False, help_text="Empty: it stays.")
    reason = ShortText(label="Because", required=False, max_length=200)

    schedule_field = "not_before"

    def prepare(self) -> None:
        hand, choice = self.hand, self.fields["task"]
        assert isinstance(choice, forms.ModelChoiceField)
        choice.queryset = self.desk.project.tasks.filter(started_on=None, finished_on=None)
        if not choice.queryset.exists():
            choice.help_text = NONE_LEFT
        for name, told in (("days", hand.days), ("not_before", hand.not_before)):
            if told is None:
                del self.fields[name]
        if "days" not in self.fields:
            del self.fields["keep"]
            self.schedule_field = "not_before"
        if "not_before" not in self.fields:
            del self.fields["reason"]
            self.schedule_field = "days"

    @property
    def hand(self) -> ToTask:
        assert isinstance(self.desk.hand, ToTask)
        return self.desk.hand

    def filled(self) -> dict[str, Any]:
        hand, handed = self.hand, self.desk.handed
        found: dict[str, Any] = {"task": handed.task_id if handed else self.likely()}
        if hand.days is not None:
            days = Decimal(repr(hand.days)).quantize(HUNDREDTH, ROUND_UP)
            found["days"] = f"{days.normalize():f}"
        if hand.not_before is not None:
            found |= {"not_before": hand.not_before, "reason": hand.reason[:200]}
        return found

    def likely(self) -> int | None:
        """The only open task of the worksheet's own part, if there is just one."""
        part = self.desk.worksheet.part_id
        choice = self.fields["task"]
        assert isinstance(choice, forms.ModelChoiceField) and choice.queryset is not None
        rows = list(choice.queryset.filter(stage__part=part)[:2]) if part else []
        return rows[0].pk if len(rows) == 1 else None

    def check(self, values: dict[str, Any]) -> None:
        days, first = values.get("days"), values.get("not_before")
        if days is None and first is None:
            self.add_error(next(n for n in ("days", "not_before") if n in self.fields), "Write it.")
            return
        if values.get("reason") and first is None:
            self.add_error("not_before", "Choose the day that this is the reason for.")
        for field, says in broken_rules(changed(values), days is not None):
            self.add_error("days" if "days" in self.fields else "task", f"{field}: {says}")


def changed(values: dict[str, Any]) -> Task:
    """The task as it would be saved."""
    task: Task = copy(values["task"])
    if values.get("days") is not None:
        for name, value in in_proportion(task, values).items():
            setattr(task, name, value)
        task.days = values["days"]
    if values.get("not_before"):
        task.not_before, task.not_before_reason = values["not_before"], values.get("reason") or ""
    return task


LABELS = {
    "low_days": "Its days if all goes well",
    "high_days": "Its days if it goes badly",
    "crash_days": "By how much it can be shorter",
    "closes": "It closes what goes before it",
}


def broken_rules(task: Task, with_days: bool) -> list[tuple[str, str]]:
    """The rules of a task that the new days would break."""
    if not with_days:
        return []
    names = ("days", "low_days", "high_days", "crash_days", "crash_day_cents", "closes",
             "returns_percent", "returns_days")  # fmt: skip
    found = {name: getattr(task, name) for name in names}
    return [
        (LABELS[name], says) for rule in RULES for name, says in rule(found, task) if name in LABELS
    ]
