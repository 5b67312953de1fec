"""What the calendar feeds hold: tasks, hires, booked days and key dates, in plain words."""

from __future__ import annotations

import hashlib
import json
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from datetime import date, time

from projects.models import Project, Site
from projects.words import day, plural
from schedules.models import Feed, KeyDate, KeyDateEffect, KeyDateKind, Task
from schedules.plan import Hire, Rows, current, hires, read
from schedules.selectors.schedule import TaskRow, task_rows
from suppliers.models import Order, OrderState, Supplier


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One entry of a feed; its days are both included. No money: others read it."""

    key: str  # “task-12”, “date-3”, “hire-1”, “order-4”
    name: str
    says: str
    place: str
    first: date
    last: date
    at: time | None  # on the first day, by the project's clock
    zone: str
    firm: bool  # it is promised, begun or done
    suppliers: tuple[int, ...]  # whom it concerns
    everybody: bool  # the public date concerns all

    @property
    def digest(self) -> str:
        """Changes when a date or a word does, and when it goes to somebody else."""
        text = json.dumps(asdict(self), default=str, sort_keys=True)
        return hashlib.sha256(text.encode()).hexdigest()


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedLine:
    """A feed that there is, or could be, as the page shows it."""

    supplier: Supplier | None  # none: the whole project
    feed: Feed | None  # none: switched off
    entries: int

    @property
    def mark(self) -> str:
        return str(self.supplier.pk) if self.supplier else ""


def feed_lines(project: Project, today: date) -> list[FeedLine]:
    """The whole project first, then every supplier."""
    items = feed_items(project, today)
    feeds = {feed.supplier_id: feed for feed in Feed.objects.filter(project=project)}
    parties = [None, *Supplier.objects.filter(project=project)]
    return [
        FeedLine(
            supplier=party,
            feed=feeds.get(party.pk if party else None),
            entries=len(items if party is None else of_supplier(items, party.pk)),
        )
        for party in parties
    ]


def of_supplier(items: Iterable[Item], supplier_id: int) -> list[Item]:
    """Only what concerns one supplier, and the public date."""
    return [item for item in items if item.everybody or supplier_id in item.suppliers]


def feed_items(project: Project, today: date) -> list[Item]:
    """Everything that the project's own feed holds, in a constant number of queries."""
    current(project, today)
    rows = read(project, today)
    found = Maker(rows, place_of(project), concerned(rows))
    return [
        *(found.task(row) for row in task_rows(rows) if found.is_told(row.task)),
        *(found.hire(hire) for hire in hires(rows)),
        *(found.order(order) for order in booked(project)),
        *(found.key_date(row) for row in rows.key_dates),
    ]


def place_of(project: Project) -> str:
    site = Site.objects.filter(project=project).first()
    return ", ".join(part for part in (site.name, site.address) if part) if site else ""


def booked(project: Project) -> list[Order]:
    """Orders with days, but for those that were cancelled."""
    found = Order.objects.filter(supplier__project=project).exclude(state=OrderState.CANCELLED)
    return [o for o in found.select_related("supplier") if o.window_start or o.window_end]


def concerned(rows: Rows) -> Mapping[int, set[int]]:
    """The suppliers of each task: of its lane, and of the lanes that it needs besides."""
    found: dict[int, set[int]] = defaultdict(set)
    for task in rows.tasks:
        if task.lane.supplier_id:
            found[task.pk].add(task.lane.supplier_id)
    also = Task.also.through.objects.filter(task__project=rows.project)
    pairs = also.exclude(lane__supplier=None).values_list("task_id", "lane__supplier_id")
    for task_id, supplier_id in pairs:
        found[task_id].add(supplier_id)
    return found


@dataclass(frozen=True, slots=True)
class Maker:
    """Makes entries of one project's rows."""

    rows: Rows
    place: str
    suppliers: Mapping[int, set[int]]

    def is_told(self, task: Task) -> bool:
        """A task that happens on a key date is told as that date."""
        events = {k.task_id for k in self.rows.key_dates if k.effect == KeyDateEffect.EVENT}
        return task.early_start is not None and task.pk not in events

    def item(
        self,
        key: str,
        name: str,
        says: Iterable[str],
        days: tuple[date, date],
        *,
        suppliers: Iterable[int] = (),
        firm: bool = True,
        at: time | None = None,
        everybody: bool = False,
    ) -> Item:
        return Item(
            key=key,
            name=name,
            says=" ".join(filter(None, [f"{self.rows.project}.", *says])),
            place=self.place,
            first=days[0],
            last=days[1],
            at=at,
            zone=self.rows.project.zone,
            firm=firm,
            suppliers=tuple(sorted(suppliers)),
            everybody=everybody,
        )

    def task(self, row: TaskRow) -> Item:
        task = row.task
        return self.item(
            f"task-{task.pk}",
            task.name,
            [f"Done by: {task.lane}.", self.standing(row)],
            (row.start, max(row.start, row.finish)),
            suppliers=self.suppliers.get(task.pk, ()),
            firm=bool(task.started_on or task.finished_on),
        )

    def standing(self, row: TaskRow) -> str:
        if row.task.finished_on:
            return "It is finished."
        begun = "It is under way. " if row.task.started_on else ""
        return begun + room_words(row, self.rows.public)

    def hire(self, hire: Hire) -> Item:
        return self.item(
            f"hire-{hire.pk}",
            hire.name,
            [f"Hire or supervision: {hire.lane}, {plural(hire.days, 'working day')}."],
            (hire.first, hire.last),
            suppliers=[hire.supplier_id] if hire.supplier_id else (),
            firm=False,
        )

    def order(self, order: Order) -> Item:
        first = order.window_start or order.window_end
        last = order.window_end or order.window_start
        assert first and last
        return self.item(
            f"order-{order.pk}",
            f"{order.title}: days of the order",
            [f"Order with {order.supplier}, {order.get_state_display().lower()}."],
            (first, last),
            suppliers=[order.supplier_id],
            firm=order.state != OrderState.PLANNED,
        )

    def key_date(self, row: KeyDate) -> Item:
        task = next((t for t in self.rows.tasks if t.pk == row.task_id), None)
        says = [f"{row.get_kind_display()}."]
        if task and row.effect not in (KeyDateEffect.NONE, KeyDateEffect.EVENT):
            says.append(f"{task.name}: {row.get_effect_display()}.")
        says.append("" if row.movable else "It is fixed.")
        public = row.kind == KeyDateKind.PUBLIC
        return self.item(
            f"date-{row.pk}",
            row.name,
            says,
            (row.on, row.on),
            suppliers=self.suppliers.get(row.task_id or 0, ()),
            firm=public or not row.movable,
            at=row.at,
            everybody=public,
        )


def room_words(row: TaskRow, public: KeyDate | None) -> str:
    """How much later it may end, in plain words."""
    if row.in_hand is None or public is None:
        return "The public date does not wait for it."
    if row.in_hand < 0:
        return f"It is {plural(-row.in_hand, 'day')} late for {public}."
    if row.in_hand == 0:
        return f"No days in hand: if it ends later, {public} is at risk."
    return f"{plural(row.in_hand, 'day')} in hand: it must end by {day(row.late_finish)}."
