"""What the page of the plan of record shows: two plans held together, and the slips so far."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Any

from django.db.models.fields.json import KT

from projects.hooks import Level
from projects.models import Project
from projects.words import day, plural
from schedules.engine.variance import Fate, Variance, days_between
from schedules.models import Forecast, KeyDateEffect, PlanOfRecord
from schedules.plan import Rows, current, read
from schedules.plan.kept import Kept, KeptTask, freeze, held_against, thaw
from schedules.selectors.changed import link_words, other_calendars
from schedules.selectors.earned import done_words
from schedules.selectors.wording import in_hand_words, signed, span_words
from schedules.timeline.slipchart import Said, draw_slips, turns

FEW = 2  # days said make a line
SHOWN_FIRST = 8  # turns of the forecast in the table; the rest unfolds
SIZES = {"wide": (760, 320), "narrow": (358, 300)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A task in both plans, or in one."""

    name: str
    lane: str
    was: str
    then: str
    start: str
    finish: str
    days: str
    word: str
    level: Level


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """A date or figure of the whole plan in both."""

    name: str
    was: str
    then: str
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPlan:
    letter: str
    kept_on: date  # the project's own day, not that of the clock in Greenwich
    made_by: str
    reason: str


def plans_kept(project: Project) -> list[KeptPlan]:
    """All of them, newest first, without their rows."""
    found = PlanOfRecord.objects.filter(project=project).annotate(on=KT("rows__on"))
    names = ("letter", "on", "made_by", "reason")
    return [
        KeptPlan(letter=letter, kept_on=date.fromisoformat(on), made_by=who, reason=reason)
        for letter, on, who, reason in found.values_list(*names)
    ]


def record_sheet(
    project: Project, today: date, first: str | None, second: str | None
) -> dict[str, Any]:
    """``first`` is held against ``second``, letters of plans kept; no second is the plan now."""
    current(project, today)
    rows = read(project, today)
    found = slips(project)
    if first is None:
        return {"slips": found, "lede": {"says": nothing_kept(rows)}}
    public = rows.public.pk if rows.public else None
    copies = PlanOfRecord.objects.filter(project=project, letter__in=[first, second or first])
    kept = {row.letter: thaw(row.rows, public) for row in copies}
    then = kept[second] if second else thaw(freeze(rows, today), public)
    return {"slips": found, **compared(rows, kept[first], then, first, second)}


def nothing_kept(rows: Rows) -> str:
    if not rows.tasks:
        return "Nothing is planned yet, so there is no plan to keep."
    return "No plan is kept yet. Keep the plan as it was agreed, and every later one is held to it."


def compared(rows: Rows, kept: Kept, then: Kept, first: str, second: str | None) -> dict[str, Any]:
    found = held_against(kept, then, rows)
    lines = [line(each, kept, then) for each in found.values() if each.moved]
    return {
        "lede": lede(rows, kept, then, first, found),
        "wholes": wholes(rows, kept, then),
        "lines": lines,
        "still": len(found) - len(lines),
        "links": link_words(kept, then),
        "calendars": other_calendars(kept, then, rows),
        "done": None if second else done_words(kept, rows),
        "was_name": f"Rev {first}",
        "then_name": f"Rev {second}" if second else "Now",
    }


def lede(
    rows: Rows, kept: Kept, then: Kept, first: str, found: dict[str, Variance]
) -> dict[str, str]:
    """How far the work has slipped, and what slipped most of that which carries the date."""
    says = f"Against Rev {first} of {day(kept.on)}: {ready_words(rows, kept, then)}."
    later = [v for v in found.values() if (v.finish or 0) > 0]
    chain = {str(t.pk) for t in rows.tasks if t.chain_position is not None and not t.finished_on}
    carrying = [v for v in later if v.key in chain - events(rows)]
    worst = max(carrying or later, key=lambda v: v.finish or 0, default=None)
    if worst is None:
        return {"says": says}
    name = then.tasks[worst.key].name
    action = f"“{name}” slipped most: {plural(worst.finish or 0, 'working day')} later."
    return {"says": says, "action": action}


def events(rows: Rows) -> set[str]:
    return {str(k.task_id) for k in rows.key_dates if k.effect == KeyDateEffect.EVENT}


