"""Work that was begun before what it waits for: the rule in force, in words."""

from __future__ import annotations

from dataclasses import dataclass

from projects.words import day, listed
from schedules import engine
from schedules.models import Task
from schedules.plan import Rows, network


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """A task that went ahead, and what it went ahead of."""

    task: Task
    says: str
    rule: engine.SequenceRule

    @property
    def goes_on(self) -> bool:
        return self.rule is engine.SequenceRule.OVERRIDE

    @property
    def waits(self) -> bool:
        return self.rule is engine.SequenceRule.RETAINED


def out_of_sequence(rows: Rows) -> list[Ahead]:
    found: dict[str, list[engine.OutOfSequence]] = {}
    for one in engine.out_of_sequence(network(rows), data_date=engine.instant(rows.today)):
        found.setdefault(one.activity, []).append(one)
    tasks = {str(task.pk): task for task in rows.tasks}
    return [ahead(tasks, tasks[key], several) for key, several in found.items()]


def ahead(tasks: dict[str, Task], task: Task, several: list[engine.OutOfSequence]) -> Ahead:
    before = [f"“{tasks[one.before]}”" for one in several]
    rule = several[0].rule
    return Ahead(task=task, says=f"{begun(task, before)} {rule_words(task, rule)}", rule=rule)


def begun(task: Task, before: list[str]) -> str:
    if task.finished_on:
        return f"It was finished {day(task.finished_on)}, ahead of {listed(before)}."
    start = f" {day(task.started_on)}" if task.started_on else ""
    return f"It was begun{start}, ahead of {listed(before)}."


def rule_words(task: Task, rule: engine.SequenceRule) -> str:
    if rule is engine.SequenceRule.ACTUAL:
        return "It is done, so nothing waits any more. Is the link, or one of the days, wrong?"
    if rule is engine.SequenceRule.OVERRIDE:
        return f"It goes on regardless: {task.ahead_reason}"
    return "What is left of it waits until that is done."
