"""What a slip breaks among orders and papers: windows too short, papers that end too early."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date

from django.urls import reverse

from projects import hooks
from projects.hooks import Level, PlanDays, Ripple, TaskDays
from projects.models import Project
from projects.words import day as in_words
from projects.words import plural, span, whose
from suppliers.models import Document, Order
from suppliers.selectors import (
    OPEN_ORDERS,
    ROOM,
    Ending,
    current_papers,
    day_words,
    needed_days,
    window_level,
)


@hooks.ripples.register("suppliers.orders", place=10)
def order_windows(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    orders = Order.objects.filter(
        supplier__project=project, state__in=OPEN_ORDERS, pk__in=ids(after, "order_id")
    ).select_related("supplier")
    found = [order_ripple(order, before, after) for order in orders]
    return [ripple for ripple in found if ripple]


@hooks.ripples.register("suppliers.papers", place=20)
def paper_ends(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    """By the lanes of a supplier and by its orders: whoever works must be covered."""
    papers = Document.objects.filter(
        supplier__project=project, expires_on__isnull=False
    ).select_related("supplier")
    makers = dict(Order.objects.filter(supplier__project=project).values_list("pk", "supplier"))
    was, then = covered(before, makers), covered(after, makers)
    found = [paper_ripple(paper, was, then) for paper in current_papers(papers)]
    return [ripple for ripple in found if ripple]


def covered(plan: PlanDays, makers: Mapping[int, int]) -> PlanDays:
    """A task done on an order is its maker's, where its lane is nobody's of the list."""
    tasks = {
        pk: replace(task, supplier_id=task.supplier_id or makers.get(task.order_id or 0))
        for pk, task in plan.tasks.items()
    }
    return replace(plan, tasks=tasks)


def ids(plan: PlanDays, name: str) -> set[int]:
    return {getattr(task, name) for task in plan.tasks.values()} - {None}


def tied(plan: PlanDays, name: str, pk: int) -> list[TaskDays]:
    return [task for task in plan.tasks.values() if getattr(task, name) == pk]


def order_ripple(order: Order, before: PlanDays, after: PlanDays) -> Ripple | None:
    """None when no task tied to the order moves, or it covers no days."""
    tasks = tied(after, "order_id", order.pk)
    needed = needed_days(tasks)
    if needed is None or not order.window or not any(moves(t, before) for t in tasks):
        return None
    level = window_level(order, *needed)
    noun = "" if order.title.casefold().endswith("order") else "order "
    booked = f"{noun}is booked {order.window}; it would be needed {span(*needed)}"
    return Ripple(
        level=level,
        subject=order.title,
        says=booked + window_room(order, level, needed[1]),
        url=reverse("suppliers:supplier", args=[order.supplier.project_id, order.supplier_id]),
    )


def window_room(order: Order, level: Level, finish: date) -> str:
    if level == Level.BROKEN or order.window_end is None:
        return "."
    room = (order.window_end - finish).days
    if level == Level.HOLDS:
        return ": still inside."
    return ", to its last day: no room." if room == 0 else f": only {plural(room, 'day')} to spare."


def moves(task: TaskDays, before: PlanDays) -> bool:
    was = before.tasks.get(task.pk)
    return was is None or (was.start, was.finish) != (task.start, task.finish)


def paper_ripple(paper: Document, before: PlanDays, after: PlanDays) -> Ripple | None:
    """None when the day on which its supplier's last task ends stays the same."""
    last = last_day(tied(after, "supplier_id", paper.supplier_id))
    was = last_day(tied(before, "supplier_id", paper.supplier_id))
    if last is None or last == was or paper.expires_on is None:
        return None
    ending = Ending(
        document=paper,
        supplier=paper.supplier,
        expires=paper.expires_on,
        needed_until=last,
        today=after.today,
    )
    return Ripple(
        level=ending.level,
        subject=f"{whose(paper.supplier.name)} {ending.called}",
        says=paper_says(ending, last),
        url=reverse("suppliers:supplier", args=[paper.supplier.project_id, paper.supplier_id]),
    )


def last_day(tasks: Iterable[TaskDays]) -> date | None:
    needed = needed_days(tasks)
    return needed[1] if needed else None


def paper_says(ending: Ending, last: date) -> str:
    expires, room = day_words(ending.expires, ending.today), (ending.expires - last).days
    verb = "expired" if ending.expires < ending.today else "expires"
    if room < 0:
        early = plural(-room, "day")
        return f"{verb} {expires}, {early} before its last task would end, {in_words(last)}."
    if room == 0:
        return f"{verb} {expires}, the day its last task would end: no room."
    if room < ROOM:
        return f"{verb} {expires}, one day after its last task would end: little room."
    return f"{verb} {expires}, after its last task would end, {in_words(last)}: still inside."
