"""What the suppliers sheet shows: who holds what, and what of theirs ends when."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import QuerySet

from projects.access import projects_of, type_user
from projects.hooks import Level, OrderMoney, TaskDays, money_of_orders, tasks_planned
from projects.models import Part, Project
from projects.words import day as in_words
from projects.words import day_year, plural, span, whose
from suppliers.models import Document, DocumentKind, Order, OrderState, Supplier

SOON = timedelta(days=42)
WITH_CHANGES = "orders__changes"
LONG = 30  # days of room that need not be counted
ROOM = 2  # fewer days than this between an end and what needs it is near
CALLED = {
    DocumentKind.INSURANCE: "insurance",
    DocumentKind.LICENCE: "licence",
    DocumentKind.TAX_FORM: "taxpayer form",
}
OPEN_ORDERS = (OrderState.PLANNED, OrderState.PLACED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """A paper that ends, beside the last day on which its supplier works."""

    document: Document
    supplier: Supplier
    expires: date
    needed_until: date | None
    today: date

    @property
    def called(self) -> str:
        known = CALLED.get(DocumentKind(self.document.kind))
        return known or f"“{self.document.title}”"

    @property
    def room(self) -> int | None:
        """Days from the last task's end to the expiry; negative: too early."""
        return None if self.needed_until is None else (self.expires - self.needed_until).days

    @property
    def level(self) -> Level:
        if self.room is None:
            return Level.PLAIN
        if self.room < 0:
            return Level.BROKEN
        return Level.NEAR if self.room < ROOM else Level.HOLDS

    @property
    def against(self) -> str:
        """The end against the last task: “7 days before its last task ends”."""
        if self.room is None:
            return ""
        if self.room == 0:
            return "the day its last task ends: no room"
        if self.room > LONG:
            return "well after its last task ends"
        side = "before" if self.room < 0 else "after"
        return f"{plural(abs(self.room), 'day')} {side} its last task ends"

    @property
    def says(self) -> str:
        """What follows “Third Bell Canvas Loft's insurance”."""
        verb = "ended" if self.expires < self.today else "ends"
        told = f"{verb} {day_words(self.expires, self.today)}"
        return f"{told}, {self.against}" if self.against else told

    @property
    def sentence(self) -> str:
        return f"{whose(self.supplier.name)} {self.called} {self.says}."


def day_words(day: date, today: date) -> str:
    """The year is said only when it is another one."""
    return in_words(day) if day.year == today.year else day_year(day)


@dataclass(frozen=True, slots=True, kw_only=True)
class Booking:
    """An order beside the days on which its tasks need it."""

    order: Order
    tasks: tuple[TaskDays, ...]
    money: OrderMoney | None = None

    @property
    def needed(self) -> tuple[date, date] | None:
        return needed_days(self.tasks)

    @property
    def level(self) -> Level:
        if self.needed is None or self.order.state not in OPEN_ORDERS:
            return Level.PLAIN
        return window_level(self.order, *self.needed)


def needed_days(tasks: Iterable[TaskDays]) -> tuple[date, date] | None:
    waiting = [task for task in tasks if not task.finished]
    if not waiting:
        return None
    return min(t.start for t in waiting), max(t.finish for t in waiting)


def window_level(order: Order, start: date, finish: date) -> Level:
    """Whether an order's window covers the days that need it."""
    first, last = order.window_start, order.window_end
    if first is None and last is None:
        return Level.PLAIN
    if (first and start < first) or (last and finish > last):
        return Level.BROKEN
    return Level.NEAR if last and (last - finish).days < ROOM else Level.HOLDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """A supplier with all that hangs on it."""

    supplier: Supplier
    tasks: tuple[TaskDays, ...]
    bookings: tuple[Booking, ...]
    endings: tuple[Ending, ...]

    @property
    def next_ending(self) -> Ending | None:
        return min(self.endings, key=lambda e: e.expires, default=None)

    @property
    def papers(self) -> list[tuple[Document, Ending | None]]:
        """Every paper, with what is to be said of its end; none when it has no end to watch."""
        watched = {ending.document.pk: ending for ending in self.endings}
        return [(paper, watched.get(paper.pk)) for paper in self.supplier.documents.all()]

    @property
    def waiting(self) -> list[TaskDays]:
        return [task for task in self.tasks if not task.finished]


