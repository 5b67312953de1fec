"""The links that a task waits on."""

from __future__ import annotations

from dataclasses import dataclass

from schedules.models import LagClock, Link, Task


@dataclass(frozen=True, slots=True)
class LinkLine:
    link: Link
    says: str


def links_of(task: Task) -> list[LinkLine]:
    rows = Link.objects.filter(after=task).select_related("before")
    return [LinkLine(row, link_words(row)) for row in rows]


def link_words(row: Link) -> str:
    """“starts after it is finished, 72 hours later: paint cures”; “same hands: …”."""
    words = str(row.get_kind_display())
    if row.same_hands:
        words = f"same hands, {words}"
    if row.lag:
        words += f", {lag_words(row)}"
    return f"{words}: {row.reason}" if row.reason else words


def lag_words(row: Link) -> str:
    return f"{lag_size(row)} {'later' if row.lag > 0 else 'earlier'}"


def lag_size(row: Link) -> str:
    """“72 hours”, “1 working day”."""
    size = f"{abs(row.lag).normalize():f}"
    noun = "hour" if row.lag_clock == LagClock.ELAPSED else "working day"
    return f"{size} {noun}" if size == "1" else f"{size} {noun}s"
