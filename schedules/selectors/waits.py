"""A link as a reason: what was waited for, and until when."""

from __future__ import annotations

from typing import Any

from projects.words import day
from schedules.models import LagClock, Link, LinkKind, Task
from schedules.plan import Rows, early_days
from schedules.selectors.links import lag_size
from schedules.selectors.wording import moment_words

FINISHING = (LinkKind.FF, LinkKind.SF)


def link_reason(rows: Rows, driver: dict[str, Any]) -> str:
    """“Cut and sew skin” ends Fri 2 Oct, and the wait “cure” of 72 hours ends Mon 5 Oct 16:00."""
    row = next((r for r in rows.links if str(r.pk) == driver["key"]), None)
    before = next((t for t in rows.tasks if row and t.pk == row.before_id), None)
    if row is None or before is None:
        return ""
    words = before_words(row, before)
    if row.kind in FINISHING:
        words = f"it cannot finish before {words}"
    return f"{words}{wait_words(row, driver['at'])}"


def before_words(row: Link, before: Task) -> str:
    start, finish = early_days(before)
    if row.kind in (LinkKind.SS, LinkKind.SF):
        verb, on, gone = "starts", start, before.started_on
    else:
        verb, on, gone = "ends", finish, before.finished_on
    return f"“{before}” {verb[:-1] + 'ed' if gone else verb} {day(on)}"


def wait_words(row: Link, until: int) -> str:
    if not row.lag:
        return ""
    name = f"the wait “{row.reason}”" if row.reason else "the wait"
    if row.lag < 0:
        return f", less {lag_size(row)} by which it may overlap"
    if row.lag_clock == LagClock.ELAPSED:
        return f", and {name} of {lag_size(row)}, day and night, ends {moment_words(until)}"
    return f", and {name} of {lag_size(row)} ends {moment_words(until)}"
