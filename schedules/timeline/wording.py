"""The sentences of the timeline: titles of bars, its summary."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from functools import lru_cache

from schedules.timeline.marks import (
    STATE_WORDS,
    Bar,
    Chart,
    State,
    Wait,
    day_of,
    first_day,
    last_day,
)


@lru_cache(maxsize=4096)
def day(value: date) -> str:
    return f"{value:%a} {value.day} {value:%b}"


def days_of(bar: Bar) -> str:
    """“Tue 18 Aug to Wed 2 Sep”, or one day."""
    return span(first_day(bar), last_day(bar))


def span(first: date, last: date) -> str:
    return day(first) if last <= first else f"{day(first)} to {day(last)}"


def standing(bar: Bar) -> str:
    """What the mark says in words."""
    if bar.state is State.LATE and bar.in_hand is not None and bar.in_hand < 0:
        return f"too late for the date by {counted(-bar.in_hand, 'day')}"
    if STATE_WORDS[bar.state]:
        return STATE_WORDS[bar.state]
    return "" if bar.in_hand is None else f"{counted(bar.in_hand, 'day')} in hand"


def title(bar: Bar) -> str:
    parts = [f"{bar.name}: {days_of(bar)}", standing(bar), "outdoors" if bar.outdoor else ""]
    parts.append(bar.kept.words if bar.kept else "")
    return ", ".join(part for part in parts if part)


def wait_days(wait: Wait) -> str:
    first, last = day_of(wait.start), day_of(max(wait.finish - 1, wait.start))
    return day(first) if first == last else f"{day(first)} to {day(last)}"


def wait_length(wait: Wait) -> str:
    hours = max(1, round((wait.finish - wait.start) / 60))
    return counted(hours // 24, "day") if hours % 24 == 0 else counted(hours, "hour")


def wait_title(wait: Wait) -> str:
    tail = ", carries the date" if wait.carries else ""
    return f"{wait.name}: waiting {wait_length(wait)}, {wait_days(wait)}{tail}"


def counted(count: int | Decimal, noun: str) -> str:
    """“1 day”, “2.5 days”."""
    size = f"{count:,}" if isinstance(count, int) else f"{count.normalize():f}"
    return f"{size} {noun}" if count == 1 else f"{size} {noun}s"


def summary(chart: Chart) -> str:
    """What the drawing is, for whoever cannot see it."""
    if not chart.bars:
        return "Lanes timeline without tasks."
    first = min(first_day(bar) for bar in chart.bars)
    last = max(last_day(bar) for bar in chart.bars)
    lanes = {bar.lane for bar in chart.bars}
    said = f"Lanes timeline: {counted(len(chart.bars), 'task')} in {counted(len(lanes), 'lane')}, "
    said += f"{day(first)} {first.year} to {day(last)} {last.year}."
    public = next((flag for flag in chart.flags if flag.public), None)
    if public:
        said += f" {public.name} on {day(day_of(public.at))} {day_of(public.at).year}."
    chain = on_the_chain(chart.bars)
    if chain:
        said += f" Carried by: {', '.join(bar.name for bar in chain)}."
    return said


def on_the_chain(bars: Sequence[Bar]) -> list[Bar]:
    found = [(b.chain_position, b) for b in bars if b.chain_position is not None]
    return [bar for _, bar in sorted(found, key=lambda pair: pair[0])]
