"""Write key dates."""

from __future__ import annotations

from datetime import date

from projects import hooks
from projects.log import write
from projects.models import Project
from projects.words import day_year
from schedules.models import KeyDate
from schedules.services.planning import changes, in_words, replanned
from schedules.services.tasks import User

LABELS = {
    "name": "name",
    "kind": "kind",
    "on": "day",
    "at": "time",
    "movable": "may move",
    "task": "task",
    "effect": "effect",
    "reason": "reason",
}


def save_key_date(*, project: Project, user: User, today: date, key_date: KeyDate) -> str:
    with replanned(project, today):
        if key_date.pk:
            old = KeyDate.objects.select_for_update().get(pk=key_date.pk)
            changed = changes(old, key_date, LABELS)
            sentence = f"Changed the key date “{old}”: {in_words(changed, LABELS)}."
        else:
            changed = {"name": ("", key_date.name)}
            key_date.project = project
            sentence = f"Added the key date “{key_date}” on {day_year(key_date.on)}."
        if not changed:
            return "Nothing was changed."
        key_date.save()
        why = key_date.reason if "reason" not in changed else ""
        write(project=project, user=user, about="schedules", sentence=sentence, reason=why)
        hooks.rework(project, sentence, user)
    return sentence


def delete_key_date(*, project: Project, user: User, today: date, key_date: KeyDate) -> str:
    with replanned(project, today):
        key_date.delete()
        sentence = f"Removed the key date “{key_date}” of {day_year(key_date.on)}."
        write(project=project, user=user, about="schedules", sentence=sentence)
        hooks.rework(project, sentence, user)
    return sentence
