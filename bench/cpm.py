"""Early and late dates of layered random networks: this engine against three references.

Run: python -m bench.cpm [most activities]

All sides start from the same lists, made ready outside the clock: the references from
durations and (before, after, kind, lag), the engine from the Network value of the same
activities and links. Timed are, from there to early start, early finish, late start and
late finish of every activity:

- networkx: the DiGraph, its topological order, and both passes in plain loops over it;
- rustworkx: the PyDiGraph, its topological order, and both passes in plain Python over it;
- arrays: lists of neighbours, Kahn's order and both passes, nothing but lists of integers;
- engine: `solve` and `times`: the same four dates as instants, with everything refused
  that must be refused, and the longest path;
- all read: `solve` and every field of every Dates: floats, drivers and reasons as well.

The references know no calendar, no clock change, no zone and no key date: round the clock
each of the four links is one number between two starts. They check nothing, so they tell
what the bare passes cost, not what a schedule costs.

"plain" is finish-to-start without lags on one calendar of five days a week with a year's
holidays. "full" is all four links (six in ten finish to start), one link in five with a lag
of any clock, on three calendars, one of them round the clock, through a time zone.
Calendars are made anew for each run, as on a page of the site, and their tables are laid
inside the clock; what a zone has learnt of its clock changes stays.
Best processor time of several runs that take turns in one process, garbage collector off.
Growth is for ten times as many activities.
"""

import gc
import random
import sys
from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from time import process_time

import networkx as nx
import rustworkx as rx

from schedules.engine import (
    Activity,
    Calendar,
    LagClock,
    Link,
    LinkKind,
    Network,
    instant,
    moment,
    solve,
    times,
)

RUNS = {100: 60, 1_000: 30, 10_000: 8, 100_000: 3}
DAY = 9 * 60
START = instant(moment(0).replace(year=2031, month=1, day=6, hour=8))
SPANS = ((480, 1020),)
HOLIDAYS = {date(2031, 1, 20) + timedelta(weeks=4 * n, days=n % 5): () for n in range(40)}
KINDS = [*LinkKind] + [LinkKind.FS] * 4
NAMES = ("networkx", "rustworkx", "arrays", "engine", "all read")

Tie = tuple[int, int, LinkKind, int]  # before, after, kind, lag
Columns = tuple[list[int], list[int], list[int], list[int]]


def calendars() -> dict[str, Calendar]:
    """Calendars that no table has been laid for."""
    every = (
        Calendar(key="crew", week=(SPANS,) * 5 + ((), ()), exceptions=HOLIDAYS),
        Calendar(key="shop", week=(((480, 720), (780, 1080)),) * 6 + ((),), exceptions=HOLIDAYS),
        Calendar.always("always"),
    )
    return {calendar.key: calendar for calendar in every}


def layered(size: int, chance: random.Random, *, full: bool) -> tuple[list[int], list[Tie]]:
    """Durations in minutes and two links an activity, over about sqrt(size) layers."""
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
    lags = [0] * 4 + [2 * DAY]
    ties = [
        (b, a, chance.choice(KINDS), chance.choice(lags)) if full else (b, a, LinkKind.FS, 0)
        for b, a in ordered
    ]
    return [chance.randint(1, 20) * DAY for _ in range(size)], ties


def as_network(
    minutes: list[int], ties: list[Tie], chance: random.Random, *, full: bool
) -> Network:
    """Seven in ten on the crew's calendar, and every lag on one of its four clocks, when full."""
    keys = ["crew"] * 7 + ["shop"] * 2 + ["always"] if full else ["crew"]
    clocks = [*LagClock] if full else [LagClock.WORK]
    return Network(
        activities=tuple(
            Activity(key=str(n), duration=length, calendar=chance.choice(keys))
            for n, length in enumerate(minutes)
        ),
        links=tuple(
            Link(
                key=str(n), before=str(b), after=str(a),
                kind=kind, lag=lag, clock=chance.choice(clocks),
            )
            for n, (b, a, kind, lag) in enumerate(ties)
        ),
        calendars=calendars(),
        zone="America/New_York" if full else None,
        project_calendar="crew",
    )  # fmt: skip


def weighted(minutes: list[int], ties: list[Tie]) -> Iterable[tuple[int, int, int]]:
    """Each link as the least distance between two starts."""
    for before, after, kind, lag in ties:
        step = lag
        if kind is LinkKind.FS or kind is LinkKind.FF:
            step += minutes[before]
        if kind is LinkKind.FF or kind is LinkKind.SF:
            step -= minutes[after]
        yield before, after, step


