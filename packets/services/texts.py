"""Write a text of the project."""

from __future__ import annotations

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db import transaction

from projects.log import write
from projects.models import Project, Text, Topic
from projects.words import plural


@transaction.atomic
def text_write(
    *, project: Project, user: AbstractBaseUser | AnonymousUser, topic: Topic, body: str
) -> Text:
    """Keep the text; nothing is logged when it is as it was."""
    row, _ = Text.objects.get_or_create(project=project, topic=topic)
    if row.body == body:
        return row
    row.body = body
    row.save(update_fields=["body"])
    sentence = f"Changed the text “{topic.label}” to {plural(len(body.split()), 'word')}."
    write(project=project, user=user, about="packets", sentence=sentence)
    return row
