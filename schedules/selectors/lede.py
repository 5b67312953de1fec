"""The one sentence of the schedule: where the plan stands and what must happen next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from projects.models import Part
from projects.words import day, listed, plural
from schedules.models import KeyDate, PlanState, Task
from schedules.plan import Rows, early_days
from schedules.selectors.wording import in_hand_words, quoted


@dataclass(frozen=True, slots=True)
class Lede:
    """``says`` goes first; ``action`` is the part in strong type."""

    says: str
    action: str = ""


def lede(rows: Rows, state: PlanState) -> Lede:
    public = rows.public
    if not rows.tasks:
        return Lede(nothing_planned(public))
    if public is None or public.task_id is None:
        return Lede(missing_date(public))
    if public.on < rows.today:
        return Lede(gone_by(rows, public))
    if state.in_hand is not None and state.in_hand < 0:
        return Lede(late_words(state))
    return waiting(rows, state)


def nothing_planned(public: KeyDate | None) -> str:
    if public is None:
        return "Nothing is planned yet. Add the first task, or set the public date."
    return f"Nothing is planned yet before {public} on {day(public.on)}. Add the first task."


def missing_date(public: KeyDate | None) -> str:
    if public is None:
        return "There is no public date yet. Add it under key dates: the plan counts back from it."
    return f"“{public}” is not tied to a task. Choose the task that happens on it."


def gone_by(rows: Rows, public: KeyDate) -> str:
    left = sum(1 for task in rows.tasks if not task.finished_on)
    ago = plural((rows.today - public.on).days, "day")
    rest = f"{plural(left, 'task')} not marked as finished." if left else "Every task is finished."
    return f"{public} was on {day(public.on)}, {ago} ago. {rest}"


def late_words(state: PlanState) -> str:
    late = in_hand_words(state.in_hand_days).capitalize()
    if not state.to_start_now:
        return f"{late}: shorten what carries the date, or move the date."
    return f"{late}: start {plural(state.to_start_now, 'task')} at once, or move the date."


def waiting(rows: Rows, state: PlanState) -> Lede:
    chain = open_chain(rows)
    in_hand = in_hand_words(state.in_hand_days).capitalize()
    if not chain:
        return Lede(f"{in_hand}. All that the public date waits for is done.")
    verb = "carries" if len(chain) == 1 else "carry"
    return Lede(
        f"{in_hand}. {carriers(chain)} {verb} the date. The next thing that must happen:",
        f"{next_step(chain[0])}.",
    )


def open_chain(rows: Rows) -> list[Task]:
    """What carries the date and is not finished, first to last, without the event itself."""
    public = rows.public
    event = public.task_id if public else None
    found = [
        t
        for t in rows.tasks
        if t.chain_position is not None and not t.finished_on and t.pk != event
    ]
    return sorted(found, key=lambda t: t.chain_position or 0)


def carriers(chain: Sequence[Task]) -> str:
    """The parts on the chain, or its tasks when they are tied to no part."""
    parts = part_names(chain)
    if 1 < len(parts) <= 4:
        return listed(parts)
    return quoted([task.name for task in chain])


def part_names(chain: Sequence[Task]) -> list[str]:
    stages = [task.stage_id for task in chain if task.stage_id]
    of = dict(Part.objects.filter(stages__in=stages).values_list("stages__pk", "name"))
    return list(dict.fromkeys(of[stage] for stage in stages))


def next_step(task: Task) -> str:
    """“Saltglaze Metalworks finishes “Weld lantern frame” by Wed 2 Sep”."""
    finish = early_days(task)[1]
    return f"{task.lane} finishes “{task}” by {day(finish)}"
