"""Where the plan of record had each task, and which of its tasks are gone."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from schedules.models import PlanOfRecord, Task
from schedules.timeline import wording
from schedules.timeline.marks import Dropped, Flag, Kept, instant

GONE = "gone"  # the lane of what no lane holds any more
GONE_NAME = "No longer in the plan"
NOON = 720


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptTask:
    pk: int
    name: str
    lane: str
    first: date
    last: date

    @property
    def start(self) -> int:
        return instant(self.first)

    @property
    def finish(self) -> int:
        return instant(self.last + timedelta(days=1))


@dataclass(frozen=True, slots=True)
class Record:
    """The tasks of a plan of record, read from what it holds; a row without dates is left out."""

    letter: str
    tasks: Mapping[int, KeptTask]
    key_dates: Mapping[int, date]

    @classmethod
    def of(cls, row: PlanOfRecord) -> Record:
        found = [kept_task(task) for task in row.rows.get("tasks", ())]
        dates = {k.get("pk"): day_in(k, "on") for k in row.rows.get("key_dates", ())}
        return cls(
            row.letter,
            {task.pk: task for task in found if task},
            {pk: on for pk, on in dates.items() if pk and on},
        )

    def kept(self, task: Task, last: date, works: Callable[[date], bool]) -> Kept | None:
        """``last`` is the task's last day now, ``works`` its calendar."""
        was = self.tasks.get(task.pk)
        if was is None:
            return None
        by = worked_between(was.last, last, works)
        words = self.words(was, by)
        return Kept(start=was.start, finish=was.finish, words=words, moved=by != 0)

    def words(self, was: KeptTask, by: int) -> str:
        if not by:
            return f"ends as in Rev {self.letter}"
        way = "later" if by > 0 else "earlier"
        days = wording.counted(abs(by), "working day")
        return f"ends {days} {way} than in Rev {self.letter} ({wording.span(was.first, was.last)})"

    def dropped(self, tasks: Iterable[Task]) -> tuple[Dropped, ...]:
        """What it holds and the plan does not, in the lane of that name if there still is one."""
        present, lanes = set(), {}
        for task in tasks:
            present.add(task.pk)
            lanes[task.lane.name] = str(task.lane_id)
        return tuple(
            Dropped(
                key=str(was.pk),
                name=was.name,
                lane=lanes.get(was.lane, GONE),
                start=was.start,
                finish=was.finish,
                title=f"{was.name}: {wording.span(was.first, was.last)} in Rev {self.letter},"
                " dropped since",
            )
            for was in self.tasks.values()
            if was.pk not in present
        )

    def flag(self, pk: int, name: str, on: date) -> tuple[Flag, ...]:
        """The public date as it was kept, if it has moved since."""
        was = self.key_dates.get(pk)
        if was is None or was == on:
            return ()
        name = f"{name} in Rev {self.letter}"
        return (Flag(key=f"kept {pk}", name=name, at=instant(was) + NOON),)


def kept_task(row: Mapping[str, Any]) -> KeptTask | None:
    first, last = day_in(row, "start"), day_in(row, "finish")
    pk = row.get("pk")
    if not pk or first is None or last is None:
        return None
    name, lane = str(row.get("name", "")), str(row.get("lane", ""))
    return KeptTask(pk=int(pk), name=name, lane=lane, first=first, last=max(first, last))


def day_in(row: Mapping[str, Any], name: str) -> date | None:
    try:
        return date.fromisoformat(str(row.get(name, "")))
    except ValueError:
        return None


def worked_between(was: date, now: date, works: Callable[[date], bool]) -> int:
    """Days of work by which a last day is later, below nought earlier."""
    low, high = min(was, now), max(was, now)
    worked = sum(works(low + timedelta(days=n + 1)) for n in range((high - low).days))
    return worked if now > was else -worked