def ready_words(rows: Rows, kept: Kept, then: Kept) -> str:
    if kept.ready_on is None or then.ready_on is None:
        return without_ready_day(rows)
    slip = days_between(rows.calendars[rows.default], kept.ready_on, then.ready_on)
    if not slip:
        return f"the work is ready on {day(then.ready_on)}, as kept"
    how = f"{plural(abs(slip), 'working day')} {'later' if slip > 0 else 'earlier'}"
    return f"the work is ready {how}, {day(then.ready_on)} instead of {day(kept.ready_on)}"


def without_ready_day(rows: Rows) -> str:
    """Nothing waits for a public date any more, or there is none."""
    public = rows.public
    if public is None or public.on >= rows.today:
        return "there is no public date to hold it to"
    return f"{public} is over, it was on {day(public.on)}"


def wholes(rows: Rows, kept: Kept, then: Kept) -> list[Whole]:
    own = rows.calendars[rows.default]
    ready = public = hand = ""
    if kept.ready_on and then.ready_on:
        ready = working_words(days_between(own, kept.ready_on, then.ready_on))
    if kept.public_on and then.public_on:
        public = same(signed((then.public_on - kept.public_on).days))
    if kept.in_hand_days is not None and then.in_hand_days is not None:
        hand = same(signed(then.in_hand_days - kept.in_hand_days))
    in_hand = in_hand_words(kept.in_hand_days), in_hand_words(then.in_hand_days)
    rows_shown = [
        ("Public date", shown(kept.public_on), shown(then.public_on), public),
        ("Work ready", shown(kept.ready_on), shown(then.ready_on), ready),
        ("Days in hand", *in_hand, hand),
    ]
    return [Whole(name=n, was=was, then=now, by=by) for n, was, now, by in rows_shown if by]


def shown(value: date | None) -> str:
    return day(value) if value else ""


def same(words: str) -> str:
    return "the same" if words.startswith("0") else words


def working_words(days: int) -> str:
    return same(signed(days).replace("day", "working day"))


def line(each: Variance, kept: Kept, then: Kept) -> Line:
    was, now = kept.tasks.get(each.key), then.tasks.get(each.key)
    word, level = verdict(each)
    task = now or was
    assert task is not None
    return Line(
        name=task.name,
        lane=task.lane,
        was=dates_of(was),
        then=dates_of(now),
        start=number(each.start),
        finish=number(each.finish),
        days=number(each.days),
        word=word,
        level=level,
    )


def dates_of(task: KeptTask | None) -> str:
    return span_words(task.start, task.finish) if task else "not in it"


def verdict(each: Variance) -> tuple[str, Level]:
    if each.fate is Fate.ADDED:
        return "added", Level.PLAIN
    if each.fate is Fate.DROPPED:
        return "dropped", Level.PLAIN
    if each.finish:
        return ("later", Level.NEAR) if each.finish > 0 else ("earlier", Level.HOLDS)
    if each.start:
        return "starts later" if each.start > 0 else "starts earlier", Level.PLAIN
    return "longer" if (each.days or 0) > 0 else "shorter", Level.PLAIN


def number(value: int | Fraction | None) -> str:
    """“+2”, “−1.5”, “0”; nothing for what is in one plan alone."""
    if value is None:
        return ""
    size = f"{float(abs(Fraction(value))):.2f}".rstrip("0").rstrip(".")
    return f"{'+' if value > 0 else '−' if value < 0 else ''}{size}"


def slips(project: Project) -> dict[str, Any]:
    """The chart of what was said of the date, day by day, and its table, newest first."""
    rows = Forecast.objects.filter(project=project, ready_on__isnull=False).order_by("on")
    said = [Said(row.on, row.ready_on, row.public_on) for row in rows if row.ready_on]
    kept = [(row.letter, row.kept_on) for row in plans_kept(project)]
    charts = {
        name: draw_slips(said, kept, width=width, height=height)
        for name, (width, height) in SIZES.items()
    }
    if len(said) < FEW:
        charts = {}
    turned = turns(said)[::-1] if said else []
    hand = {row.on: row.in_hand_days for row in rows}
    table = [{"said": each, "in_hand": in_hand_words(hand[each.on])} for each in turned]
    return {
        **charts,
        "last": said[-1] if said else None,
        "newest": table[:SHOWN_FIRST],
        "older": table[SHOWN_FIRST:],
    }
