"""Write lanes: who does it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from django.db import transaction
from django.db.models import Max

from projects.log import write
from projects.models import Project
from projects.words import money
from schedules.models import Lane
from schedules.services.planning import changes, in_words, replanned
from schedules.services.tasks import User

LABELS = {
    "name": "name",
    "supplier": "supplier",
    "calendar": "calendar",
    "capacity": "tasks at once",
    "day_cents": "cost of a day",
}
HOURS = {"supplier", "calendar"}  # whose hours the tasks of a lane are planned on


def save_lane(*, project: Project, user: User, today: date, lane: Lane) -> str:
    """Raises ``engine.ScheduleError`` when nothing could be planned on its hours."""
    old = Lane.objects.get(pk=lane.pk) if lane.pk else None
    moves = bool(old and HOURS & set(changes(old, lane, LABELS)))
    with replanned(project, today) if moves else transaction.atomic():
        return write_lane(project, user, lane, old)


def write_lane(project: Project, user: User, lane: Lane, old: Lane | None) -> str:
    if old:
        changed = changes(old, lane, LABELS)
        sentence = f"Changed the lane {lane}: {lane_words(project, changed)}."
    else:
        changed = {"name": ("", lane.name)}
        lane.project = project
        last = project.lanes.aggregate(last=Max("position"))["last"]
        lane.position = 0 if last is None else last + 1
        sentence = f"Added the lane {lane}."
    if not changed:
        return "Nothing was changed."
    lane.save()
    write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def lane_words(project: Project, changed: Mapping[str, tuple[object, object]]) -> str:
    """The changes in words; no limit is no number, and cents are money."""
    plain = {
        name: (plainly(project, name, old), plainly(project, name, new))
        for name, (old, new) in changed.items()
    }
    return in_words(plain, LABELS)


def plainly(project: Project, name: str, value: object) -> object:
    if name == "capacity":
        return value or "no limit"
    if name == "day_cents" and isinstance(value, int):
        return money(value, project.currency)
    return value


@transaction.atomic
def delete_lane(*, project: Project, user: User, lane: Lane) -> str:
    """The lane must be empty: the database refuses to remove one that holds tasks."""
    lane.delete()
    sentence = f"Removed the lane {lane}."
    write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


@transaction.atomic
def move_lane(*, project: Project, user: User, lane: Lane, up: bool) -> str:
    lanes = list(Lane.objects.select_for_update().filter(project=project))
    here = lanes.index(lane)
    there = here - 1 if up else here + 1
    if not 0 <= there < len(lanes):
        return f"{lane} is already {'first' if up else 'last'}."
    lanes.insert(there, lanes.pop(here))
    for position, row in enumerate(lanes):
        row.position = position
    Lane.objects.bulk_update(lanes, ["position"])
    sentence = f"Moved the lane {lane} {'up' if up else 'down'}."
    write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence
