"""Server time and queries of every sheet, for 120 tasks and for 480.

Run: python -m bench.pages

One temporary SQLite database, one process, Django's test client: from the request to the
whole answer, middleware, database and template included. Wall clock, best and median of
seven after one that fills the caches; the verdict reads the best, which other work on the
machine disturbs least. The project at 480 tasks has four times as much of everything.
"""

from __future__ import annotations

import os
import tempfile
import warnings
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

SIZES = (120, 480)
RUNS = 7
MOST_MS = {"slip preview": 150.0, "recompute": 30.0, "chance": 400.0, "what buys chance": 3000.0}
SHEET_MS = 100.0
PIECE = {"HTTP_HX_REQUEST": "true", "HTTP_HX_TARGET": "sheet"}

Act = Callable[[int], Any]


@dataclass(frozen=True)
class Measured:
    best: float
    middle: float
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


def acts_of(project: Any) -> dict[str, Act]:
    """What is measured, by name; each is called with the number of the run."""
    from django.contrib.auth.models import User
    from django.test import Client

    client = Client()
    user = User.objects.get(username="ada")
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    found = {name: getting(client, place) for name, place in places(project).items()}
    return found | changes(client, project)


def getting(client: Any, place: str) -> Act:
    def act(run: int) -> None:
        answer = client.get(place)
        assert answer.status_code == 200, f"{answer.status_code} at {place}"

    return act


def places(project: Any) -> dict[str, str]:
    home = f"/projects/{project.pk}/"
    names = ("parts", "schedule", "money", "suppliers", "packets", "log")
    supplier, fund, expense = (
        getattr(project, rows).order_by("pk").first().pk
        for rows in ("suppliers", "funds", "expenses")
    )
    public, task = project.key_dates.first().pk, project.tasks.order_by("-pk")[10].pk
    return {
        "your projects": "/",
        "overview": home,
        **{name: f"{home}{name}/" for name in names},
        "one supplier": f"{home}suppliers/{supplier}/",
        "one fund": f"{home}money/funds/{fund}/",
        "one expense": f"{home}money/expenses/{expense}/",
        "one packet": f"{home}packets/{project.packets.first().pk}/",
        "open task": f"{home}schedule/tasks/{task}/",
        "slip preview": f"{home}schedule/slip/?what=key-{public}&days=-400",
        "slip of a task": f"{home}schedule/slip/?what=task-{task}&days=30",
    }


def changes(client: Any, project: Any) -> dict[str, Act]:
    """Edit a task as the page does, and the recomputing alone; each run moves many dates."""
    from bench.big_project import TODAY
    from schedules.plan import recompute

    task = project.tasks.order_by("position")[project.tasks.count() // 4]
    place = f"/projects/{project.pk}/schedule/tasks/{task.pk}/"
    fields = {"name": task.name, "lane": task.lane_id, "phase": task.phase}

    def edit(run: int) -> None:
        answer = client.post(place, {**fields, "days": 5 + run % 2 * 20}, **PIECE)
        assert answer.status_code == 200, answer.status_code

    def lay_out(run: int) -> None:
        project.tasks.filter(pk=task.pk).update(days=6 + run % 2 * 20)
        began = perf_counter()
        recompute(project, TODAY)
        lay_out.took = perf_counter() - began  # type: ignore[attr-defined]

    return {"task edit": edit, "recompute": lay_out, **drawn(client, project)}


def drawn(client: Any, project: Any) -> dict[str, Act]:
    """The page of the chance, with all 10,000 draws made anew; and what would buy more."""
    from schedules.models import ChanceResult

    def anew(place: str) -> Act:
        def act(run: int) -> None:
            ChanceResult.objects.filter(project=project).delete()
            began = perf_counter()
            answer = client.get(f"/projects/{project.pk}/schedule/{place}")
            act.took = perf_counter() - began  # type: ignore[attr-defined]
            assert answer.status_code == 200, answer.status_code

        return act

    return {"chance": anew("chance/"), "what buys chance": anew("chance/buys/")}


def measure(act: Act) -> Measured:
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    act(0)
    with CaptureQueriesContext(connection) as queries:
        act(1)
    count = len(queries)  # now: the next request empties the log
    times = [timed(act, run) for run in range(RUNS)]
    return Measured(min(times), median(times), count)


def timed(act: Act, run: int) -> float:
    began = perf_counter()
    act(run)
    took = getattr(act, "took", perf_counter() - began)
    return took * 1000


def verdicts(found: dict[str, list[Measured]]) -> list[str]:
    small = {name: rows[0] for name, rows in found.items()}
    grown = [name for name, rows in found.items() if rows[-1].queries > rows[0].queries]
    slow = [
        f"{name} ({row.best:.0f} ms)"
        for name, row in small.items()
        if row.best > MOST_MS.get(name, SHEET_MS)
    ]
    return [
        f"Queries grow with rows: {', '.join(grown) or 'on no page'}.",
        f"Above its limit at {SIZES[0]} tasks: {', '.join(slow) or 'nothing'}. Limits: "
        f"a sheet {SHEET_MS:.0f} ms, a slip preview {MOST_MS['slip preview']:.0f} ms, "
        f"recomputing the plan, database included, {MOST_MS['recompute']:.0f} ms, "
        f"the page of the chance with all its draws {MOST_MS['chance']:.0f} ms.",
    ]


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        prepare(Path(folder))
        from bench.big_project import build

        every = [acts_of(build(size)) for size in SIZES]
        found = {name: [measure(acts[name]) for acts in every] for name in every[0]}
    heads = "".join(f"{f'{size} tasks: best':>18}{'median':>9}{'queries':>9}" for size in SIZES)
    print(f"{'milliseconds':16}{heads}")
    for name, rows in found.items():
        cells = "".join(f"{r.best:18.1f}{r.middle:9.1f}{r.queries:9}" for r in rows)
        print(f"{name:16}{cells}")
    print("\n".join(verdicts(found)))


if __name__ == "__main__":
    main()
