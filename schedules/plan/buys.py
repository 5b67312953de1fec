"""What could be done for a better chance: the plan as it would be, and what that would cost.

Each action changes the network alone; nothing is saved. All draws stay what they are, so
that the difference to the plan as it stands is what the action does, and no luck.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum
from itertools import chain
from typing import TYPE_CHECKING

from schedules import engine
from schedules.models import Lane, Task
from schedules.plan.chance import Chances, Drawing, due, spreads, wet_days
from schedules.plan.rows import Rows
from schedules.plan.translate import network
from suppliers.models import Order, OrderState

if TYPE_CHECKING:
    from schedules.engine import chance

MOST_TASKS = 8  # of those that carry the date most often
LEAST_SHARE = 0.02  # of the draws that a task must carry the date in
SATURDAY = 5
DAY = 1440
WEEKS = (1, 2)  # by which the public date is moved


class Kind(StrEnum):
    SHORTEN = "shorten"
    SECOND = "second"
    COVER = "cover"
    SATURDAYS = "saturdays"
    ORDER = "order"
    LATER = "later"


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """Something to do; `days` are working days saved, Saturdays worked, or days later."""

    kind: Kind
    days: float = 0
    cents: int | None = None  # None: not known
    task: Task | None = None
    lane: Lane | None = None
    order: Order | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    action: Action
    percent: float  # the chance with it


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What every action starts from."""

    rows: Rows
    network: engine.Network
    spreads: Mapping[str, chance.Spread]
    plan: engine.Plan
    carriers: list[Task]  # still to do, those that carry the date most often first

    def calendar(self, task: Task) -> engine.Calendar:
        return self.network.calendars[self.activity(task).calendar]

    def activity(self, task: Task) -> engine.Activity:
        return next(a for a in self.network.activities if a.key == str(task.pk))


Changed = tuple[engine.Network, Mapping[str, "chance.Spread"]]


def bought(rows: Rows, drawing: Drawing, base: Chances) -> list[Bought]:
    """Every action with the chance it gives, best first, then cheapest."""
    ground = lay(rows, base)
    found = [
        Bought(action=action, percent=drawing.percent(*changed, base.by))
        for action, changed in actions(ground)
    ]
    found += [
        Bought(
            action=Action(kind=Kind.LATER, days=7 * weeks),
            percent=100 * base.outcome.chance(base.by + 7 * weeks * DAY),
        )
        for weeks in WEEKS
    ]
    return sorted(found, key=lambda b: (-b.percent, b.action.cents is None, b.action.cents or 0))


def lay(rows: Rows, base: Chances) -> Ground:
    whole = network(rows)
    tasks = {str(t.pk): t for t in rows.tasks if not t.finished_on and t.days > 0}
    shares = sorted(base.outcome.carried.items(), key=lambda item: -item[1])
    carriers = [tasks[key] for key, share in shares if key in tasks and share >= LEAST_SHARE]
    return Ground(
        rows=rows,
        network=whole,
        spreads=spreads(rows),
        plan=engine.solve(whole, data_date=engine.instant(rows.today)),
        carriers=carriers[:MOST_TASKS],
    )


def actions(ground: Ground) -> Iterator[tuple[Action, Changed]]:
    """What may be done, each with the plan as it would then be."""
    makers: tuple[Callable[[Ground], Iterator[tuple[Action, Changed]]], ...] = (
        shortened,
        second_makers,
        covered,
        saturdays,
        ordered,
    )
    return chain.from_iterable(make(ground) for make in makers)


