"""Early and late dates of layered random networks: this engine against networkx.

Run: python -m bench.cpm

Both sides start from finished input objects (a Network here, plain lists there) and
end with early and late start and finish of every activity. Ours runs on three
working calendars, with work and elapsed lags, and also gives floats and reasons;
networkx runs on bare integers. Median of several runs, garbage collector off.
"""

import gc
import random
from collections.abc import Callable
from itertools import pairwise
from statistics import median
from time import perf_counter

import networkx as nx

from schedules.engine import Activity, Calendar, LagClock, Link, Network, instant, moment, solve

SIZES = (100, 1_000, 10_000)
RUNS = {100: 41, 1_000: 15, 10_000: 5}
DAY = 9 * 60
START = instant(moment(0).replace(year=2031, month=1, day=6, hour=8))
SPANS = ((480, 1020),)
CALENDARS = {
    "crew": Calendar(key="crew", week=(SPANS,) * 5 + ((), ())),
    "shop": Calendar(key="shop", week=(((480, 720), (780, 1080)),) * 6 + ((),)),
    "always": Calendar.always("always"),
}
Pairs = list[tuple[int, int]]


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
        calendars=CALENDARS,
        zone="America/New_York" if mixed else None,
        project_calendar="crew",
    )


def with_networkx(days: list[int], pairs: Pairs) -> tuple[dict[int, int], dict[int, int]]:
    """The same two passes on a networkx graph; early finishes and late starts."""
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from(range(len(days)))
    graph.add_edges_from(pairs)
    order = list(nx.topological_sort(graph))
    start: dict[int, int] = {}
    finish: dict[int, int] = {}
    for node in order:
        start[node] = max((finish[before] for before in graph.predecessors(node)), default=0)
        finish[node] = start[node] + days[node]
    last = max(finish.values())
    late_start: dict[int, int] = {}
    late_finish: dict[int, int] = {}
    for node in reversed(order):
        late_finish[node] = min((late_start[n] for n in graph.successors(node)), default=last)
        late_start[node] = late_finish[node] - days[node]
    return finish, late_start


def seconds(work: Callable[[], object], runs: int) -> float:
    """Median time of a call with the garbage collector off."""
    taken = []
    for _ in range(runs):
        gc.collect()
        gc.disable()
        began = perf_counter()
        work()
        taken.append(perf_counter() - began)
        gc.enable()
    return median(taken)


def main() -> None:
    """Print seconds, ratio and growth for each size."""
    print("activities  calendars   engine ms  networkx ms  ratio  growth engine  growth networkx")
    for mixed in (False, True):
        before = (0.0, 0.0)
        for size in SIZES:
            chance = random.Random(size)
            days, pairs = layered(size, chance)
            network = as_network(days, pairs, chance, mixed=mixed)
            ours = seconds(lambda n=network: solve(n, data_date=START), RUNS[size])
            theirs = seconds(lambda d=days, p=pairs: with_networkx(d, p), RUNS[size])
            growth = [
                f"{now / was:.1f}" if was else "-"
                for now, was in zip((ours, theirs), before, strict=True)
            ]
            name = "three" if mixed else "one"
            print(
                f"{size:>10}  {name:>9}  {ours * 1e3:>10.2f}  {theirs * 1e3:>11.2f}"
                f"  {ours / theirs:>5.2f}  {growth[0]:>13}  {growth[1]:>15}"
            )
            before = (ours, theirs)


if __name__ == "__main__":
    main()
