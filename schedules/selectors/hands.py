"""Who is booked twice, and what the plan would be if nobody were."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Any

from projects.models import Project
from projects.words import listed, plural
from schedules import engine, plan
from schedules.engine import levelling
from schedules.models import Lane, Link
from schedules.plan import hands as book
from schedules.selectors.slip import basis
from schedules.selectors.wording import quoted, span_words

SALT = "same-hands"


@dataclass(frozen=True, slots=True, kw_only=True)
class Overbooked:
    """A lane that is booked above what it can do at once, from day to day."""

    lane: str
    when: str
    tasks: Sequence[tuple[str, str]]  # key and name
    says: str


class Names:
    """The words for tasks and lanes."""

    def __init__(self, rows: plan.Rows) -> None:
        self.tasks = {str(task.pk): task.name for task in rows.tasks}
        lanes = Lane.objects.filter(project=rows.project)
        self.lanes = {str(lane.pk): lane for lane in lanes}
        self.of = {str(task.pk): task.lane.name for task in rows.tasks}


class Book:
    """The project as it is: its plan, its hands and where they are booked twice."""

    def __init__(self, project: Project, today: date) -> None:
        self.rows = plan.read(project, today)
        self.hands = book.hands_of(self.rows)
        self.names = Names(self.rows)
        self.plan = plan.solve(self.rows)

    @cached_property
    def overbooked(self) -> list[Overbooked]:
        found = book.overloads(self.rows, self.hands, self.plan)
        return [overbooked_line(self.names, overload) for overload in found]

    @cached_property
    def order(self) -> list[Link]:
        rows = {task.pk: task for task in self.rows.tasks}
        links = [link for link in self.rows.links if link.same_hands]
        return sorted(links, key=lambda link: rows[link.after_id].early_start or 0)

    @property
    def order_lines(self) -> list[dict[str, Any]]:
        names = self.names.tasks
        return [
            {
                "pk": link.pk,
                "first": names[str(link.before_id)],
                "then": names[str(link.after_id)],
                "after": link.after_id,
            }
            for link in self.order
        ]

    def problem(self, error: engine.ScheduleError) -> str:
        """Why nothing can be parted, where it is a matter of hands."""
        names = self.names
        if isinstance(error, levelling.TooFewHands):
            task, lane = names.tasks[error.activity], names.lanes[error.lane]
            return (
                f"“{task}” needs {lane}, whose limit is {lane.capacity} at once. Raise the limit."
            )
        if isinstance(error, levelling.CannotPart):
            said = quoted([names.tasks[key] for key in error.activities])
            return f"The links between {said or 'some tasks'} leave no room to part them."
        return ""

    @property
    def busiest(self) -> list[str]:
        return list(dict.fromkeys(line.lane for line in self.overbooked))

    @property
    def lede(self) -> str:
        if not self.rows.tasks:
            return "Nothing is planned yet. Levelling parts tasks that need the same hands."
        lanes = self.busiest
        if lanes:
            verb = "is" if len(lanes) == 1 else "are"
            return f"{listed(lanes)} {verb} booked for more than they can do at once."
        if self.order:
            return f"Nobody is booked twice: {plural(len(self.order), 'order link')} see to it."
        return "Nobody is booked twice."


def overbooked_line(names: Names, overload: levelling.Overload) -> Overbooked:
    lane = names.lanes[overload.lane]
    first = engine.day_that_begins(overload.start)
    return Overbooked(
        lane=lane.name,
        when=span_words(first, engine.day_that_ends(overload.finish)),
        tasks=[(key, names.tasks[key]) for key in overload.activities],
        says=f"{plural(overload.used, 'task')} at once, {lane.capacity} can be done",
    )


def hands_basis(rows: plan.Rows, hands: levelling.Hands) -> str:
    whole = (basis(rows), sorted(hands.capacity.items()), sorted(hands.needs.items()))
    return hashlib.sha256(repr(whole).encode()).hexdigest()[:32]


def overbooked_words(rows: plan.Rows) -> str:
    """“Artist and Third Bell Canvas Loft are booked twice.”, or nothing. From the stored plan."""
    found = book.overloads(rows, book.hands_of(rows), stored(rows)) if rows.tasks else ()
    pks = list(dict.fromkeys(int(overload.lane) for overload in found))
    if not pks:
        return ""
    lanes = Lane.objects.in_bulk(pks)
    names = listed([lanes[pk].name for pk in pks])
    return f"{names} {'is' if len(pks) == 1 else 'are'} booked twice."


def stored(rows: plan.Rows) -> engine.Plan:
    """The early dates as they were kept, without solving anew."""
    dates = {
        str(t.pk): engine.Dates(
            t.early_start or 0, t.early_finish or 0, 0, 0, 0, 0, (), bool(t.finished_on), t.to_end
        )
        for t in rows.tasks
    }
    return engine.Plan(dates=dates, finish=0, chain=(), chain_links=(), ready_at=None, in_hand=None)
