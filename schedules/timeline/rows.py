"""From the rows of a project, with their stored plan, to the chart that is drawn."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from functools import lru_cache, partial

from projects.paper import rules_in_place
from schedules import engine
from schedules.holidays import UnknownCountry, holidays_between
from schedules.models import Lane, PlanOfRecord, Task
from schedules.plan import ALWAYS, Rows
from schedules.timeline.drawing import Timeline
from schedules.timeline.hired import hires_drawn
from schedules.timeline.kept import GONE, GONE_NAME, Record
from schedules.timeline.layout import lay_out, lay_out_pages
from schedules.timeline.maker import Maker, Times, flag, flag_at, works
from schedules.timeline.marks import (
    Bar,
    Chart,
    Closed,
    Dropped,
    Flag,
    Hire,
    LaneName,
    Placed,
    Zoom,
)
from schedules.timeline.shapes import PRINT, Metrics
from schedules.timeline.ties import ties_of

TALL = 600.0  # of a page on paper; with WIDE it fits a landscape sheet of US letter and of A4
WIDE = replace(PRINT, width=1000)


def draw(
    rows: Rows,
    *,
    zoom: str = "fit",
    placed: str = "earliest",
    against: str = "nothing",
    record: PlanOfRecord | None = None,
    for_print: bool = False,
    url: Callable[[Task], str] | None = None,
    plan: engine.Plan | None = None,
    metrics: Metrics | None = None,
) -> Timeline:
    """The lanes timeline of a project: its stored plan, or ``plan`` where one is tried.

    Words it does not know for ``zoom`` and ``placed`` (they come from the address) mean the
    usual ones. ``record`` is the plan of record that may be laid under it, and is when
    ``against`` says so. ``url`` gives the address of a task.
    """
    way = Placed(placed) if placed in set(Placed) else Placed.EARLIEST
    scale = Zoom(zoom) if zoom in set(Zoom) else Zoom.FIT
    chart = chart_of(
        rows,
        placed=way,
        url=url or task_anchor,
        plan=plan,
        record=record,
        against=against == "record",
    )
    drawing = lay_out(chart, zoom=scale, placed=way, for_print=for_print, metrics=metrics)
    if for_print:
        return replace(drawing, style=rules_in_place("timeline-marks.css"))
    if scale is Zoom.PAPER:
        return replace(drawing, pages=lay_out_pages(chart, tall=TALL, metrics=WIDE, placed=way))
    return drawing


def draw_pages(
    rows: Rows,
    *,
    placed: str = "earliest",
    tall: float = TALL,
    metrics: Metrics = PRINT,
    plan: engine.Plan | None = None,
    record: PlanOfRecord | None = None,
) -> tuple[Timeline, ...]:
    """The same drawing for paper: pages of whole lanes, at most ``tall`` CSS pixels high.

    With ``record``, each task also where that plan of record had it.
    """
    way = Placed(placed) if placed in set(Placed) else Placed.EARLIEST
    chart = chart_of(rows, placed=way, plan=plan, record=record, against=record is not None)
    pages = lay_out_pages(chart, tall=tall, metrics=metrics, placed=way)
    return tuple(replace(page, style=rules_in_place("timeline-marks.css")) for page in pages)


def task_anchor(task: Task) -> str:
    return f"#task-{task.pk}"


def chart_of(
    rows: Rows,
    *,
    placed: Placed = Placed.EARLIEST,
    url: Callable[[Task], str] = task_anchor,
    plan: engine.Plan | None = None,
    record: PlanOfRecord | None = None,
    against: bool = False,
) -> Chart:
    times = {t.pk: found for t in rows.tasks if (found := times_of(t, plan))}
    tasks = [t for t in rows.tasks if t.pk in times]
    kept = Record.of(record) if record and against else None
    maker = Maker(
        rows,
        times,
        placed,
        url,
        chain_float(rows, times),
        ties_of(rows.links, times),
        kept,
    )
    bars = tuple(maker.bar(task) for task in tasks)
    hired = tuple(hires_drawn(rows, plan, maker))
    dropped = kept.dropped(rows.tasks) if kept else ()
    return Chart(
        today=rows.today,
        lanes=tuple(lanes_of(rows, hired, dropped)),
        bars=bars,
        waits=tuple(maker.waits()),
        flags=(*(flag(k) for k in rows.key_dates), *kept_flag(rows, kept)),
        joins=tuple(maker.joins()),
        closed=tuple(closed_days(rows, bars)),
        hires=tuple(hire for _, hire in hired),
        dropped=dropped,
        works={
            key: partial(works, rows.calendars[key])
            for key in sorted({bar.calendar for bar in bars if bar.calendar})
        },
        record=record.letter if record else "",
        against=kept is not None,
    )


def kept_flag(rows: Rows, kept: Record | None) -> tuple[Flag, ...]:
    public = rows.public
    return kept.flag(public.pk, public.name, public.on) if kept and public else ()


def times_of(task: Task, plan: engine.Plan | None) -> Times | None:
    if plan is None:
        return stored(task)
    found = plan.dates.get(str(task.pk))
    if found is None:
        return None
    place = plan.chain.index(str(task.pk)) if str(task.pk) in plan.chain else None
    return Times(
        found.early_start,
        found.early_finish,
        found.late_start,
        found.late_finish,
        found.total_float,
        found.to_end,
        place,
    )


def stored(task: Task) -> Times | None:
    """None for a task that no plan has placed yet."""
    start, finish = task.early_start, task.early_finish
    if start is None or finish is None:
        return None
    return Times(
        start,
        finish,
        start if task.late_start is None else task.late_start,
        finish if task.late_finish is None else task.late_finish,
        task.total_float or 0,
        task.to_end,
        task.chain_position,
    )


def chain_float(rows: Rows, times: Mapping[int, Times]) -> int:
    waiting = [times[t.pk] for t in rows.tasks if t.pk in times and not t.finished_on]
    held = [t.total_float for t in waiting if t.chain_position is not None]
    return max(0, min(held, default=0))


def lanes_of(
    rows: Rows, hired: Sequence[tuple[Lane, Hire]], dropped: Sequence[Dropped]
) -> list[LaneName]:
    """The lanes that hold anything, in their order; last, what no lane holds any more."""
    lanes = {task.lane_id: task.lane for task in rows.tasks}
    lanes |= {lane.pk: lane for lane, _ in hired}
    ordered = sorted(lanes.values(), key=lambda lane: (lane.position, lane.pk))
    found = [LaneName(key=str(lane.pk), name=lane.name) for lane in ordered]
    gone = any(other.lane == GONE for other in dropped)
    return [*found, LaneName(key=GONE, name=GONE_NAME)] if gone else found


def closed_days(rows: Rows, bars: tuple[Bar, ...]) -> Iterator[Closed]:
    """Days on which the project's own calendar does not work, around all that is drawn."""
    calendar = rows.calendars.get(rows.default)
    if calendar is None or rows.default == ALWAYS:
        return
    ends = [at for bar in bars for at in (bar.earliest, bar.latest)]
    ends += [engine.instant(rows.today), *(flag_at(k) for k in rows.key_dates)]
    first = engine.day_that_begins(min(ends)) - timedelta(days=14)
    last = engine.day_that_begins(max(ends)) + timedelta(days=366)
    for n in range((last - first).days):
        day = first + timedelta(days=n)
        if not calendar.exceptions.get(day, calendar.week[day.weekday()]):
            off = day in calendar.exceptions and calendar.week[day.weekday()]
            yield Closed(day=day, why=why_closed(rows.project.country, day) if off else "")


def why_closed(country: str, day: date) -> str:
    return holidays_of(country, day.year).get(day, "Day off")


@lru_cache(maxsize=64)
def holidays_of(country: str, year: int) -> dict[date, str]:
    try:
        return holidays_between(country, date(year, 1, 1), date(year, 12, 31))
    except UnknownCountry:
        return {}
