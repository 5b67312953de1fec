"""Early and late dates of layered random networks: this engine against networkx.

Run: python -m bench.cpm

Both sides start from the same Network. networkx builds its graph and makes both
passes round the clock: early finish and late start of every activity. Ours does the
same on one and on three working calendars (one lag in twenty elapsed, through a time
zone), and gives all dates as instants, both floats and the reasons as well.
Median processor time of several runs, garbage collector off.
"""

import gc
import random
from collections.abc import Callable
from itertools import pairwise
from statistics import median
from time import process_time

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


def with_networkx(network: Network) -> tuple[dict[str, int], dict[str, int]]:
    """Graph and both passes in networkx, round the clock; early finishes and late starts."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    for activity in network.activities:
        graph.add_node(activity.key, minutes=activity.duration)
    for link in network.links:
        graph.add_edge(link.before, link.after, lag=link.lag)
    order = list(nx.topological_sort(graph))
    minutes, before, after = graph.nodes, graph.pred, graph.succ
    finish: dict[str, int] = {}
    for key in order:
        ready = (finish[other] + edge["lag"] for other, edge in before[key].items())
        finish[key] = max(ready, default=0) + minutes[key]["minutes"]
    last = max(finish.values())
    start: dict[str, int] = {}
    for key in reversed(order):
        limits = (start[other] - edge["lag"] for other, edge in after[key].items())
        start[key] = min(limits, default=last) - minutes[key]["minutes"]
    return finish, start


def seconds(work: Callable[[], object], runs: int) -> float:
    """Median time of a call with the garbage collector off."""
    taken = []
    for _ in range(runs):
        gc.collect()
        gc.disable()
        began = process_time()
        work()
        taken.append(process_time() - began)
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
            theirs = seconds(lambda n=network: with_networkx(n), RUNS[size])
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
