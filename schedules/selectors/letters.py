"""What one party is told: its own dates, was and now, in plain words; no money, nobody else's."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from projects.hooks import Level
from projects.models import Project, Site
from projects.words import day, day_year, plural, span
from schedules.selectors.parties import Addressee, Matter
from suppliers.models import Order
from suppliers.selectors import OPEN_ORDERS, window_level

Told = dict[
    str, dict[str, object]
]  # by key: {"name": …, "was": [first, last], "is": [first, last]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A date of theirs: as they know it, and as it is now."""

    key: str
    was: Matter
    now: Matter

    @property
    def kept(self) -> dict[str, object]:
        return {"name": self.now.name, "was": days_of(self.was), "is": days_of(self.now)}


def days_of(matter: Matter) -> list[str]:
    return [matter.first.isoformat(), matter.last.isoformat()]


def matter_of(kept: Mapping[str, object], which: str) -> Matter:
    """``which`` is “was” or “is”."""
    first, last = (date.fromisoformat(str(text)) for text in kept[which])  # type: ignore[attr-defined]
    return Matter(name=str(kept["name"]), first=first, last=last)


def moved_dates(
    addressee: Addressee,
    known: Mapping[str, Matter],
    now: Mapping[str, Matter],
    public: str,
) -> list[Moved]:
    """Theirs that are no longer as they know them, in the order of the new days."""
    keys = addressee.keys - {public}
    found = [moved for key in keys if (moved := move_of(key, known, now))]
    about_public = move_of(public, known, now)
    if about_public and (found or addressee.hears_public):
        found.append(about_public)
    return sorted(found, key=lambda m: (m.key == public, m.now.first, m.now.name))


def move_of(key: str, known: Mapping[str, Matter], now: Mapping[str, Matter]) -> Moved | None:
    was, then = known.get(key), now.get(key)
    if was is None or then is None or (was.first, was.last) == (then.first, then.last):
        return None
    return Moved(key=key, was=was, now=then)


def subject(project: Project, moved: Sequence[Moved]) -> str:
    if len(moved) == 1:
        return f"{project}: new {'day' if one_day(moved[0]) else 'days'} for {moved[0].now.name}"[
            :200
        ]
    return f"{project}: {plural(len(moved), 'new date')}"


def one_day(moved: Moved) -> bool:
    return moved.now.first == moved.now.last


def body(
    project: Project, addressee: Addressee, moved: Sequence[Moved], public: str, sender: str
) -> str:
    own = [m for m in moved if m.key != public]
    event = next((m for m in moved if m.key == public), None)
    site = Site.objects.filter(project=project).values_list("name", flat=True).first()
    where = f"{project}, {site}" if site else str(project)
    lines = [f"Hello {addressee.greeting},"]
    if own:
        noun = "These dates have" if len(own) > 1 else "This date has"
        lines += [f"{noun} moved ({where}):", *[move_words(m) for m in own]]
    if event:
        lines.append(event_words(event, where if not own else ""))
    lines += booking_lines(addressee, own)
    lines += [
        "Please tell me whether the new days suit you." if own else "I hope to see you there."
    ]
    return "\n\n".join([*lines, f"Thank you,\n{sender}"])


def move_words(moved: Moved) -> str:
    return f"{moved.now.name}\n  was {days_words(moved.was)}\n  now {days_words(moved.now)}"


def days_words(matter: Matter) -> str:
    if matter.first == matter.last:
        return day_year(matter.first)
    if matter.first.year != matter.last.year:
        return f"{day_year(matter.first)} to {day_year(matter.last)}"
    return f"{day(matter.first)} to {day_year(matter.last)}"


def event_words(moved: Moved, where: str) -> str:
    about = f" of {where}" if where else ""
    return (
        f"The public date{about} has moved: {moved.now.name} is now on "
        f"{days_words(moved.now)}. It was to be on {days_words(moved.was)}."
    )


def booking_lines(addressee: Addressee, own: Sequence[Moved]) -> list[str]:
    """A booking of theirs that no longer covers the days: may it move with them?"""
    if addressee.supplier is None:
        return []
    tasks = {int(m.key[5:]): m.now for m in own if m.key.startswith("task-")}
    orders = Order.objects.filter(
        supplier=addressee.supplier, state__in=OPEN_ORDERS, tasks__in=list(tasks)
    )
    return [
        f"The booking “{order.title}” is for {span(order.window_start, order.window_end)}. "
        "Can it move with the new days?"
        for order in orders.distinct()
        if is_short(order, tasks)
    ]


def is_short(order: Order, tasks: Mapping[int, Matter]) -> bool:
    needed = [tasks[pk] for pk in order.tasks.values_list("pk", flat=True) if pk in tasks]
    first, last = min(m.first for m in needed), max(m.last for m in needed)
    return bool(order.window) and window_level(order, first, last) == Level.BROKEN
