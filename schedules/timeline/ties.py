"""What each bar waits for, with the words of the lag as they stand at the line."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable

from schedules.models import LagClock, Link
from schedules.timeline.marks import Tie
from schedules.timeline.wording import counted

KINDS = {
    "SS": "start to start",
    "FF": "finish to finish",
    "SF": "start to finish",
}
WHOSE: dict[str, str] = {
    LagClock.SUCCESSOR: " of the task that waits",
    LagClock.PROJECT: " of the project",
}
HOURS = 24


def ties_of(links: Iterable[Link], drawn: Collection[int]) -> dict[int, tuple[Tie, ...]]:
    """By the task that waits; only between tasks that are drawn."""
    found: dict[int, list[Tie]] = defaultdict(list)
    for link in links:
        if link.before_id in drawn and link.after_id in drawn:
            kind = str(link.kind)
            found[link.after_id].append(
                Tie(before=str(link.before_id), kind=kind, words=words(link))
            )
    return {task: tuple(ties) for task, ties in found.items()}


def words(link: Link) -> str:
    """“3 days: powder coat cures”, “start to start, 2 working days”; empty for a plain link."""
    said = ", ".join(part for part in (KINDS.get(str(link.kind), ""), lag_words(link)) if part)
    why = link.reason or ("same hands" if link.same_hands else "")
    return f"{said}: {why}" if said and why else said or why


def lag_words(link: Link) -> str:
    if not link.lag:
        return ""
    size = abs(link.lag)
    if link.lag_clock != LagClock.ELAPSED:
        said = counted(size, "working day") + WHOSE.get(link.lag_clock, "")
    elif size % HOURS == 0:
        said = counted(size / HOURS, "day")
    else:
        said = counted(size, "hour")
    return said if link.lag > 0 else f"{said} before that"
