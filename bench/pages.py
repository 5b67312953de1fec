"""Server time and queries of every sheet, for 120 tasks and for 480.

Run: python -m bench.pages [words of the names wanted]

One temporary SQLite database, one process, Django's test client: from the request to the
whole answer, middleware, database and template included. The best of seven, fewer of what
takes seconds, after one that fills the caches: in processor time of the process, system calls
included, and on the clock; and the time on the clock in the middle. The database is a file of
the same process, so what the clock shows above the processor time is other work on the
machine: the verdict reads the processor time. A search in several threads counts them all.
The project at 480 tasks has four times as much of everything.
"""

from __future__ import annotations

import gc
import os
import sys
import tempfile
import warnings
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from time import perf_counter, process_time

from bench.acts import Act, acts_of

SIZES = (120, 480)
RUNS = 7
PATIENCE = 4.0  # seconds, after which an act is not run again
SHEET_MS = 100.0
MOST_MS = {
    "slip preview": 150.0,
    "slip of a task": 150.0,
    "recompute": 30.0,
    "chance, drawn": 400.0,
    "what buys chance": 3000.0,
    "hands, first order": 1000.0,
    "hands, searched": 3000.0,
    "shorten": 1000.0,
}


@dataclass(frozen=True)
class Measured:
    worked: float  # milliseconds of the processor, the best run
    clock: float  # milliseconds on the clock, the best run
    middle: float  # milliseconds on the clock, the run in the middle
    queries: int


def prepare(folder: Path) -> None:
    """Settings before anything of the project is imported."""
    os.environ.pop("DATABASE_URL", None)
    os.environ |= {
        "DJANGO_SETTINGS_MODULE": "config.settings",
        "GIORNATA_DEBUG": "1",
        "GIORNATA_TODAY": "2031-03-03",
        "GIORNATA_DB": str(folder / "bench.sqlite3"),
        "GIORNATA_MEDIA": str(folder / "media"),
    }
    import django
    from django.conf import settings
    from django.core.management import call_command

    warnings.filterwarnings("ignore", message="No directory at")  # static files play no part
    django.setup()
    settings.DEBUG = False
    call_command("migrate", verbosity=0)


def measure(act: Act) -> Measured:
    spent, runs = timed(act, 0)[1], []
    count = queries_of(act)
    while len(runs) < RUNS and (spent < PATIENCE or not runs):
        runs.append(timed(act, len(runs)))
        spent += runs[-1][1]
    worked, clock = ([1000 * run[place] for run in runs] for place in (0, 1))
    return Measured(min(worked), min(clock), median(clock), count)


def queries_of(act: Act) -> int:
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    make_ready(act, 1)
    with CaptureQueriesContext(connection) as queries:
        act(1)
    return len(queries)


def make_ready(act: Act, run: int) -> None:
    if first := getattr(act, "prepare", None):
        first(run)


def timed(act: Act, run: int) -> tuple[float, float]:
    """Seconds of the processor and on the clock; the rubbish of earlier runs is cleared before."""
    make_ready(act, run)
    gc.collect()
    worked, began = process_time(), perf_counter()
    act(run)
    return process_time() - worked, perf_counter() - began


def verdicts(found: dict[str, list[Measured]]) -> list[str]:
    grown = [name for name, rows in found.items() if rows[-1].queries > rows[0].queries]
    slow = [
        f"{name} ({rows[0].worked:.0f} of {limit:.0f} ms)"
        for name, rows in found.items()
        if rows[0].worked > (limit := MOST_MS.get(name, SHEET_MS))
    ]
    limits = ", ".join(f"{name} {limit:.0f}" for name, limit in MOST_MS.items())
    return [
        f"Queries grow with rows: {', '.join(grown) or 'on no page'}.",
        f"Above its limit at {SIZES[0]} tasks: {', '.join(slow) or 'nothing'}.",
        f"Limits in milliseconds: a sheet {SHEET_MS:.0f}, {limits}.",
        f"Load of the machine now, over 5 and 15 minutes: {os.getloadavg()}.",
    ]


def main(words: list[str]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        prepare(Path(folder))
        from bench.big_project import build

        every = [acts_of(build(size)) for size in SIZES]
        print(heading())
        found = {name: shown(name, every) for name in every[0] if wanted(name, words)}
    print("\n".join(verdicts(found)))


def wanted(name: str, words: list[str]) -> bool:
    return not words or any(word in name for word in words)


def heading() -> str:
    columns = f"{'worked':>10}{'clock':>8}{'middle':>8}{'queries':>9}"
    sizes = "".join(f"{f'{size} tasks':>35}" for size in SIZES)
    return f"{'milliseconds':20}{sizes}\n{'':20}{columns * len(SIZES)}"


def shown(name: str, every: list[dict[str, Act]]) -> list[Measured]:
    """Measured at every size, and printed at once."""
    rows = [measure(acts[name]) for acts in every]
    cells = "".join(f"{r.worked:10.1f}{r.clock:8.1f}{r.middle:8.1f}{r.queries:9}" for r in rows)
    print(f"{name:20}{cells}", flush=True)
    return rows


if __name__ == "__main__":
    main(sys.argv[1:])
