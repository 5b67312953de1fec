"""The link inequalities, minute by minute: an answer found by trying every start.

Nothing here is shared with the engine: working minutes are a plain list, a candidate
start is tried against the words of the definition, and the passes are a repeated
search until nothing moves.
"""

from bisect import bisect_left, bisect_right
from datetime import timedelta
from functools import cache

from schedules.engine import Activity, Calendar, Link, LinkKind, Network, moment

from .strategies import CALENDARS, START

Place = tuple[int, int]  # start, finish
FIRST, LAST = START // 1440 - 20, START // 1440 + 160


@cache
def minutes(key: str) -> list[int]:
    """The start of every working minute of a calendar."""
    calendar = CALENDARS[key]
    return [at for day in range(FIRST, LAST) for at in of_day(calendar, day)]


def of_day(calendar: Calendar, day: int) -> list[int]:
    """The working minutes of a day."""
    date = (moment(0) + timedelta(days=day)).date()
    spans = calendar.exceptions.get(date, calendar.week[date.weekday()])
    return [day * 1440 + minute for begin, end in spans for minute in range(begin, end)]


def worked(key: str, at: int) -> int:
    """Working minutes before an instant."""
    return at if key == "always" else bisect_left(minutes(key), at)


def candidates(activity: Activity) -> list[Place]:
    """All starts and finishes that the calendar allows, in order."""
    return places(activity.calendar, activity.duration, activity.finish_milestone)


@cache
def places(key: str, duration: int, finish_milestone: bool) -> list[Place]:
    """The same by calendar, duration and kind of milestone."""
    every = minutes(key)
    if duration:
        return [(a, b + 1) for a, b in zip(every, every[duration - 1 :], strict=False)]
    points = {*every, *(at + 1 for at in every)} if finish_milestone else set(every)
    return [(at, at) for at in sorted(points)]


def holds(link: Link, project: str, before: Activity, after: Activity, b: Place, a: Place) -> bool:
    """Whether a link is kept by two placed activities."""
    source = b[link.kind in (LinkKind.FS, LinkKind.FF)]
    target = a[link.kind in (LinkKind.FF, LinkKind.SF)]
    counted = {"work": before.calendar, "after": after.calendar, "project": project}
    if link.lag and link.clock in counted:
        key = counted[link.clock]
        return worked(key, target) >= worked(key, source) + link.lag
    if link.kind is LinkKind.SF and not link.lag and after.duration:
        return worked(after.calendar, target) >= worked(after.calendar, source)
    return target >= source + link.lag


class Oracle:
    """Early and late placings of a network, by search."""

    def __init__(self, network: Network) -> None:
        self.links, self.project = network.links, network.project_calendar
        self.tasks = {a.key: a for a in network.activities}
        self.places = {a.key: candidates(a) for a in network.activities}

    def early(self) -> dict[str, Place]:
        """The least places from START on that keep every link."""
        found = {k: p[bisect_left(p, (START, START))] for k, p in self.places.items()}
        moved = True
        while moved:
            moved = False
            for key, place in found.items():
                ahead = self.places[key][bisect_left(self.places[key], place) :]
                least = next(p for p in ahead if self._fits(key, p, found))
                moved, found[key] = moved or least != place, least
        return found

    def late(self, last: int) -> dict[str, Place]:
        """The greatest places up to an instant that keep every link."""
        found = {key: self.upto(key, last)[-1] for key in self.places}
        moved = True
        while moved:
            moved = False
            for key, place in found.items():
                most = self.most(key, place, found)
                moved, found[key] = moved or most != place, most
        return found

    def upto(self, key: str, last: int) -> list[Place]:
        """All places of an activity that end by an instant."""
        return self.places[key][: bisect_right(self.places[key], last, key=lambda p: p[1])]

    def most(self, key: str, limit: Place, found: dict[str, Place]) -> Place:
        """The greatest place up to a limit that leaves all successors where they are."""
        back = reversed(self.upto(key, limit[1]))
        return next(p for p in back if self._leaves(key, p, found))

    def _fits(self, key: str, place: Place, found: dict[str, Place]) -> bool:
        links = (link for link in self.links if link.after == key)
        return all(self._holds(link, found[link.before], place) for link in links)

    def _leaves(self, key: str, place: Place, found: dict[str, Place]) -> bool:
        links = (link for link in self.links if link.before == key)
        return all(self._holds(link, place, found[link.after]) for link in links)

    def _holds(self, link: Link, before: Place, after: Place) -> bool:
        first, second = self.tasks[link.before], self.tasks[link.after]
        return holds(link, self.project, first, second, before, after)
