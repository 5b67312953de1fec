"""From instants to pixels, and the dates along the top."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil

from schedules.timeline.marks import DAY, Chart, Zoom, day_of, instant
from schedules.timeline.shapes import Box, Label, Metrics, Tick
from schedules.timeline.text import width

PER_DAY = {Zoom.MONTHS: 4.2, Zoom.WEEKS: 13.4, Zoom.DAYS: 46.0}
MOST_PER_DAY = 60.0
WIDEST = 60_000
NEAR_DAYS = 42  # a date this far outside the plan still widens the drawing
EMPTY_DAYS = 84


@dataclass(frozen=True, slots=True)
class Scale:
    first: date
    per_day: float
    width: float

    @property
    def origin(self) -> int:
        return instant(self.first)

    @property
    def last(self) -> date:
        """The last day of which any part is drawn."""
        return self.first + timedelta(days=ceil(self.width / self.per_day) - 1)

    def x(self, at: int) -> float:
        return round((at - self.origin) / DAY * self.per_day, 1)

    def day(self, day: date) -> float:
        return self.x(instant(day))

    def number(self, day: date) -> int:
        """Of a day, the first one drawn being nought."""
        return (day - self.first).days

    def holds(self, at: int) -> bool:
        return 0 <= self.x(at) <= self.width


def scale_for(chart: Chart, zoom: Zoom, metrics: Metrics) -> Scale:
    first, last = extent(chart)
    days = (last - first).days + 1
    per_day = per_day_of(zoom, days, metrics)
    return Scale(first, per_day, float(max(metrics.width, round(days * per_day))))


def per_day_of(zoom: Zoom, days: int, metrics: Metrics) -> float:
    per_day = PER_DAY.get(zoom) or metrics.width / days
    return min(per_day, MOST_PER_DAY, WIDEST / days)


def by_closeness(chart: Chart, metrics: Metrics) -> tuple[Zoom, ...]:
    """From the farthest zoom to the closest, for a plan of this length."""
    first, last = extent(chart)
    days = (last - first).days + 1
    zooms = [Zoom.FIT, *PER_DAY]
    return tuple(sorted(zooms, key=lambda zoom: per_day_of(zoom, days, metrics)))


def extent(chart: Chart) -> tuple[date, date]:
    """First and last day drawn: the plan with some air, and the dates that are near it."""
    ends = [at for bar in chart.bars for at in (bar.earliest, bar.start, bar.finish, bar.latest)]
    ends += [at for wait in chart.waits for at in (wait.start, wait.finish)]
    ends += [at for other in chart.others for at in (other.start, other.finish)]
    ends += [at for bar in chart.bars if bar.kept for at in (bar.kept.start, bar.kept.finish)]
    ends += [flag.at for flag in chart.flags if flag.public]
    now = instant(chart.today)
    if not ends:
        return monday(chart.today), monday(chart.today) + timedelta(days=EMPTY_DAYS - 1)
    first, last = min(ends), max(ends)
    reach = NEAR_DAYS * DAY
    near = [a for a in [now, *(f.at for f in chart.flags)] if first - reach <= a <= last + reach]
    first, last = min([first, *near]), max([last, *near])
    air = max(DAY, (last - first) // 50)
    return monday(day_of(first)), day_of(last + air)


def monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def months(first: date, last: date) -> Iterator[date]:
    day = first.replace(day=1)
    while day <= last:
        yield day
        day = (day + timedelta(days=32)).replace(day=1)


def weeks(first: date, last: date) -> Iterator[date]:
    day = monday(first)
    while day <= last:
        yield day
        day += timedelta(days=7)


def days(first: date, last: date) -> Iterator[date]:
    for n in range((last - first).days + 1):
        yield first + timedelta(days=n)


def weekly(per_day: float, metrics: Metrics) -> bool:
    """Whether the days of Mondays fit beside each other."""
    return 7 * per_day >= 2.4 * metrics.small + 6


def long_names(day: date, by_week: bool) -> list[str]:
    if not by_week:
        return [f"{day.year}"]
    return [f"{day:%B %Y}", f"{day:%b %Y}", f"{day:%b}"]


def long_steps(scale: Scale, by_week: bool) -> list[date]:
    found = months(scale.first, scale.last)
    if scale.per_day >= 42:  # said again each week, for whoever sees a few weeks only
        return sorted({*found, *weeks(scale.first, scale.last)})
    return [d for d in found if by_week or d.month == 1 or d <= scale.first]


def short_steps(scale: Scale, by_week: bool) -> list[tuple[date, str]]:
    """The finer divisions and their names."""
    if scale.per_day >= 42:
        return [(d, f"{d:%a} {d.day}") for d in days(scale.first, scale.last)]
    if by_week:
        return [(d, f"{d.day}") for d in weeks(scale.first, scale.last)]
    every = 1 if scale.per_day >= 0.9 else 3
    found = months(scale.first, scale.last)
    return [(d, f"{d:%b}") for d in found if (d.month - 1) % every == 0]


def ruler(
    scale: Scale, top: float, metrics: Metrics, poles: Sequence[float] = ()
) -> tuple[list[Tick], list[Label]]:
    """Lines and dates: the long divisions on one line, the short ones below it."""
    ticks, labels = [], []
    below = top + metrics.row
    by_week = weekly(scale.per_day, metrics)
    long = long_steps(scale, by_week)
    ends = [*(scale.day(d) for d in long[1:]), scale.width]
    for day, end in zip(long, ends, strict=True):
        x = max(scale.day(day), 0.0)
        ticks.append(Tick(x, top, True))
        labels += long_label(long_names(day, by_week), x, end, top, metrics, poles)
    short = short_steps(scale, by_week)
    ends = [*(scale.day(d) for d, _ in short[1:]), scale.width]
    for (day, name), end in zip(short, ends, strict=True):
        x = scale.day(day)
        if x >= 0:
            ticks.append(Tick(x, below, False))
            labels += label(name, x, end, below, metrics)
    return [t for t in ticks if t.x < scale.width], labels


def long_label(
    names: list[str], x: float, end: float, top: float, metrics: Metrics, poles: Sequence[float]
) -> list[Label]:
    """The longest name that fits its division, beside a heavy pole rather than across it."""
    starts = [x, *sorted(pole for pole in poles if x < pole < end)]
    for name in names:
        for n, start in enumerate(starts):
            limit = starts[n + 1] if n + 1 < len(starts) else end
            found = label(name, start, limit, top, metrics, heavy=True)
            if found:
                return found
    return []


def label(
    name: str, x: float, end: float, top: float, metrics: Metrics, *, heavy: bool = False
) -> list[Label]:
    """A date at the left of its division, if it fits."""
    wide = width(name, metrics.small, heavy=heavy)
    if x + 4 + wide + 2 > end:
        return []
    box = Box(x + 4, top + 2, x + 4 + wide, top + metrics.row)
    foot = round(top + metrics.row - 5, 1)
    return [Label(name, round(x + 4, 1), foot, "start", "long" if heavy else "short", box)]


def bands(scale: Scale, chart: Chart) -> list[tuple[float, float, str]]:
    """Runs of days without work; weekends only where they are wide enough to be seen."""
    shown = [c for c in chart.closed if scale.first <= c.day <= scale.last]
    if scale.per_day < 2.5:
        return []
    runs: list[list[tuple[date, str]]] = []
    for closed in sorted(shown, key=lambda c: c.day):
        follows = runs and runs[-1][-1] == (closed.day - timedelta(days=1), closed.why)
        if follows:
            runs[-1].append((closed.day, closed.why))
        else:
            runs.append([(closed.day, closed.why)])
    found = []
    for run in runs:
        x = scale.day(run[0][0])
        end = min(scale.day(run[-1][0] + timedelta(days=1)), scale.width)
        found.append((x, round(end - x, 1), run[0][1]))
    return found
