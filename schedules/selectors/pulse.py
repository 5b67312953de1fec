"""The numbers of a plan's health, in plain words."""

from __future__ import annotations

from dataclasses import dataclass

from django.urls import reverse

from projects.hooks import Level
from projects.words import day, plural
from schedules import engine
from schedules.engine.vitals import Due, Vitals
from schedules.models import ChanceResult
from schedules.plan import Rows, odds
from schedules.selectors.ailing import task_names
from schedules.selectors.wording import in_hand_level, in_hand_words

EIGHTY = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    name: str
    value: str
    says: str = ""
    level: Level = Level.PLAIN
    url: str = ""


def figures(rows: Rows, seen: Vitals, due: Due | None, letter: str) -> list[Figure]:
    found = [in_hand(rows, seen), pace(rows, seen), near(rows, seen)]
    found += [due_figure(rows, due, letter), likely(rows), merges(rows, seen)]
    return [figure for figure in found if figure]


def day_minutes(rows: Rows) -> int:
    return rows.calendars[rows.default].day_minutes


def in_hand(rows: Rows, seen: Vitals) -> Figure | None:
    public = rows.public
    if seen.in_hand is None or public is None:
        return None
    days = seen.in_hand // day_minutes(rows)
    says = f"before “{public}” on {day(public.on)}"
    level = in_hand_level(days)
    return Figure(name="Days in hand", value=in_hand_words(days), says=says, level=level)


def pace(rows: Rows, seen: Vitals) -> Figure | None:
    """How fast the rest must go, against the plan's own pace."""
    if seen.index is None or seen.in_hand is None:
        return None
    need = -(-seen.length // day_minutes(rows))
    there = (seen.length + seen.in_hand) // day_minutes(rows)
    left = f"{plural(need, 'working day')} of work on the longest way"
    if seen.index <= 0:
        says = f"{left}, and no day left to do them in."
        return Figure(name="Pace needed", value="none would do", says=says, level=Level.BROKEN)
    times = f"{float(1 / seen.index):.2f}"
    says = f"{left}, {plural(there, 'day')} to do them in: work at {times} of the plan’s pace."
    level = Level.BROKEN if seen.index < 1 else Level.PLAIN
    return Figure(name="Pace needed", value=f"{times} of the plan’s", says=says, level=level)


def near(rows: Rows, seen: Vitals) -> Figure | None:
    if rows.public is None or rows.public.on < rows.today:
        return None
    band = plural(seen.band // day_minutes(rows), "working day")
    says = f"may take over within {band}"
    carrying = {str(t.pk) for t in rows.tasks if t.chain_position is not None}
    keys = [key for key in seen.near if key not in carrying]
    if keys:
        says += f": {task_names(rows, keys)}"
    value = plural(len(keys), "task")
    level = Level.NEAR if keys else Level.PLAIN
    return Figure(name="Close to carrying the date", value=value, says=f"{says}.", level=level)


def due_figure(rows: Rows, due: Due | None, letter: str) -> Figure | None:
    """Counts and names, not shares: with few tasks one of them moves a share by a lot."""
    if due is None or not due.due:
        return None
    value = f"{len(due.done)} of {plural(len(due.due), 'due task')} done"
    says = f"by Rev {letter}; {len(due.hit)} on or before their day"
    if due.missed:
        says += f". Later than kept: {task_names(rows, due.missed)}"
    open_ones = len(due.due) > len(due.done)
    url = reverse("schedules:record", args=[rows.project.pk])
    level = Level.NEAR if open_ones else Level.HOLDS
    return Figure(name="Due and done", value=value, says=f"{says}.", level=level, url=url)


def likely(rows: Rows) -> Figure | None:
    """The day by which the work is ready in eight of ten draws, when they hold still."""
    found = ChanceResult.objects.filter(project=rows.project).first()
    if found is None or found.data.get("basis") != odds.basis(rows):
        return None
    at = dict(found.data.get("points", ())).get(EIGHTY)
    if at is None:
        return None
    says = "in eight of ten tries of the plan, with its best and worst days"
    url = reverse("schedules:chance", args=[rows.project.pk])
    return Figure(name="Ready by", value=day(engine.day_that_ends(at)), says=says, url=url)


def merges(rows: Rows, seen: Vitals) -> Figure | None:
    if not seen.merges:
        return None
    says = f"wait for three tasks or more, so dates are lost there: {task_names(rows, seen.merges)}"
    value = plural(len(seen.merges), "task")
    return Figure(name="Where ways meet", value=value, says=f"{says}.")
