"""Write lanes: who does it."""

from __future__ import annotations

from django.db import transaction
from django.db.models import Max

from projects.log import write
from projects.models import Project
from schedules.models import Lane
from schedules.services.planning import changes, in_words
from schedules.services.tasks import User

LABELS = {"name": "name", "supplier": "supplier"}


@transaction.atomic
def save_lane(*, project: Project, user: User, lane: Lane) -> str:
    if lane.pk:
        changed = changes(Lane.objects.get(pk=lane.pk), lane, LABELS)
        sentence = f"Changed the lane {lane}: {in_words(changed, LABELS)}."
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
