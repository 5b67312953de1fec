"""How long each worksheet takes, and how good a cut list of 200 pieces is at once.

Run: python -m bench.sheets [seeds]

Each sheet is worked out from typed text with what it starts with and with its published example;
the median of several runs, in time of the processor, which is to stay under 50 ms. The reference,
measured in the same run, is reading the same text without working anything out: the ratio says how
much of the time is the sheet’s own. Solvers are loaded beforehand, as the server does.

The cut lists are 200 pieces of 10 to 90 inches (200, 40 or 12 different lengths) from bars of 8,
10, 12, 20 and 24 ft with a saw cut of 1/8 in. Every plan is held against the checker before it
counts. Gap is (cost - least) / least, where the least is proven: by whole bars covering what the
pieces are worth in the linear programme (or their length), so that it stands above the bound of
the programme itself, which is given beside it.
"""

from __future__ import annotations

import random
import sys
from functools import partial
from importlib import import_module
from statistics import median
from time import perf_counter, process_time
from typing import Any

from worksheets.engine.cutting import Problem, at_once, faults, lower_bound, problem, search
from worksheets.engine.sheet import Sheet
from worksheets.sheets import sheets

SOLVERS = ("ortools.linear_solver.pywraplp", "ortools.sat.python.cp_model")
LIMIT = 50.0  # ms
TIMES = 7
INCH = 25_400_000  # nanometres
BARS = ((8, 2050), (10, 2510), (12, 2990), (20, 4600), (24, 5700))  # feet, cents
PIECES = 200


def timed(what: Any) -> float:
    """Median of several runs, in ms of the processor."""
    took = []
    for _ in range(TIMES):
        begun = process_time()
        what()
        took.append(1000 * (process_time() - begun))
    return median(took)


def one_sheet(sheet: Sheet) -> float:
    """Prints a line; returns the slower of the two."""
    line, slowest = f"{sheet.key:14}", 0.0
    for typed in ({}, dict(sheet.recipe.typed)):
        sheet.work(typed)
        took, reading = timed(partial(sheet.work, typed)), timed(partial(sheet.read, typed))
        slowest = max(slowest, took)
        line += f" {took:8.1f} {took / reading:8.1f}"
    print(line + ("   over 50 ms" if slowest > LIMIT else ""), flush=True)
    return slowest


def random_bars(seed: int, kinds: int) -> Problem:
    rng = random.Random(f"{seed} {kinds}")
    sizes = [rng.randint(10 * 16, 90 * 16) * INCH // 16 for _ in range(kinds)]
    pieces = [(sizes[n % kinds], 1) for n in range(PIECES)]
    stocks = [(12 * feet * INCH, cents) for feet, cents in BARS]
    return problem(stocks, pieces, kerf=INCH // 8, useful=24 * INCH)


def one_list(seed: int, kinds: int) -> tuple[float, float, float]:
    """Prints a line; returns the ms of the first answer, and the gaps of both."""
    given = random_bars(seed, kinds)
    took = timed(partial(at_once, given))
    first = at_once(given)
    begun = perf_counter()
    last = search(given)
    seconds = perf_counter() - begun
    assert not faults(given, first.plan) and not faults(given, last.plan)
    relaxed = float(lower_bound(given).least)
    first_gap, last_gap = ((cost - last.least) / last.least for cost in (first.cost, last.cost))
    print(f"{kinds:6} {seed:4} {took:8.0f} {100 * first_gap:9.2f} % {seconds:9.1f} "
          f"{100 * last_gap:9.3f} % {100 * (last.cost / relaxed - 1):9.3f} % "
          f"{'proven best' if last.proven else ''}", flush=True)  # fmt: skip
    return took, first_gap, last_gap


def main(seeds: int) -> None:
    for name in SOLVERS:
        import_module(name)
    print("worksheet       start ms  x read  example ms  x read")
    slow = [sheet.key for sheet in sheets().values() if one_sheet(sheet) > LIMIT]
    print(f"over {LIMIT:g} ms: {', '.join(slow) or 'none'}\n")
    print("kinds  seed  first ms  first gap  search s  gap left  over the programme")
    lists = [one_list(seed, kinds) for kinds in (200, 40, 12) for seed in range(seeds)]
    times, firsts, lasts = zip(*lists, strict=True)
    print(f"first answer: median {median(times):.0f} ms, at most {max(times):.0f} ms, gap at most "
          f"{100 * max(firsts):.2f} %; after the search at most {100 * max(lasts):.3f} %, proven "
          f"best {sum(gap == 0 for gap in lasts)} of {len(lasts)}")  # fmt: skip


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 4)
