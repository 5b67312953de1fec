"""The chance of a date: all draws at once against one draw after another in plain Python.

Run: python -m bench.chance

120 tasks in layers with two links each, three calendars (one round the clock), one lag in
twenty elapsed through a time zone, one task in ten outdoors in weather that is wet on three
days in ten, every task with three points, and a milestone that all of them lead to.

- loop: for every draw its durations by `random.betavariate`, its wet days by
  `random.random`, and a forward pass over lists in an order made ready outside the clock.
  Working time is looked up in the engine's own tables (one bisect each), elapsed lags in
  its zone; outdoor work goes day by day. It traces nothing. Timed on 400 draws and scaled
  to 10,000: each draw costs the same.
- at once: `simulate` with 10,000 draws, first with all durations drawn anew ("cold"), then
  with those that are kept from the time before ("warm"), as on a page of the site when the
  plan changes. Everything is inside the clock: the network's checks, calendars as arrays,
  weather, forward pass, and in how many draws each task carries the date.

Both place work by the same rules; the means of their finishes must agree within five
standard errors, else the bench stops. Best of three runs, processor time.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, timedelta
from statistics import fmean, stdev
from time import process_time

from schedules.engine import Activity, Calendar, LagClock, Link, Network, Zone, instant, moment
from schedules.engine.chance import Spread, simulate
from schedules.engine.chance.spread import betas, shape

TASKS, WIDE, DRAWS, LOOPED, RUNS = 120, 11, 10_000, 400, 3
DAY = 9 * 60
START = instant(datetime(2031, 1, 6, 8))
SPANS = ((480, 1020),)
KEYS = ["crew"] * 7 + ["shop"] * 2 + ["always"]
WET_DAYS = [9.3, 8.4, 9.3, 9, 9.3, 9, 9.3, 9.3, 9, 9.3, 9, 9.3]
WET = 0.3
END = "end"


def calendars() -> dict[str, Calendar]:
    """Calendars that no table has been laid for."""
    closed = {date(2031, 1, 20) + timedelta(weeks=4 * n, days=n % 5): () for n in range(40)}
    every = (
        Calendar(key="crew", week=(SPANS,) * 5 + ((), ()), exceptions=closed),
        Calendar(key="shop", week=(((480, 720), (780, 1080)),) * 6 + ((),), exceptions=closed),
        Calendar.always("always"),
    )
    return {calendar.key: calendar for calendar in every}


def problem(seed: int = 120) -> tuple[Network, dict[str, Spread]]:
    """The network and what may come of each of its tasks."""
    chance = random.Random(seed)
    tasks = tuple(
        Activity(key=str(n), duration=chance.randint(1, 20) * DAY, calendar=chance.choice(KEYS))
        for n in range(TASKS)
    )
    pairs = {(layer_before(n, chance), n) for n in range(WIDE, TASKS) for _ in range(2)}
    links = [link(before, after, lag=not n % 20) for n, (before, after) in enumerate(sorted(pairs))]
    ties = [Link(key=f"to-{n}", before=str(n), after=END) for n in range(TASKS)]
    network = Network(
        activities=(*tasks, Activity(key=END, duration=0, calendar="always")),
        links=(*links, *ties),
        calendars=calendars(),
        end=END,
        zone="America/New_York",
        project_calendar="crew",
    )
    return network, {task.key: spread(task) for task in tasks}


def layer_before(n: int, chance: random.Random) -> int:
    return (n // WIDE - 1) * WIDE + chance.randrange(WIDE)


def link(before: int, after: int, *, lag: bool) -> Link:
    key, first, second = f"{before}-{after}", str(before), str(after)
    if not lag:
        return Link(key=key, before=first, after=second)
    return Link(key=key, before=first, after=second, lag=2880, clock=LagClock.ELAPSED)


def spread(task: Activity) -> Spread:
    low, high = task.duration * 7 // 10, task.duration * 9 // 5 + DAY
    return Spread(low=low, high=high, outdoor=not int(task.key) % 10)


class Loop:
    """One draw after another."""

    def __init__(self, network: Network, spreads: dict[str, Spread]) -> None:
        self.zone, self.spreads = Zone(network.zone), spreads
        self.calendar = {a.key: network.calendars[a.calendar] for a in network.activities}
        self.line = {key: calendar.line(START) for key, calendar in self.calendar.items()}
        self.into: dict[str, list[Link]] = {a.key: [] for a in network.activities}
        for link in network.links:
            self.into[link.after].append(link)
        self.order = in_order(network, self.into)
        self.shape = {
            a.key: (*shape(s.low, a.duration, s.high), s.low, s.high - s.low)
            for a in network.activities
            if (s := spreads.get(a.key))
        }

    def draw(self, chance: random.Random) -> int:
        """When all is ready, in one draw."""
        finish: dict[str, int] = {}
        wet: dict[int, bool] = {}
        for key in self.order:
            ready = START
            for link in self.into[key]:
                at = finish[link.before]
                if link.lag and link.clock is LagClock.ELAPSED:
                    at = self.zone.after(at, link.lag)
                ready = max(ready, at)
            if key == END:
                return ready
            alpha, beta, low, width = self.shape[key]
            minutes = max(1, round(low + width * chance.betavariate(alpha, beta)))
            if self.spreads[key].outdoor:
                finish[key] = self.outdoors(key, ready, minutes, wet, chance)
            else:
                finish[key] = self.line[key].place(ready, minutes)[2]
        raise AssertionError("The network has no end.")

    def outdoors(
        self, key: str, at: int, minutes: int, wet: dict[int, bool], chance: random.Random
    ) -> int:
        calendar, day = self.calendar[key], at // 1440
        while True:
            if day not in wet:
                wet[day] = chance.random() < WET
            date = moment(day * 1440).date()
            spans = calendar.exceptions.get(date, calendar.week[date.weekday()])
            for opens, closes in () if wet[day] else spans:
                begin = max(at, day * 1440 + opens)
                worked = max(0, day * 1440 + closes - begin)
                if worked >= minutes:
                    return begin + minutes
                minutes -= worked
            day += 1


def in_order(network: Network, into: dict[str, list[Link]]) -> list[str]:
    done: dict[str, None] = {}
    while len(done) < len(network.activities):
        for activity in network.activities:
            if all(link.before in done for link in into[activity.key]):
                done[activity.key] = None
    return list(done)


def best(work: Callable[[], object]) -> float:
    """Least seconds of several runs."""
    taken = []
    for _ in range(RUNS):
        began = process_time()
        work()
        taken.append(process_time() - began)
    return min(taken)


def looped(loop: Loop) -> list[int]:
    chance = random.Random(1)
    return [loop.draw(chance) for _ in range(LOOPED)]


def at_once(network: Network, spreads: dict[str, Spread], *, cold: bool) -> object:
    if cold:
        betas.cache_clear()
    made = calendars()
    fresh = replace(network, calendars={key: made[key] for key in network.calendars})
    return simulate(fresh, spreads, data_date=START, wet_days=WET_DAYS, draws=DRAWS)


def main() -> None:
    """Print seconds and ratios, once both are known to agree."""
    network, spreads = problem()
    loop = Loop(network, spreads)
    finishes = looped(loop)
    outcome = simulate(network, spreads, data_date=START, wet_days=WET_DAYS, draws=DRAWS)
    assert outcome is not None
    off = abs(fmean(finishes) - outcome.ready.mean()) / (stdev(finishes) / LOOPED**0.5)
    assert off < 5, f"The two disagree by {off:.1f} standard errors."
    slow = best(lambda: looped(loop)) * DRAWS / LOOPED
    cold = best(lambda: at_once(network, spreads, cold=True))
    warm = best(lambda: at_once(network, spreads, cold=False))
    print(f"{TASKS} tasks, {DRAWS} draws; the means differ by {off:.1f} standard errors")
    print(f"one draw after another  {slow * 1e3:10.0f} ms")
    print(f"at once, cold           {cold * 1e3:10.0f} ms   {slow / cold:6.0f} times faster")
    print(f"at once, warm           {warm * 1e3:10.0f} ms   {slow / warm:6.0f} times faster")


if __name__ == "__main__":
    main()
