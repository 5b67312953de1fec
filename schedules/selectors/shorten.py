"""How the plan gets shorter: what each day costs, and which tasks pay for it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from urllib.parse import urlencode

from projects.models import Project
from projects.words import day, money, plural
from schedules import engine, plan
from schedules.engine import crash
from schedules.models import Task
from schedules.plan import shorten
from schedules.selectors.wording import in_hand_words, outcome_words, quoted


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """The cheapest way to be so many days earlier."""

    days: str
    cost: str
    tasks: Sequence[str]  # “Weld lantern frame 2 days shorter”
    ready: str
    in_hand: str
    breaks: bool
    query: str  # what “Try a slip” needs


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A task that has a price, or could have one."""

    task: Task
    says: str
    carries: bool


class Prices:
    """The whole page."""

    def __init__(self, project: Project, today: date) -> None:
        self.project = project
        self.rows = plan.read(project, today)
        self.plan = plan.solve(self.rows)
        self.names = {str(task.pk): task.name for task in self.rows.tasks}

    @cached_property
    def curve(self) -> crash.Curve:
        return shorten.curve(self.rows)

    @cached_property
    def priced(self) -> list[Offer]:
        return [
            offer(task, price_words(task, self.project.currency))
            for task in self.rows.tasks
            if task.crash_days and not task.finished_on
        ]

    @cached_property
    def unpriced(self) -> list[Offer]:
        """What could have a price, those that carry the date first."""
        public = self.rows.public
        event = public.task_id if public else None
        found = [
            offer(task, "carries the date" if carries(task) else "")
            for task in self.rows.tasks
            if not (task.crash_days or task.finished_on or task.pk == event or task.days <= 1)
        ]
        return sorted(found, key=lambda each: not each.carries)

    @cached_property
    def prices(self) -> list[Price]:
        return [self.price(found) for found in self.curve.plans] if self.priced else []

    def price(self, found: crash.Shortened) -> Price:
        then = shorten.in_hand(self.rows, found.steps)
        days = plan.in_hand_days(self.rows, then)
        return Price(
            days=plural(found.units, "day"),
            cost=money(found.cost, self.project.currency),
            tasks=self.steps_words(found.steps),
            ready=day(engine.day_that_ends(found.date)),
            in_hand=outcome_words(days),
            breaks=(days or 0) < 0,
            query=slip_query(found.steps),
        )

    def steps_words(self, steps: Mapping[str, int]) -> list[str]:
        order = [key for key in self.names if key in steps]
        return [f"{self.names[key]} {plural(steps[key], 'day')} shorter" for key in order]

    @cached_property
    def others(self) -> list[Price]:
        """Dearer ways to win the first day."""
        return [self.price(way) for way in shorten.other_ways(self.rows)[1:]] if self.prices else []

    @property
    def in_hand_now(self) -> str:
        return in_hand_words(plan.in_hand_days(self.rows, self.plan))

    @property
    def lede(self) -> str:
        if not self.rows.tasks:
            return "Nothing is planned yet."
        if not self.priced:
            return "No task has a price for being shorter yet, so nothing can be reckoned."
        if not self.prices:
            return f"Nothing that has a price would make the plan earlier. {self.stop}"
        first, last = self.prices[0], self.prices[-1]
        said = f"The first {first.days.removeprefix('1 ')} earlier costs {first.cost}"
        if len(self.prices) == 1:
            return f"{said}. {self.in_hand_now.capitalize()} now."
        return f"{said}; {last.days}, the most there is, {last.cost}."

    @property
    def stop(self) -> str:
        """Why it ends where it ends."""
        if self.curve.more:
            return "There may be more: the search was broken off here."
        public = self.rows.public
        done = {str(t.pk) for t in self.rows.tasks if t.finished_on}
        done |= {str(public.task_id)} if public else set()
        names = [self.names[key] for key in self.curve.stop if key not in done]
        if not names:
            return "Nothing else would make it earlier."
        verb = "carries" if len(names) == 1 else "carry"
        return f"With every day bought, {quoted(names, 4)} {verb} the date: no earlier than that."


def offer(task: Task, says: str) -> Offer:
    return Offer(task=task, says=says, carries=carries(task))


def carries(task: Task) -> bool:
    return task.chain_position is not None


def price_words(task: Task, currency: str) -> str:
    """“up to 3 days shorter, $180.00 a day”."""
    cost = money(task.crash_day_cents or 0, currency)
    return f"up to {plural(task.crash_days or 0, 'day')} shorter, {cost} a day"


def slip_query(steps: Mapping[str, int]) -> str:
    """The changes as “Try a slip” reads them."""
    pairs = list(steps.items())
    if len(pairs) == 1:
        key, count = pairs[0]
        return urlencode({"what": f"task-{key}", "days": -count})
    found = {}
    for place, (key, count) in enumerate(pairs):
        found[f"a-{place}-what"], found[f"a-{place}-days"] = f"task-{key}", str(-count)
    return urlencode(found)
