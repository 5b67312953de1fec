"""Makes marks of the tasks and links of one project."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import partial
from itertools import pairwise

from schedules import engine
from schedules.models import KeyDate, KeyDateKind, LagClock, Link, LinkKind, Task
from schedules.plan import Rows, bound_of, hours, shown_days
from schedules.timeline.kept import Record
from schedules.timeline.marks import DAY, Bar, Flag, Join, Placed, State, Tie, Wait

NEAR_DAYS = 2
NOON = DAY // 2


@dataclass(frozen=True, slots=True)
class Times:
    """What is drawn of a task's plan, whether stored or only tried."""

    early_start: int
    early_finish: int
    late_start: int
    late_finish: int
    total_float: int
    to_end: bool
    chain_position: int | None


@dataclass(frozen=True, slots=True)
class Maker:
    """Makes marks of one project's tasks and links."""

    rows: Rows
    times: Mapping[int, Times]
    placed: Placed
    url: Callable[[Task], str]
    chain_float: int  # the chain's own days in hand: what is near is near to these
    ties: Mapping[int, tuple[Tie, ...]] = field(default_factory=dict)
    record: Record | None = None
    on: dict[int, str] = field(default_factory=dict, init=False)  # found calendars, by task

    def bar(self, task: Task) -> Bar:
        times = self.times[task.pk]
        start, finish = self.ends(task)
        first, last = shown_days(*self.chosen(task), closes=task.closes)
        on = self.event_of(task)
        if on is not None:
            start = finish = on
        fixed = bool(task.finished_on) or not times.to_end or on is not None
        free = (start, finish) if fixed else self.freedom(task)
        return Bar(
            key=str(task.pk),
            name=task.name,
            lane=str(task.lane_id),
            start=start,
            finish=finish,
            earliest=min(start, free[0]),
            latest=max(finish, free[1]),
            state=self.state(task),
            chain_position=times.chain_position,
            in_hand=times.total_float // self.day_minutes(task) if times.to_end else None,
            outdoor=task.outdoor,
            url=self.url(task),
            first_day=first,
            last_day=last,
            ties=self.ties.get(task.pk, ()),
            kept=self.record.kept(task, last, self.works(task)) if self.record else None,
            calendar="" if task.finished_on else self.hours_of(task),
        )

    def chosen(self, task: Task) -> tuple[int, int]:
        times = self.times[task.pk]
        if self.placed is Placed.LATEST and times.to_end and not task.finished_on:
            start = times.early_start if task.started_on else times.late_start
            return start, times.late_finish
        return times.early_start, times.early_finish

    def ends(self, task: Task) -> tuple[int, int]:
        start, finish = (self.whole(task, at) for at in self.chosen(task))
        return start, max(start, finish)

    def freedom(self, task: Task) -> tuple[int, int]:
        """From the earliest start to the latest finish; the chain has no tail of its own."""
        times = self.times[task.pk]
        if times.chain_position is not None:
            return self.ends(task)
        return self.whole(task, times.early_start), self.whole(task, times.late_finish)

    def whole(self, task: Task, at: int) -> int:
        """A working day fills its day: its opening is drawn at midnight, so is its close."""
        day, minute = divmod(at, DAY)
        opens, closes = hours(self.calendar(task), engine.day_that_begins(at))
        share = (minute - opens) * DAY // max(closes - opens, 1)
        return day * DAY + min(max(share, 0), DAY)

    def whole_days(self, first: date, last: date) -> tuple[int, int]:
        return engine.instant(first), engine.instant(last) + DAY

    def hours_of(self, task: Task) -> str:
        """As the rows have it; asked many times for each bar."""
        if task.pk not in self.on:
            self.on[task.pk] = self.rows.hours_of(task)
        return self.on[task.pk]

    def calendar(self, task: Task) -> engine.Calendar:
        return self.rows.calendars[self.hours_of(task)]

    def works(self, task: Task) -> Callable[[date], bool]:
        return partial(works, self.calendar(task))

    def day_minutes(self, task: Task) -> int:
        return max(1, self.calendar(task).day_minutes)

    def event_of(self, task: Task) -> int | None:
        """Where the flag of the event stands, for the task that is the event."""
        if task.days:
            return None
        public = self.rows.public
        held = public is not None and public.task_id == task.pk
        return flag_at(public) if held and public is not None else None

    def state(self, task: Task) -> State:
        times = self.times[task.pk]
        if task.finished_on:
            return State.DONE
        if times.chain_position is not None:
            return State.CHAIN
        if not times.to_end:
            return State.PLAIN
        if times.total_float < 0:
            return State.LATE
        near = times.total_float - self.chain_float <= NEAR_DAYS * self.day_minutes(task)
        return State.NEAR if near else State.PLAIN

    def waits(self) -> Iterator[Wait]:
        """Waits in time on the clock; one mark where several tasks wait for the same."""
        tasks = {task.pk: task for task in self.rows.tasks}
        seen = set()
        for link in self.rows.links:
            if not self.is_wait(link):
                continue
            start = self.wait_start(tasks[link.before_id], link)
            finish = start + int(link.lag * 60)
            name = sentence(link.reason or f"after {tasks[link.before_id].name}")
            if (start, finish, name) not in seen:
                seen.add((start, finish, name))
                carries = self.carries(link)
                yield Wait(key=str(link.pk), name=name, start=start, finish=finish, carries=carries)

    def is_wait(self, link: Link) -> bool:
        drawn = link.before_id in self.times and link.after_id in self.times
        return drawn and link.lag_clock == LagClock.ELAPSED and link.lag > 0

    def wait_start(self, before: Task, link: Link) -> int:
        start, finish = self.chosen(before)
        return finish if link.kind in {LinkKind.FS, LinkKind.FF} else start

    def place(self, pk: int) -> int | None:
        return self.times[pk].chain_position if pk in self.times else None

    def carries(self, link: Link) -> bool:
        before, after = self.place(link.before_id), self.place(link.after_id)
        return before is not None and after is not None and after == before + 1

    def joins(self) -> Iterator[Join]:
        links = {(k.before_id, k.after_id): k.kind for k in self.rows.links}
        chain = [(place, t.pk) for t in self.rows.tasks if (place := self.place(t.pk)) is not None]
        ordered = [pk for _, pk in sorted(chain)]
        for before, after in pairwise(ordered):
            kind = links.get((before, after), LinkKind.FS)
            yield Join(
                before=str(before),
                after=str(after),
                from_start=kind in {LinkKind.SS, LinkKind.SF},
                to_finish=kind in {LinkKind.FF, LinkKind.SF},
            )


def works(calendar: engine.Calendar, day: date) -> bool:
    return bool(calendar.exceptions.get(day, calendar.week[day.weekday()]))


def sentence(words: str) -> str:
    """With a capital, as the other names have."""
    return words[:1].upper() + words[1:]


def flag(key_date: KeyDate) -> Flag:
    return Flag(
        key=str(key_date.pk),
        name=key_date.name,
        at=flag_at(key_date),
        public=key_date.kind == KeyDateKind.PUBLIC,
    )


def flag_at(key_date: KeyDate) -> int:
    """At its hour; a date without one stands in the middle of its day."""
    return bound_of(key_date) if key_date.at else engine.instant(key_date.on) + NOON
