"""What ails the plan, in the words of the page: the fault, what would be right, the way there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.urls import reverse

from projects.models import Project
from projects.words import day, plural
from schedules.engine.health import Ailment, Code
from schedules.models import KeyDate, Lane, Link, Task
from schedules.plan import Rows, calendar_keys
from schedules.selectors.links import lag_size
from schedules.selectors.wording import quoted

NAMES: Mapping[Code, tuple[str, str]] = {
    Code.LOOP: ("Links go round in a loop", "Take one of the links out: nothing can start first."),
    Code.SHORT: ("A date is missed", "Shorten what drives it, or move the date."),
    Code.ACTUAL_AHEAD: (
        "Marked done on a day still to come",
        "What has happened lies before today. Correct the day.",
    ),
    Code.CROSSED: ("Finished before it started", "Correct one of the two days."),
    Code.OUT_OF_SEQUENCE: (
        "Begun before what it waits for",
        "Say whether the rest waits, or goes on for a reason.",
    ),
    Code.CLOSED: (
        "Its calendar is never open",
        "Give it a calendar with days on which it can be done.",
    ),
    Code.NO_PATH: (
        "The public date does not wait for it",
        "What must be done by then leads to the public date. If late, it now moves nothing.",
    ),
    Code.NO_SUCCESSOR: (
        "Nothing waits for it",
        "Something comes after every task, and in the end the public date.",
    ),
    Code.NO_PREDECESSOR: (
        "It waits for nothing",
        "One task starts the work; every other waits for something, or has a first day.",
    ),
    Code.DANGLING_FINISH: (
        "Its finish moves nothing",
        "Something waits until it is finished, not only until it has started.",
    ),
    Code.DANGLING_START: (
        "Nothing holds its start",
        "It starts after something, and does not only finish after it.",
    ),
    Code.HARD_DATE: (
        "A date without a reason",
        "Given days stop the plan from moving by itself. Say why each is there, or take it out.",
    ),
    Code.EARLY: (
        "An overlap reaches before today",
        "Make the overlap shorter: nothing can start in the past.",
    ),
    Code.LEAD: (
        "Tasks that overlap",
        "Split the task? Then what must be finished first has a name of its own.",
    ),
    Code.LAG: ("A wait without a reason", "Say what is waited for: a cure, a notice, a delivery."),
    Code.LONG_LAG: (
        "A long wait hidden in a link",
        "A wait of more than a week shows better as a task that takes nobody’s hands.",
    ),
    Code.NO_OWNER: ("Nobody does it", "Every task has somebody who does it."),
    Code.ESTIMATES: (
        "Best and worst days out of order",
        "If all goes well it takes no more, and if it goes badly no less, than its days.",
    ),
    Code.LONG: (
        "Too long to follow",
        "A task of yours of more than 15 working days hides how far it is. Split it, "
        "or mark it as one that only waits.",
    ),
    Code.HIGH_FLOAT: (
        "More room than is likely",
        "So many days in hand often mean that something waits for it, and no link says so.",
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Fix:
    """A link to the form that mends it, or a button that does it at once (``post``)."""

    label: str
    url: str
    post: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Sick:
    """One fault. ``reason_url``: where its reason is written; ``because``: the reason given."""

    key: str
    subject: str
    says: str
    fixes: tuple[Fix, ...] = ()
    reason_url: str = ""
    because: str = ""


class Words:
    """The sentences and fixes of one project's faults."""

    def __init__(self, rows: Rows) -> None:
        self.project: Project = rows.project
        self.tasks = {str(task.pk): task for task in rows.tasks}
        self.links = {str(link.pk): link for link in rows.links}
        self.dates = {str(k.pk): k for k in rows.key_dates}
        keys = calendar_keys(rows)
        self.minutes = {str(pk): rows.calendars[key].day_minutes for pk, key in keys.items()}
        self.own_minutes = rows.calendars[rows.default].day_minutes
        self.public = rows.public

    def of(self, each: Ailment) -> Sick:
        made: Sick = getattr(self, f"_{each.code.value}", self._open)(each)
        return made

    def url(self, name: str, *args: Any) -> str:
        return reverse(f"schedules:{name}", args=[self.project.pk, *args])

    def opened(self, key: str, label: str = "Open the task") -> Fix:
        return Fix(label=label, url=f"{self.url('task-edit', key)}?from=health#task-{key}")

    def days(self, each: Ailment) -> int:
        """Whole days, part of one counts as one."""
        return -(-abs(each.minutes or 0) // self.minutes[each.activity])

    def names(self, keys: Iterable[str]) -> list[str]:
        return [f"“{self.tasks[key]}”" for key in keys]

    def sick(self, each: Ailment, says: str, *fixes: Fix, **more: Any) -> Sick:
        key = "-".join(filter(None, (each.code, each.activity, each.link, each.key_date)))
        task = self.tasks[each.activity]
        return Sick(key=key, subject=task.name, says=says, fixes=fixes, **more)

    def _open(self, each: Ailment) -> Sick:
        """Faults that only the user knows how to mend."""
        links = each.code in (Code.NO_PREDECESSOR, Code.DANGLING_START)
        label = "Choose what it waits for" if links else "Open the task"
        return self.sick(each, "", self.opened(each.activity, label))

    def _loop(self, each: Ailment) -> Sick:
        way = ", ".join(self.names([*each.chain, each.chain[0]]))
        return self.sick(each, f"{way}.", self.opened(each.activity, "Open its links"))

    def _short(self, each: Ailment) -> Sick:
        date = self.dates.get(each.key_date or "")
        minutes = self.own_minutes if date == self.public else self.minutes[each.activity]
        days = plural(-(-(each.minutes or 0) // minutes), "working day")
        driven = [key for key in each.chain if not self.tasks[key].finished_on]
        before = [key for key in driven if key != each.activity] or [each.activity]
        says = f"Missed by {days}. What drives it: {', '.join(self.names(before))}."
        fixes = [Fix(label="Try a slip", url=f"{self.url('slip')}?what=task-{before[0]}")]
        if date:
            edit = f"{self.url('key-date-edit', date.pk)}?from=health#dates"
            fixes.append(Fix(label="Move the date", url=edit))
        if date == self.public:
            fixes.insert(1, Fix(label="Shorten the plan", url=self.url("shorten")))
        key = f"short-{each.key_date}"
        subject = f"{date}, {day(date.on)}" if date else str(self.tasks[each.activity])
        return Sick(key=key, subject=subject, says=says, fixes=tuple(fixes))

    def _actual_after_data_date(self, each: Ailment) -> Sick:
        press = Fix(label="Set it to today", url=self.url("health-today", each.activity), post=True)
        task = self.tasks[each.activity]
        last = max(on for on in (task.started_on, task.finished_on) if on)
        says = f"It says {day(last)}."
        return self.sick(each, says, press, self.opened(each.activity, "Write another day"))

    def _finish_before_start(self, each: Ailment) -> Sick:
        task = self.tasks[each.activity]
        assert task.started_on and task.finished_on
        says = f"Finished {day(task.finished_on)}, started {day(task.started_on)}."
        return self.sick(each, says, self.opened(each.activity, "Correct the days"))

    def _out_of_sequence(self, each: Ailment) -> Sick:
        link = self.links[each.link or ""]
        says = f"It waits for “{self.tasks[str(link.before_id)]}”."
        fix = Fix(label="Say which", url=self.url("update"))
        because = self.tasks[each.activity].ahead_reason if each.explained else ""
        return self.sick(each, says, fix, because=because)

    def _tied(self, each: Ailment) -> Sick:
        fixes = [self.opened(each.activity)]
        if self.public and self.public.task_id:
            tie = self.url("health-tie", each.activity)
            fixes.insert(0, Fix(label="Tie it to the public date", url=tie, post=True))
        return self.sick(each, "", *fixes)

    _no_path_to_end = _no_successor = _dangling_finish = _tied

    def _no_predecessor(self, each: Ailment) -> Sick:
        task = self.tasks[each.activity]
        because = task.not_before_reason if each.explained else ""
        made = self._open(each)
        return self.sick(each, made.says, *made.fixes, because=because)

    def _hard_date(self, each: Ailment) -> Sick:
        key, task = each.key_date or "", self.tasks[each.activity]
        date: KeyDate | None = self.dates.get(key)
        if date is None:
            assert task.not_before
            says = f"It cannot start before {day(task.not_before)}. Why?"
            url = self.url("health-start-reason", task.pk)
            return self.sick(each, says, self.opened(each.activity), reason_url=url)
        edit = f"{self.url('key-date-edit', date.pk)}?from=health#dates"
        says = f"“{date}”, {day(date.on)}: {date.get_effect_display()}. Why?"
        fix = Fix(label="Open the date", url=edit)
        url = self.url("health-date-reason", date.pk)
        return self.sick(each, says, fix, reason_url=url)

    def _lead(self, each: Ailment) -> Sick:
        link = self.links[each.link or ""]
        before = self.tasks[str(link.before_id)]
        point = "starts" if link.kind in ("FS", "SS") else "is finished"
        after = "finished" if link.kind in ("FS", "FF") else "begun"
        says = f"It {point} {lag_size(link)} before “{before}” is {after}. Split “{before}” in two?"
        fix = self.opened(str(before.pk), f"Open “{before}”")
        url = "" if each.explained else self.url("health-link-reason", link.pk)
        return self.sick(each, says, fix, reason_url=url, because=self.reason(each, link))

    def _lag(self, each: Ailment) -> Sick:
        link = self.links[each.link or ""]
        says = f"It waits {lag_size(link)} after “{self.tasks[str(link.before_id)]}”. What for?"
        url = self.url("health-link-reason", link.pk)
        return self.sick(each, says, self.opened(each.activity), reason_url=url)

    def _long_lag(self, each: Ailment) -> Sick:
        link = self.links[each.link or ""]
        says = f"It waits {lag_size(link)} after “{self.tasks[str(link.before_id)]}”."
        wait = Fix(label="Make it a task", url=self.url("health-wait", link.pk), post=True)
        return self.sick(
            each, says, wait, self.opened(each.activity), because=self.reason(each, link)
        )

    def _no_owner(self, each: Ailment) -> Sick:
        return self.lane_without([each])

    def lane_without(self, several: Sequence[Ailment]) -> Sick:
        """One lane that names nobody, with all its tasks."""
        lane: Lane = self.tasks[several[0].activity].lane
        edit = f"{self.url('lane-edit', lane.pk)}?from=health#lanes"
        names = quoted([str(self.tasks[each.activity]) for each in several], most=4)
        says = f"It names nobody yet who does {names}."
        fix = Fix(label="Choose who", url=edit)
        return Sick(key=f"no_owner-{lane.pk}", subject=lane.name, says=says, fixes=(fix,))

    def all_of(self, code: Code, several: Sequence[Ailment]) -> list[Sick]:
        """Each fault on its own, but tasks that nobody does by their lane."""
        if code != Code.NO_OWNER:
            return [self.of(each) for each in several]
        lanes: dict[int, list[Ailment]] = {}
        for each in several:
            lanes.setdefault(self.tasks[each.activity].lane_id, []).append(each)
        return [self.lane_without(found) for found in lanes.values()]

    def _long(self, each: Ailment) -> Sick:
        says = f"{plural(self.days(each), 'working day')} to do."
        note = self.tasks[each.activity].note if each.explained else ""
        waits = self.url("health-waits", each.activity)
        only = Fix(label="It only waits", url=waits, post=True)
        return self.sick(each, says, self.opened(each.activity), only, because=note)

    def _high_float(self, each: Ailment) -> Sick:
        says = f"{plural(self.days(each), 'day')} in hand more than the whole plan has."
        note = self.tasks[each.activity].note if each.explained else ""
        return self.sick(each, says, self.opened(each.activity), because=note)

    def reason(self, each: Ailment, link: Link) -> str:
        return link.reason if each.explained else ""


def task_names(rows: Rows, keys: Iterable[str]) -> str:
    tasks: Mapping[str, Task] = {str(task.pk): task for task in rows.tasks}
    return quoted([tasks[key].name for key in keys], most=6)