def current_papers(documents: Iterable[Document]) -> list[Document]:
    """Papers that expire; of those with the same kind and title only the latest counts."""
    latest: dict[tuple[int, str, str], Document] = {}
    for paper in sorted(documents, key=lambda d: (d.expires_on or date.min, d.pk)):
        if paper.expires_on:
            latest[paper.supplier_id, paper.kind, paper.title.casefold()] = paper
    return list(latest.values())


def holding(
    supplier: Supplier,
    tasks: Iterable[TaskDays],
    today: date,
    money: Mapping[int, OrderMoney] | None = None,
) -> Holding:
    """Reads the supplier's documents and orders, which should be prefetched."""
    every = list(tasks)
    held = tuple(sorted((t for t in every if t.supplier_id == supplier.pk), key=lambda t: t.start))
    needed = needed_days(held)
    return Holding(
        supplier=supplier,
        tasks=held,
        bookings=tuple(booking(order, every, money or {}) for order in supplier.orders.all()),
        endings=tuple(
            Ending(
                document=paper,
                supplier=supplier,
                expires=paper.expires_on,
                needed_until=needed[1] if needed else None,
                today=today,
            )
            for paper in current_papers(supplier.documents.all())
            if paper.expires_on
        ),
    )


def booking(order: Order, tasks: Iterable[TaskDays], money: Mapping[int, OrderMoney]) -> Booking:
    tied = tuple(task for task in tasks if task.order_id == order.pk)
    return Booking(order=order, tasks=tied, money=money.get(order.pk))


def holdings_of(project: Project, today: date) -> list[Holding]:
    """Every supplier of the project, in a fixed number of queries."""
    tasks = tasks_planned(project, today)
    rows = Supplier.objects.filter(project=project).prefetch_related("documents", WITH_CHANGES)
    return [holding(row, tasks, today) for row in rows]


def holding_of(project: Project, supplier_id: int, today: date) -> Holding | None:
    """One supplier of the project with what hangs on it; none when it is not the project's."""
    rows = Supplier.objects.filter(project=project, pk=supplier_id).prefetch_related(
        "documents", WITH_CHANGES
    )
    row = rows.first()
    if row is None:
        return None
    return holding(row, tasks_planned(project, today), today, money_of_orders(project, today))


def parts_made(supplier: Supplier) -> QuerySet[Part]:
    return Part.objects.filter(making__supplier=supplier)


def sentence(holdings: Iterable[Holding], today: date) -> str:
    """What expires or is due next: first what breaks, then what comes."""
    rows = list(holdings)
    endings = sorted((e for h in rows for e in h.endings), key=lambda e: e.expires)
    broken = [e for e in endings if e.level == Level.BROKEN]
    if broken:
        return broken[0].sentence
    short = [b for h in rows for b in h.bookings if b.level == Level.BROKEN]
    if short:
        return booking_sentence(short[0])
    coming = [e for e in endings if today <= e.expires <= today + SOON]
    if coming:
        return coming[0].sentence
    return order_due(rows, today)


def booking_sentence(found: Booking) -> str:
    if found.needed is None:
        return ""
    order, needed = found.order, span(*found.needed)
    return (
        f"{order.title} from {order.supplier.name} is booked {order.window}; it is needed {needed}."
    )


def order_due(rows: list[Holding], today: date) -> str:
    """What should have come by now, else what comes next."""
    orders = [b.order for h in rows for b in h.bookings if b.order.state in OPEN_ORDERS]
    due = sorted((o.window_end, o.pk, o) for o in orders if o.window_end and o.window_end < today)
    if due:
        order = due[0][2]
        return f"{order.title} from {order.supplier.name} was due by {in_words(due[0][0])}."
    coming = sorted(
        (o.window_start, o.pk, o) for o in orders if o.window_start and o.window_start >= today
    )
    if coming:
        order = coming[0][2]
        return f"Next is {order.title} from {order.supplier.name}, {order.window}."
    return "No paper ends in the next six weeks, and no order is still to come."


def to_bring(user: type_user, project: Project) -> QuerySet[Supplier]:
    """Suppliers of the reader's other projects whose names are not taken here."""
    taken = Supplier.objects.filter(project=project).values("name")
    return (
        Supplier.objects.filter(project__in=projects_of(user))
        .exclude(project=project)
        .exclude(name__in=taken)
        .select_related("project")
        .order_by("name", "pk")
    )


def paid_orders(supplier: Supplier) -> QuerySet[Order]:
    """Orders that money was already spent on; expenses belong to a higher app."""
    return supplier.orders.filter(expenses__isnull=False).distinct()
