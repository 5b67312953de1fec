"""The links that a task waits on."""

from __future__ import annotations

from dataclasses import dataclass

from schedules.models import LagClock, Link, Task
from schedules.timeline.ties import WHOSE


@dataclass(frozen=True, slots=True)
class LinkLine:
    link: Link
    says: str


MOST_HOURS = 96  # a longer wait is told in whole days, where it has them


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
    way = "later" if row.lag > 0 else "earlier"
    return f"{way} by {lag_size(row)}" if row.lag_clock in WHOSE else f"{lag_size(row)} {way}"


def lag_size(row: Link) -> str:
    """“72 hours”, “1 working day”, “3 working days of the project”; “21 days and nights”."""
    lag = abs(row.lag)
    if row.lag_clock == LagClock.ELAPSED and lag > MOST_HOURS and lag % 24 == 0:
        return f"{lag // 24:f} days and nights"
    size = f"{lag.normalize():f}"
    noun = "hour" if row.lag_clock == LagClock.ELAPSED else "working day"
    return f"{size} {noun}{'' if size == '1' else 's'}{WHOSE.get(row.lag_clock, '')}"
