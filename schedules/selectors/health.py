"""What the page of the plan's health shows: faults by name, worst first, and the numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from projects.hooks import Level
from projects.models import Project
from projects.words import plural
from schedules import engine
from schedules.engine import vitals
from schedules.engine.health import Ailment, Code
from schedules.models import PlanOfRecord
from schedules.plan import Rows, network, read
from schedules.plan.health import examine
from schedules.plan.kept import thaw
from schedules.selectors.ailing import NAMES, Sick, Words
from schedules.selectors.pulse import Figure, figures

WORST = (Code.LOOP, Code.SHORT, Code.ACTUAL_AHEAD, Code.CROSSED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    name: str
    right: str
    level: Level
    sick: Sequence[Sick]


def health_sheet(project: Project, today: date) -> dict[str, Any]:
    """In a constant number of queries; the plan is solved anew to be examined."""
    rows = read(project, today)
    plan, found = examine(rows)
    made = network(rows)
    words = Words(rows)
    open_ones = [each for each in found if not each.explained]
    groups = grouped(open_ones, words)
    explained = [(NAMES[e.code][0], words.of(e)) for e in found if e.explained]
    return {
        "groups": groups,
        "explained": explained,
        "lede": lede(rows, groups),
        "figures": numbers(rows, made, plan) if plan and rows.tasks else [],
        "tested": tested(rows, made, plan) if plan else None,
    }


def grouped(found: Sequence[Ailment], words: Words) -> list[Group]:
    by_code: dict[Code, list[Ailment]] = {}
    for each in found:
        by_code.setdefault(each.code, []).append(each)
    return [
        Group(
            name=NAMES[code][0],
            right=NAMES[code][1],
            level=Level.BROKEN if code in WORST else Level.NEAR,
            sick=words.all_of(code, several),
        )
        for code, several in by_code.items()
    ]


def lede(rows: Rows, groups: Sequence[Group]) -> dict[str, str]:
    if not rows.tasks:
        return {"says": "Nothing is planned yet, so nothing can ail the plan."}
    if not groups:
        return {"says": "Everything is in order: the dates mean what they say."}
    count = sum(len(group.sick) for group in groups)
    worst = groups[0]
    says = f"{plural(count, 'thing')} to mend before the dates mean what they say."
    return {"says": says, "action": f"First: {worst.name.lower()}, “{worst.sick[0].subject}”."}


def numbers(rows: Rows, made: engine.Network, plan: engine.Plan) -> list[Figure]:
    now = engine.instant(rows.today)
    seen = vitals.vitals(made, plan, data_date=now)
    row = PlanOfRecord.objects.filter(project=rows.project).first()
    due = None
    if row is not None:
        kept = {k: t.span[1] for k, t in thaw(row.rows).tasks.items() if t.days}
        due = vitals.due_work(kept, plan, data_date=now)
    return figures(rows, seen, due, row.letter if row else "")


def tested(rows: Rows, made: engine.Network, plan: engine.Plan) -> dict[str, Any] | None:
    """The plan is tried at each look: the end must follow what carries it."""
    found = vitals.delay_test(made, plan, data_date=engine.instant(rows.today))
    if found is None:
        return None
    name = next(t.name for t in rows.tasks if str(t.pk) == found.activity)
    minutes = rows.calendars[rows.default].day_minutes
    return {
        "held": found.held,
        "name": name,
        "key": found.activity,
        "moved": found.moved // minutes,
        "expected": found.expected // minutes,
        "days": vitals.DELAY_DAYS,
    }
