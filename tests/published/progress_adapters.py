"""Published networks under way, in inclusive day numbers, as calls of the schedule engine.

A day number is taken as the date so many days after the engine's first; so first and last
day are those that the engine shows for a start and a finish.
"""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from schedules.engine import (
    EPOCH,
    Activity,
    Calendar,
    Network,
    Plan,
    day_that_begins,
    day_that_ends,
    instant,
    out_of_sequence,
    solve,
)
from tests.published.row_words import Row, exact
from tests.published.schedule_adapters import network, units

MAIN = Calendar.always("days")
RULES = {"retained": False, "override": True}  # words of a group of results: who goes ahead
ENDS = {"ef": "early_finish", "lf": "late_finish"}
STARTS = {"es": "early_start", "ls": "late_start"}


def progress(row: Row) -> Row:
    """Dates with retained logic and with override, and who is out of sequence."""
    given = row["expected"] | row
    now = morning(given["data_date"])
    answer = units(row) | flags(row, under_way(row, given, now), now)
    for name, expected in row["expected"].items():
        for word, ahead in RULES.items():
            if word in name and isinstance(expected, dict):
                answer[name] = dates_of(under_way(row, given, now, ahead=ahead), now, expected)
    return answer


def morning(day: float) -> int:
    return instant(EPOCH + timedelta(days=int(day)))


def number(day: date) -> int:
    return (day - EPOCH.date()).days


def evening(day: float) -> int:
    return morning(day) + MAIN.day_minutes


def under_way(row: Row, given: Row, now: int, *, ahead: bool = False) -> Network:
    bare = network(row, MAIN, MAIN.day_minutes)
    listed = {each["code"]: each for each in row["activities"]}
    tasks = (progressed(a, listed[a.key], given, now) for a in bare.activities)
    return replace(bare, activities=tuple(replace(a, ahead=ahead) for a in tasks))


def progressed(activity: Activity, listed: Row, given: Row, now: int) -> Activity:
    """What the row says of an activity, beside it or in a table by code."""
    code = activity.key

    def told(name: str) -> Any:
        table = given.get(name)
        return listed.get(name, table.get(code) if isinstance(table, dict) else None)

    left, start, finish = told("remaining"), told("actual_start"), told("actual_finish")
    begun = any(given[k] is True for k in given if k.startswith(f"{code}_started"))
    work = None if left is None else int(exact(left) * MAIN.day_minutes)
    if start is None and not begun and finish is None:
        return activity if work is None else replace(activity, duration=work)
    return replace(
        activity,
        actual_start=morning(start) if start is not None else now if finish is None else None,
        actual_finish=None if finish is None else evening(finish),
        remaining=work,
    )


def flags(row: Row, laid: Network, now: int) -> Row:
    """Who has started, and who of them out of sequence."""
    astray = {each.activity for each in out_of_sequence(laid, data_date=now)}
    begun = {a.key for a in laid.activities if a.actual_start is not None}
    started = {f"{code}_started": code in begun for code in codes(laid)}
    return started | {f"{code}_started_out_of_sequence": code in astray for code in codes(laid)}


def codes(laid: Network) -> list[str]:
    return [activity.key for activity in laid.activities]


def dates_of(laid: Network, now: int, expected: Row) -> Row:
    """First and last days under the names that the row uses, such as B_resume."""
    plan = solve(laid, data_date=now)
    every = {f"{a.key}_{k}": v for a in laid.activities for k, v in days(a, plan).items()}
    finish = {"finish": number(day_that_ends(plan.finish))}
    return {name: (every | finish)[name] for name in expected}


def days(activity: Activity, plan: Plan) -> dict[str, int]:
    dates = plan.dates[activity.key]
    left = activity.duration if activity.remaining is None else activity.remaining
    shown = {k: number(day_that_begins(getattr(dates, v))) for k, v in STARTS.items()}
    shown |= {k: number(day_that_ends(getattr(dates, v))) for k, v in ENDS.items()}
    resume = MAIN.sub(dates.early_finish, left) if left else dates.early_finish
    return shown | {"resume": number(day_that_begins(resume))}


PROGRESS_ADAPTERS: dict[str, Callable[[Row], Row]] = {"schedule:progress": progress}
