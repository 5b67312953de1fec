"""Write hires and supervision; they move nothing, so nothing is planned anew."""

from __future__ import annotations

from collections.abc import Iterable

from django.db import transaction

from projects.log import write
from projects.models import Project
from projects.words import listed
from schedules.models import Hammock, Task
from schedules.services.planning import changes, in_words
from schedules.services.tasks import User

LABELS = {
    "name": "name",
    "lane": "lane",
    "order": "order",
    "day_cents": "cost of a day",
    "note": "note",
}


@transaction.atomic
def save_hire(
    *,
    project: Project,
    user: User,
    hire: Hammock,
    from_tasks: Iterable[Task],
    to_tasks: Iterable[Task],
) -> str:
    """Says what was done; nothing is written when nothing was changed."""
    begins, ends = list(from_tasks), list(to_tasks)
    if hire.pk:
        old = Hammock.objects.select_for_update().get(pk=hire.pk)
        words = changed_words(old, hire, begins, ends)
        if not words:
            return "Nothing was changed."
        sentence = f"Changed the hire “{old}”: {', '.join(words)}."
    else:
        hire.project = project
        sentence = f"Added the hire “{hire}”: {lasts_words(begins, ends)}."
    hire.save()
    hire.from_tasks.set(begins)
    hire.to_tasks.set(ends)
    write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def changed_words(old: Hammock, new: Hammock, begins: list[Task], ends: list[Task]) -> list[str]:
    changed = changes(old, new, LABELS)
    words = [in_words(changed, LABELS, old.project.currency)] if changed else []
    held = set(old.from_tasks.all()), set(old.to_tasks.all())
    if held != (set(begins), set(ends)):
        words.append(f"it lasts {lasts_words(begins, ends)}")
    return words


def lasts_words(begins: list[Task], ends: list[Task]) -> str:
    """“from “Set wall anchors” to “Fix crank box and test the light””."""
    first, last = (listed([f"“{task}”" for task in tasks]) for tasks in (begins, ends))
    return f"from {first} to {last}"


@transaction.atomic
def delete_hire(*, project: Project, user: User, hire: Hammock) -> str:
    hire.delete()
    sentence = f"Removed the hire “{hire}”."
    write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence
