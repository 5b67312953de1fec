"""What the fields of a task must agree on; each rule gives the field and what is wrong there."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from projects.words import plural
from schedules.models import KeyDate, KeyDateEffect, Task
from schedules.selectors.wording import decimal_words

Wrong = Iterator[tuple[str, str]]
Found = Mapping[str, Any]


def days_in_order(found: Found, task: Task) -> Wrong:
    days, low, high = (found.get(name) for name in ("days", "low_days", "high_days"))
    if days is not None and low is not None and low > days:
        yield "low_days", "This is more than the working days above. Write less."
    if days is not None and high is not None and high < days:
        yield "high_days", "This is less than the working days above. Write more."


def returns_whole(found: Found, task: Task) -> Wrong:
    """How often it comes back and what that takes belong together."""
    percent, days = found.get("returns_percent"), found.get("returns_days")
    if percent and not days:
        yield "returns_days", "Write how many working days it takes when it comes back."
    if days and percent is None:
        yield "returns_percent", "Write how often it comes back: 30 means three times in ten."


def crash_possible(found: Found, task: Task) -> Wrong:
    days, by, cents = (found.get(name) for name in ("days", "crash_days", "crash_day_cents"))
    if days is not None and by is not None and by >= days:
        yield "crash_days", f"It takes {decimal_words(days)} days. Write less: something must stay."
    if by is not None and cents is None:
        yield "crash_day_cents", "Write what each day costs; 0 if it costs nothing."
    if cents is not None and by is None:
        yield "crash_days", "Write by how many days it can be shorter."


def hands_agree(found: Found, task: Task) -> Wrong:
    also, lane = list(found.get("also") or ()), found.get("lane")
    if lane in also:
        yield "also", f"“{lane}” does it already. Choose only the others that it needs."
    if also and found.get("waits"):
        yield "also", "A wait takes nobody’s hands. Choose none, or say that it is no wait."


def reason_has_a_day(found: Found, task: Task) -> Wrong:
    if found.get("not_before_reason") and not found.get("not_before"):
        yield "not_before", "Choose the day that this is the reason for."


def closing_is_a_moment(found: Found, task: Task) -> Wrong:
    if not found.get("closes"):
        return
    if found.get("days"):
        yield "closes", f"It takes {plural_days(found)}. Only a task of 0 days can close others."
    held = KeyDate.objects.filter(task=task.pk, effect=KeyDateEffect.EVENT).first()
    if task.pk and held:
        yield "closes", f"It happens on “{held}” and is shown on that day. Leave this open."


def plural_days(found: Found) -> str:
    days = found["days"]
    return plural(int(days), "day") if days == int(days) else f"{decimal_words(days)} days"


RULES: tuple[Callable[[Found, Task], Wrong], ...] = (
    days_in_order,
    returns_whole,
    crash_possible,
    hands_agree,
    reason_has_a_day,
    closing_is_a_moment,
)
