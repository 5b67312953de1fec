"""Days in hand to an end that somebody chose."""

from __future__ import annotations

from dataclasses import dataclass

from projects.words import day
from schedules import engine
from schedules.models import KeyDate, KeyDateEffect, Task
from schedules.plan import Rows, in_hand_days
from schedules.plan.ends import ends, solve_to
from schedules.selectors.schedule import TaskRow, reckoned
from schedules.selectors.wording import in_hand_words

DATED = (KeyDateEffect.EVENT, KeyDateEffect.NO_LATER)


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    pk: int
    name: str
    chosen: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ToEnd:
    """The rows of the table, counted to one end; ``says`` is empty for the public date."""

    rows: list[TaskRow]
    choices: list[End]
    says: str = ""


def to_end(rows: Rows, table: list[TaskRow], wanted: int | None) -> ToEnd:
    """The stored plan counts to the public date; another end is solved when asked for."""
    public = rows.public.task_id if rows.public else None
    known = [pk for pk in ends(rows) if pk != public]
    usual = wanted is None or wanted not in known
    choices = [end(rows, pk, wanted) for pk in known]
    if rows.public and public:
        choices.insert(0, End(pk=public, name=str(rows.public), chosen=usual))
    if usual or wanted is None:
        return ToEnd(rows=table, choices=choices)
    plan = solve_to(rows, wanted)
    counted = [reckoned(rows, row, plan) for row in table]
    return ToEnd(rows=counted, choices=choices, says=end_words(rows, wanted, plan))


def end(rows: Rows, pk: int, wanted: int | None) -> End:
    return End(pk=pk, name=task_of(rows, pk).name, chosen=pk == wanted)


def task_of(rows: Rows, pk: int) -> Task:
    return next(task for task in rows.tasks if task.pk == pk)


def end_words(rows: Rows, pk: int, plan: engine.Plan) -> str:
    """“Days in hand to “Final report”, due Wed 10 Feb: 12 days in hand.”"""
    name = f"“{task_of(rows, pk)}”"
    dates = [k for k in rows.key_dates if k.task_id == pk and k.effect in DATED]
    if not dates:
        return f"Counted to {name}, which has no date of its own: as long as it ends as planned."
    in_hand = in_hand_words(in_hand_days(rows, plan))
    return f"Counted to {name}, {dated_words(dates[0])}: {in_hand}."


def dated_words(row: KeyDate) -> str:
    return f"{'on' if row.effect == KeyDateEffect.EVENT else 'by'} {day(row.on)}"