def with_networkx(minutes: list[int], ties: list[Tie]) -> Columns:
    """Graph, order and both passes round the clock."""
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from(range(len(minutes)))
    graph.add_weighted_edges_from(weighted(minutes, ties), weight="step")
    order = list(nx.topological_sort(graph))
    early = [0] * len(minutes)
    for node in order:
        steps = (early[before] + edge["step"] for before, edge in graph.pred[node].items())
        early[node] = max(0, max(steps, default=0))
    last = max(map(int.__add__, early, minutes))
    late = [0] * len(minutes)
    for node in reversed(order):
        steps = (late[after] - edge["step"] for after, edge in graph.succ[node].items())
        late[node] = min(last - minutes[node], min(steps, default=last))
    return columns(minutes, early, late)


def with_rustworkx(minutes: list[int], ties: list[Tie]) -> Columns:
    """The same with rustworkx."""
    graph: rx.PyDiGraph[int, int] = rx.PyDiGraph(multigraph=False)
    graph.add_nodes_from(range(len(minutes)))
    graph.add_edges_from(list(weighted(minutes, ties)))
    order = rx.topological_sort(graph)
    early = [0] * len(minutes)
    for node in order:
        steps = (early[before] + step for before, _, step in graph.in_edges(node))
        early[node] = max(0, max(steps, default=0))
    last = max(map(int.__add__, early, minutes))
    late = [0] * len(minutes)
    for node in reversed(order):
        steps = (late[after] - step for _, after, step in graph.out_edges(node))
        late[node] = min(last - minutes[node], min(steps, default=last))
    return columns(minutes, early, late)


def with_arrays(minutes: list[int], ties: list[Tie]) -> Columns:
    """The same with lists alone."""
    size = len(minutes)
    out: list[list[tuple[int, int]]] = [[] for _ in range(size)]
    waiting = [0] * size
    for before, after, step in weighted(minutes, ties):
        out[before].append((after, step))
        waiting[after] += 1
    order = [node for node in range(size) if not waiting[node]]
    early = [0] * size
    for node in order:
        at = early[node]
        for after, step in out[node]:
            if at + step > early[after]:
                early[after] = at + step
            waiting[after] -= 1
            if not waiting[after]:
                order.append(after)
    last = max(map(int.__add__, early, minutes))
    late = [last - length for length in minutes]
    for node in reversed(order):
        limit = late[node]
        for after, step in out[node]:
            if late[after] - step < limit:
                limit = late[after] - step
        late[node] = limit
    return columns(minutes, early, late)


def columns(minutes: list[int], early: list[int], late: list[int]) -> Columns:
    add = int.__add__
    return early, list(map(add, early, minutes)), late, list(map(add, late, minutes))


def contenders(minutes: list[int], ties: list[Tie]) -> tuple[Callable[[Network], object], ...]:
    """In the order of NAMES; the references do not look at the network."""
    assert with_networkx(minutes, ties) == with_rustworkx(minutes, ties)
    assert with_networkx(minutes, ties) == with_arrays(minutes, ties)
    return (
        lambda _: with_networkx(minutes, ties),
        lambda _: with_rustworkx(minutes, ties),
        lambda _: with_arrays(minutes, ties),
        lambda fresh: times(solve(fresh, data_date=START)),
        lambda fresh: [*solve(fresh, data_date=START).dates.values()],
    )


def best(
    network: Network, works: tuple[Callable[[Network], object], ...], runs: int
) -> list[float]:
    """Least milliseconds of each, taking turns, with the garbage collector off."""
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


def main(most: int) -> None:
    """Print milliseconds, the engine's ratio to each reference, and growth."""
    heads = [f"{name} ms" for name in NAMES] + [f"/ {name}" for name in NAMES[:3]]
    print("activities  links", *(f"{head:>12}" for head in heads), "growth")
    for full in (False, True):
        earlier: dict[int, float] = {}
        for size in (size for size in RUNS if size <= most):
            chance = random.Random(size)
            minutes, ties = layered(size, chance, full=full)
            network = as_network(minutes, ties, chance, full=full)
            taken = best(network, contenders(minutes, ties), RUNS[size])
            ours = earlier[size] = taken[3]
            figures = [f"{ms:>12.2f}" for ms in (*taken, *(ours / ms for ms in taken[:3]))]
            growth = f"{ours / earlier[size // 10]:.1f}" if size // 10 in earlier else "-"
            print(f"{size:>10}  {'full' if full else 'plain':>5}", *figures, f"{growth:>6}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else max(RUNS))
