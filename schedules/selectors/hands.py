"""Who is booked twice, and what the plan would be if nobody were."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Any

from django.core import signing

from projects.models import Project
from projects.words import day, listed, plural
from schedules import engine, plan
from schedules.engine import levelling
from schedules.models import Lane, Link
from schedules.plan import hands as book
from schedules.selectors.slip import basis
from schedules.selectors.wording import in_hand_words, outcome_words, quoted, signed, span_words

EFFORT = 0.35  # seconds of deterministic time: two or three on the clock at the most
SALT = "same-hands"


@dataclass(frozen=True, slots=True, kw_only=True)
class Overbooked:
    """A lane that is booked above what it can do at once, from day to day."""

    lane: str
    when: str
    tasks: Sequence[tuple[str, str]]  # key and name
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A task that levelling moves, and why."""

    name: str
    now: str
    then: str
    by: int
    why: str
    start: date

    @property
    def by_shown(self) -> str:
        return signed(self.by) if self.by else "less than a day"


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


class Level:
    """The plan with nobody booked twice, held against the plan as it is. Nothing is saved."""

    def __init__(self, book_now: Book, *, better: bool) -> None:
        self.now = book_now
        self.better = better
        rows, hands = book_now.rows, book_now.hands
        self.found = book.level(rows, hands, effort=EFFORT if better else 0.0)
        self.links = {each.link.key: each for each in self.found.order}

    @property
    def more_to_find(self) -> bool:
        """Whether a longer search could find an earlier date."""
        return not self.better and not self.found.proven

    @cached_property
    def moves(self) -> list[Moved]:
        rows, old_plan, new_plan = self.now.rows, self.now.plan, self.found.plan
        keys, event = plan.calendar_keys(rows), rows.public.task_id if rows.public else None
        found = []
        for task in (t for t in rows.tasks if t.pk != event):
            old, new = old_plan.dates[str(task.pk)], new_plan.dates[str(task.pk)]
            was = plan.shown_days(old.early_start, old.early_finish, closes=task.closes)
            becomes = plan.shown_days(new.early_start, new.early_finish, closes=task.closes)
            if was == becomes:
                continue
            calendar = rows.calendars[keys[task.pk]]
            minutes = calendar.between(old.early_finish, new.early_finish)
            found.append(
                Moved(
                    name=task.name,
                    now=span_words(*was),
                    then=span_words(*becomes),
                    by=round(minutes / calendar.day_minutes),
                    why=self.why(str(task.pk)),
                    start=becomes[0],
                )
            )
        return sorted(found, key=lambda move: move.start)

    def why(self, key: str) -> str:
        """“Artist does “Paint mural field” first”, or what it waits for."""
        names, waits = self.now.names, []
        for driver in self.found.plan.dates[key].drivers:
            order = self.links.get(driver.key or "")
            if order:
                return f"{self.shared(order)} does “{names.tasks[order.before]}” first"
            if driver.reason == engine.Reason.LINK:
                waits.append(driver.key)
        before = {k.key: k.before for k in self.found.network.links}
        named = [names.tasks[before[wait]] for wait in waits if wait in before]
        return f"waits for {quoted(named)}" if named else "no longer held back"

    def shared(self, order: levelling.OrderLink) -> str:
        needs = self.now.hands.needs
        lanes = sorted(set(needs[order.before]) & set(needs[order.after]), key=int)
        limited = [lane for lane in lanes if lane in self.now.hands.capacity]
        return listed([self.now.names.lanes[lane].name for lane in limited])

    @property
    def in_hand_days(self) -> int | None:
        return plan.in_hand_days(self.now.rows, self.found.plan)

    @property
    def in_hand_now(self) -> str:
        return in_hand_words(plan.in_hand_days(self.now.rows, self.now.plan))

    @property
    def in_hand_then(self) -> str:
        return outcome_words(self.in_hand_days)

    @property
    def breaks(self) -> bool:
        return (self.in_hand_days or 0) < 0

    @property
    def lost(self) -> int | None:
        """Days in hand that it costs."""
        before = plan.in_hand_days(self.now.rows, self.now.plan)
        after = self.in_hand_days
        return None if before is None or after is None else before - after

    @property
    def lede(self) -> str:
        if not self.found.order:
            return "Nobody is booked twice, so there is nothing to part."
        count = plural(len(self.found.order), "order link")
        if self.in_hand_days is None:
            return f"{count} part the work, and {plural(len(self.moves), 'task')} move."
        then = self.in_hand_then.capitalize()
        return f"{then} when nobody is booked twice; {self.in_hand_now} now. {count} part the work."

    @property
    def how(self) -> str:
        """How it was found, and whether it is proven best."""
        bound = day(engine.day_that_ends(self.found.bound))
        if self.found.proven:
            return "No order of this work is ready earlier: that is proven."
        if self.better:
            return (
                "The best order of a longer search. Whether another is ready earlier is not "
                f"proven; none can be ready before {bound}."
            )
        return f"A first, good order. No order can be ready before {bound}."

    @property
    def left(self) -> list[Overbooked]:
        """What no order can part: work that has been started on both sides."""
        found = book.overloads(self.now.rows, self.now.hands, self.found.plan)
        return [overbooked_line(self.now.names, overload) for overload in found]

    @property
    def token(self) -> str:
        """The links as they were seen, and what they were made from; signed."""
        links = [
            [link.before_id, link.after_id, link.kind, str(link.lag)]
            for link in book.order_rows(self.now.rows, self.found)
        ]
        seen = hands_basis(self.now.rows, self.now.hands)
        return signing.dumps({"basis": seen, "links": links}, salt=SALT, compress=True)


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
