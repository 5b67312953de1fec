"""Early and late dates of layered random networks: this engine against networkx.

Run: python -m bench.cpm

Both sides start from the same lists of tuples, made ready outside the clock: networkx
from (name, minutes) and (before, after, lag), the engine from the Network value of the
same activities and links. Timed are

- networkx: the DiGraph, its topological order, and both passes in plain loops over it,
  for early start, early finish, late start and late finish in minutes round the clock;
  it knows no calendar, no clock change and no time zone;
- engine: `solve` and `times`: the same four dates of every activity as instants, with
  everything refused that must be refused, and the longest path;
- engine, all read: `solve` and every field of every Dates: floats and drivers as well.

"one" is one calendar of five days a week with a year's holidays. "three" is three
calendars, one of them round the clock, with one lag in twenty elapsed, through a time
zone. Calendars are made anew for each run, as on a page of the site, and their tables
are laid inside the clock; what a zone has learnt of its clock changes stays.
Best processor time of several runs that take turns in one process, garbage collector
off. Growth is for ten times as many activities.
"""

import gc
import random
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from time import process_time

import networkx as nx

from schedules.engine import (
    Activity,
    Calendar,
    LagClock,
    Link,
    Network,
    instant,
    moment,
    solve,
    times,
)

SIZES = (30, 100, 1_000, 10_000)
RUNS = {30: 60, 100: 60, 1_000: 30, 10_000: 10}
DAY = 9 * 60
START = instant(moment(0).replace(year=2031, month=1, day=6, hour=8))
SPANS = ((480, 1020),)
HOLIDAYS = {date(2031, 1, 20) + timedelta(weeks=4 * n, days=n % 5): () for n in range(40)}
Pairs = list[tuple[int, int]]
Times = dict[str, tuple[int, int, int, int]]


def calendars() -> dict[str, Calendar]:
    """Calendars that no table has been laid for."""
    every = (
        Calendar(key="crew", week=(SPANS,) * 5 + ((), ()), exceptions=HOLIDAYS),
        Calendar(key="shop", week=(((480, 720), (780, 1080)),) * 6 + ((),), exceptions=HOLIDAYS),
        Calendar.always("always"),
    )
    return {calendar.key: calendar for calendar in every}


def layered(size: int, chance: random.Random) -> tuple[list[int], Pairs]:
    """Durations in days and two links an activity, over about sqrt(size) layers."""
    wide = round(size**0.5)
    names = list(range(size))
    chance.shuffle(names)
    layers = [names[first : first + wide] for first in range(0, size, wide)]
    pairs = {
        (chance.choice(before), after)
        for before, layer in pairwise(layers)
        for after in layer
        for _ in range(2)
    }
    ordered = sorted(pairs)
    chance.shuffle(ordered)
    return [chance.randint(1, 20) for _ in range(size)], ordered


def as_network(days: list[int], pairs: Pairs, chance: random.Random, *, mixed: bool) -> Network:
    """Seven in ten on the crew's calendar; one lag in twenty elapsed, when mixed."""
    keys = ["crew"] * 7 + ["shop"] * 2 + ["always"] if mixed else ["crew"]
    elapsed = LagClock.ELAPSED
    return Network(
        activities=tuple(
            Activity(key=str(n), duration=d * DAY, calendar=chance.choice(keys))
            for n, d in enumerate(days)
        ),
        links=tuple(
            Link(key=str(n), before=str(b), after=str(a), lag=2880, clock=elapsed)
            if mixed and not n % 20
            else Link(key=str(n), before=str(b), after=str(a))
            for n, (b, a) in enumerate(pairs)
        ),
        calendars=calendars(),
        zone="America/New_York" if mixed else None,
        project_calendar="crew",
    )


def with_networkx(nodes: list[tuple[str, int]], edges: list[tuple[str, str, int]]) -> Times:
    """Graph, order and both passes round the clock."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    for key, minutes in nodes:
        graph.add_node(key, minutes=minutes)
    graph.add_weighted_edges_from(edges, weight="lag")
    order = list(nx.topological_sort(graph))
    length, before, after = graph.nodes, graph.pred, graph.succ
    starts: dict[str, int] = {}
    finishes: dict[str, int] = {}
    for key in order:
        ready = (finishes[other] + edge["lag"] for other, edge in before[key].items())
        starts[key] = max(ready, default=0)
        finishes[key] = starts[key] + length[key]["minutes"]
    last = max(finishes.values())
    late_starts: dict[str, int] = {}
    late_finishes: dict[str, int] = {}
    for key in reversed(order):
        limits = (late_starts[other] - edge["lag"] for other, edge in after[key].items())
        late_finishes[key] = min(limits, default=last)
        late_starts[key] = late_finishes[key] - length[key]["minutes"]
    return {
        key: (starts[key], finishes[key], late_starts[key], late_finishes[key]) for key in order
    }


def contenders(network: Network) -> tuple[Callable[[Network], object], ...]:
    """networkx, the four dates, and everything."""
    nodes = [(activity.key, activity.duration) for activity in network.activities]
    edges = [(link.before, link.after, link.lag) for link in network.links]
    return (
        lambda _: with_networkx(nodes, edges),
        lambda fresh: times(solve(fresh, data_date=START)),
        lambda fresh: [*solve(fresh, data_date=START).dates.values()],
    )


def best(network: Network, runs: int) -> list[float]:
    """Least milliseconds of each, taking turns, with the garbage collector off."""
    works = contenders(network)
    used = {activity.calendar for activity in network.activities}
    taken = [float("inf")] * len(works)
    for _ in range(runs):
        for number, work in enumerate(works):
            made = calendars()
            fresh = replace(network, calendars={key: made[key] for key in used})
            gc.collect()
            gc.disable()
            began = process_time()
            work(fresh)
            taken[number] = min(taken[number], (process_time() - began) * 1e3)
            gc.enable()
    return taken


def main() -> None:
    """Print milliseconds, ratio and growth for each size."""
    print("activities  calendars  networkx ms  engine ms  ratio  growth  all read ms  ratio")
    for mixed in (False, True):
        earlier: dict[int, float] = {}
        for size in SIZES:
            chance = random.Random(size)
            network = as_network(*layered(size, chance), chance, mixed=mixed)
            theirs, ours, read = best(network, RUNS[size])
            was = earlier.get(size // 10)
            earlier[size] = ours
            print(
                f"{size:>10}  {'three' if mixed else 'one':>9}  {theirs:>11.2f}  {ours:>9.2f}"
                f"  {ours / theirs:>5.2f}  {f'{ours / was:.1f}' if was else '-':>6}"
                f"  {read:>11.2f}  {read / theirs:>5.2f}"
            )


if __name__ == "__main__":
    main()
