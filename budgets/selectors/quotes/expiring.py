"""Quotes against the days of the plan: what ends before it would be ordered, what is due."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta

from django.urls import reverse

from budgets.selectors.quotes.listing import RequestRow
from projects.hooks import Level, PanelRow, PlanDays, Ripple
from projects.words import day, plural, whose
from schedules.selectors.wording import NEAR_DAYS
from suppliers.models import Quote


def quote_ripples(rows: Iterable[RequestRow], before: PlanDays, after: PlanDays) -> list[Ripple]:
    """The prices of requests whose task moves, held against the day on which it would begin."""
    return [
        ripple(row, quote, after)
        for row in rows
        if not row.request.is_closed and moves(row, before, after)
        for quote in row.answered
        if quote.valid_until
    ]


def moves(row: RequestRow, before: PlanDays, after: PlanDays) -> bool:
    task = task_of(row)
    was, then = before.tasks.get(task), after.tasks.get(task)
    return then is not None and (was is None or was.start != then.start)


def task_of(row: RequestRow) -> int:
    purchase = getattr(row.request, "purchase", None)
    return (purchase and purchase.task_id) or 0


def ripple(row: RequestRow, quote: Quote, after: PlanDays) -> Ripple:
    start, until = after.tasks[task_of(row)].start, quote.valid_until
    assert until is not None
    room = (until - start).days
    says = f"for “{row.request.title}” holds until {day(until)}; its work would begin {day(start)}"
    if room < 0:
        says += f", {plural(-room, 'day')} after that."
    else:
        says += ": still inside." if room > NEAR_DAYS else f", only {plural(room, 'day')} before."
    level = Level.BROKEN if room < 0 else Level.NEAR if room <= NEAR_DAYS else Level.HOLDS
    return Ripple(
        level=level,
        subject=f"{whose(quote.supplier.name)} quote",
        says=says,
        url=url_of(row),
    )


def url_of(row: RequestRow) -> str:
    return reverse("budgets:quote-request", args=[row.request.project_id, row.request.pk])


def waiting_rows(rows: Iterable[RequestRow]) -> list[PanelRow]:
    """Open requests: whose answers are due, whose prices end."""
    return [
        PanelRow(text=row.request.title, detail=detail(row), url=url_of(row), level=row_level(row))
        for row in rows
        if not row.request.is_closed
    ]


def row_level(row: RequestRow) -> Level:
    if row.expiry_level == Level.BROKEN:
        return Level.BROKEN
    return Level.NEAR if row.overdue or row.expiry_level == Level.NEAR else Level.PLAIN


def detail(row: RequestRow) -> str:
    parts = [f"{len(row.answered)} of {plural(len(row.quotes), 'answer')}"]
    due, first = row.request.answer_by, row.first_expiry
    if row.waiting and due:
        parts.append(f"the rest {'was' if row.overdue else 'is'} due {day(due)}")
    if first and first <= row.today + timedelta(days=28):
        parts.append(f"a price {'ended' if first < row.today else 'ends'} {day(first)}")
    return ", ".join(parts)
