"""The plan as a list by week, for a narrow screen: the same marks, in words."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import date, timedelta

from schedules.timeline import wording
from schedules.timeline.marks import (
    Bar,
    Chart,
    Flag,
    Hire,
    Join,
    Other,
    State,
    Wait,
    day_of,
    first_day,
    last_day,
)
from schedules.timeline.shapes import Week, WeekRow

Found = dict[date, list[tuple[tuple[object, ...], WeekRow]]]


def weeks_of(chart: Chart) -> tuple[Week, ...]:
    """Each task once, in the week it begins; this week also says what is still going on."""
    found: Found = defaultdict(list)
    names = {lane.key: lane.name for lane in chart.lanes}
    carried = carried_by(chart.bars, chart.joins)
    this = monday(chart.today)
    for bar in chart.bars:
        begins = monday(first_day(bar))
        if begins < this <= last_day(bar) and bar.state is not State.DONE:
            begins = this
        found[begins].append(((first_day(bar), 1, bar.key), bar_row(bar, names, carried)))
    for wait in chart.waits:
        begins = day_of(wait.start)
        found[monday(begins)].append(((begins, 2, wait.key), wait_row(wait)))
    for other in chart.others:
        begins = day_of(other.start)
        found[monday(begins)].append(((begins, 3, other.key), other_row(other, names)))
    drawn = {(bar.name, first_day(bar)) for bar in chart.bars}
    for flag in chart.flags:
        on = day_of(flag.at)
        if (flag.name, on) in drawn:
            continue
        found[monday(on)].append(((on, 0, flag.key), flag_row(flag)))
    return tuple(week(begins, found, this) for begins in sorted(found))


def week(begins: date, found: Found, this: date) -> Week:
    rows = tuple(row for _, row in sorted(found[begins], key=lambda pair: pair[0]))
    return Week(week_title(begins, this), begins, begins == this, begins < this, rows)


def week_title(begins: date, this: date) -> str:
    end = begins + timedelta(days=6)
    first = f"{begins.day}" if begins.month == end.month else f"{begins.day} {begins:%b}"
    year = f" {end.year}" if begins.year != this.year else ""
    said = f"{first} to {end.day} {end:%b}{year}"
    return f"This week, {said}" if begins == this else said


def monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def carried_by(bars: Iterable[Bar], joins: Iterable[Join]) -> dict[str, str]:
    """Along the chain, the name of what each waits for."""
    names = {bar.key: bar.name for bar in bars}
    return {join.after: names[join.before] for join in joins if join.before in names}


def bar_row(bar: Bar, names: dict[str, str], carried: dict[str, str]) -> WeekRow:
    lane = names.get(bar.lane, bar.lane)
    point = bar.start == bar.finish
    kind = f"{bar.state.value} point" if point else bar.state.value
    before = carried.get(bar.key) if bar.state is State.CHAIN else None
    notes = [
        f"after “{before}”" if before else "",
        bar.kept.words if bar.kept and bar.kept.moved else "",
    ]
    note = "; ".join(note for note in notes if note)
    when, word = wording.days_of(bar), wording.standing(bar)
    return WeekRow(kind, bar.name, bar.url, when, lane, word, note)


def other_row(other: Other, names: dict[str, str]) -> WeekRow:
    hire = isinstance(other, Hire)
    when = wording.span(day_of(other.start), day_of(max(other.finish - 1, other.start)))
    word = "as long as it is needed" if hire else "dropped since the plan was kept"
    lane = names.get(other.lane, "")
    return WeekRow("hire" if hire else "dropped", other.name, "", when, lane, word)


def wait_row(wait: Wait) -> WeekRow:
    word = "carries the date" if wait.carries else ""
    said = f"waiting {wording.wait_length(wait)}"
    return WeekRow("wait", wait.name, "", wording.wait_days(wait), said, word)


def flag_row(flag: Flag) -> WeekRow:
    kind = "public" if flag.public else "flag"
    word = "the public date" if flag.public else "key date"
    return WeekRow(kind, flag.name, "", wording.day(day_of(flag.at)), "", word)