def shortened(ground: Ground) -> Iterator[tuple[Action, Changed]]:
    """By as many days as somebody said it can be, else by one; a wait only when said."""
    for task in ground.carriers:
        calendar, activity = ground.calendar(task), ground.activity(task)
        day = calendar.day_minutes
        most = (left(activity) - day // 2) // day
        days = min(task.crash_days or (0 if task.waits else 1), most)
        if days >= 1:
            cents = None if task.crash_day_cents is None else task.crash_day_cents * days
            action = Action(kind=Kind.SHORTEN, task=task, days=days, cents=cents)
            yield action, with_length(ground, task, left(activity) - days * day)


def second_makers(ground: Ground) -> Iterator[tuple[Action, Changed]]:
    """Two people take half the time; the second is paid for the days there are then."""
    for task in ground.carriers:
        calendar, minutes = ground.calendar(task), left(ground.activity(task))
        if task.waits or minutes < 2 * calendar.day_minutes:
            continue
        days = minutes / 2 / calendar.day_minutes
        price = task.lane.day_cents
        cents = None if price is None else round(price * days)
        action = Action(kind=Kind.SECOND, task=task, days=days, cents=cents)
        yield action, with_length(ground, task, minutes // 2)


def covered(ground: Ground) -> Iterator[tuple[Action, Changed]]:
    """Outdoor work under a roof, which goes on in the wet."""
    for task in ground.carriers if any(wet_days(ground.rows)) else ():
        spread = ground.spreads.get(str(task.pk))
        if task.outdoor and spread:
            dry = {**ground.spreads, str(task.pk): replace(spread, outdoor=False)}
            yield Action(kind=Kind.COVER, task=task), (ground.network, dry)


def saturdays(ground: Ground) -> Iterator[tuple[Action, Changed]]:
    """A lane works the Saturdays that lie before the end of its last task that carries."""
    for lane in {task.lane_id: task.lane for task in ground.carriers if not task.waits}.values():
        carriers = [t for t in ground.carriers if t.lane_id == lane.pk and not t.waits]
        free = [t for t in carriers if not ground.calendar(t).week[SATURDAY]]
        if not free:
            continue
        count = len([day for day in saturdays_of(ground, free) if is_free(ground, free, day)])
        if count:
            cents = None if lane.day_cents is None else lane.day_cents * count
            action = Action(kind=Kind.SATURDAYS, lane=lane, days=count, cents=cents)
            yield action, with_saturdays(ground, lane)


def ordered(ground: Ground) -> Iterator[tuple[Action, Changed]]:
    """What waits for an order that is not placed yet starts today, if it waits for no work."""
    waiting = {t.order_id: t for t in ground.carriers if t.order_id and not t.started_on}
    orders = Order.objects.filter(pk__in=waiting, state=OrderState.PLANNED)
    for order in orders.select_related("supplier") if waiting else ():
        task = waiting[order.pk]
        held = any(link.after_id == task.pk for link in ground.rows.links)
        dates = ground.plan.dates[str(task.pk)]
        later = dates.early_start >= engine.instant(ground.rows.today) + DAY
        if later and (task.waits or not held):
            action = Action(kind=Kind.ORDER, task=task, order=order, cents=0)
            yield action, started_today(ground, task)


def started_today(ground: Ground, task: Task) -> Changed:
    """The plan with a task that waits for nothing."""
    key = str(task.pk)
    links = tuple(link for link in ground.network.links if link.after != key)
    early = engine.KeyDateRole.NO_EARLIER
    dates = (k for k in ground.network.key_dates if k.activity != key or k.role is not early)
    return replace(ground.network, links=links, key_dates=tuple(dates)), ground.spreads


def left(activity: engine.Activity) -> int:
    """Working minutes that are still to do."""
    return activity.duration if activity.remaining is None else activity.remaining


def with_length(ground: Ground, task: Task, minutes: int) -> Changed:
    """The plan with so many minutes still to do of a task; its range shrinks alike."""
    was = ground.activity(task)
    if was.remaining is not None:
        now = replace(was, remaining=minutes)
        return with_activity(ground, now), ground.spreads
    found = dict(ground.spreads)
    spread, share = found[was.key], minutes / was.duration
    low, high = int(spread.low * share), max(minutes, round(spread.high * share))
    found[was.key] = replace(spread, low=min(low, minutes), high=high)
    return with_activity(ground, replace(was, duration=minutes)), found


def with_activity(ground: Ground, now: engine.Activity) -> engine.Network:
    changed = (now if a.key == now.key else a for a in ground.network.activities)
    return replace(ground.network, activities=tuple(changed))


def with_saturdays(ground: Ground, lane: Lane) -> Changed:
    """The plan with every Saturday before the public date worked in one lane."""
    mine = {str(t.pk) for t in ground.rows.tasks if t.lane_id == lane.pk and not t.finished_on}
    calendars, activities = dict(ground.network.calendars), []
    for activity in ground.network.activities:
        calendar = calendars[activity.calendar]
        if activity.key in mine and any(calendar.week) and not calendar.week[SATURDAY]:
            key = f"{calendar.key}+saturdays"
            calendars.setdefault(key, on_saturdays(ground, calendar, key))
            activity = replace(activity, calendar=key)
        activities.append(activity)
    return replace(
        ground.network, activities=tuple(activities), calendars=calendars
    ), ground.spreads


def on_saturdays(ground: Ground, calendar: engine.Calendar, key: str) -> engine.Calendar:
    """The hours of the Friday also on Saturdays, days that somebody has named left alone."""
    usual = next(spans for spans in reversed(calendar.week) if spans)
    fridays = {day: day - timedelta(days=1) for day in saturdays_before(ground)}
    days = {day: calendar.exceptions.get(before) or usual for day, before in fridays.items()}
    return replace(calendar, key=key, exceptions={**days, **calendar.exceptions})


def saturdays_before(ground: Ground) -> list[date]:
    last = engine.day_that_begins(due(ground.rows) or 0)
    first = ground.rows.today + timedelta(days=(SATURDAY - ground.rows.today.weekday()) % 7)
    return [first + timedelta(days=7 * n) for n in range(max(0, -((first - last).days // 7)))]


def saturdays_of(ground: Ground, tasks: list[Task]) -> list[date]:
    """Those between the first start and the last finish of some tasks, as planned."""
    dates = [ground.plan.dates[str(t.pk)] for t in tasks]
    first = engine.day_that_begins(min(d.early_start for d in dates))
    last = engine.day_that_ends(max(d.early_finish for d in dates))
    return [day for day in saturdays_before(ground) if first <= day <= last]


def is_free(ground: Ground, tasks: list[Task], day: date) -> bool:
    return all(day not in ground.calendar(task).exceptions for task in tasks)
