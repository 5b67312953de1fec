"""Links and calendars that differ between two plans, summed up."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from projects.words import listed, plural
from schedules.plan import Rows
from schedules.plan.kept import Kept


def link_words(kept: Kept, then: Kept) -> str:
    """“2 links added, 1 removed, 1 wait changed”; empty when all are alike."""
    added = len(then.links.keys() - kept.links.keys())
    removed = len(kept.links.keys() - then.links.keys())
    both = kept.links.keys() & then.links.keys()
    changed = sum(1 for key in both if kept.links[key] != then.links[key])
    counts = ((added, "link", "added"), (removed, "link", "removed"), (changed, "wait", "changed"))
    return listed([f"{plural(n, noun)} {done}" for n, noun, done in counts if n])


def other_calendars(kept: Kept, then: Kept, rows: Rows) -> list[str]:
    """The calendars, in words, whose hours or days off differ over the time that both plan."""
    first, last = max(kept.on, then.on), min(last_day(kept), last_day(then))
    return [
        words
        for key, words in rows.called.items()
        if key in kept.calendars
        and key in then.calendars
        and worked(kept.calendars[key], first, last) != worked(then.calendars[key], first, last)
    ]


def last_day(kept: Kept) -> date:
    return max((task.finish for task in kept.tasks.values()), default=kept.on)


def worked(calendar: Mapping[str, Any], first: date, last: date) -> tuple[Any, ...]:
    between = first.isoformat(), last.isoformat()
    found = {d: s for d, s in calendar["exceptions"].items() if between[0] <= d <= between[1]}
    return calendar["week"], found
