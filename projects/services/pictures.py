"""Keep, change and remove pictures."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db import transaction
from django.db.models import Max
from django.db.models.fields.files import FieldFile

from projects import log
from projects.files import Clean
from projects.models import Picture, Project

Somebody = AbstractBaseUser | AnonymousUser
SAID = ("use", "caption", "alt", "credit", "part")


@transaction.atomic
def add_picture(*, project: Project, values: Mapping[str, Any], user: Somebody) -> Picture:
    last = Picture.objects.filter(project=project).aggregate(Max("position"))["position__max"]
    picture = Picture(project=project, position=(last or 0) + 1)
    fill(picture, values)
    picture.save()
    said(picture, user, f"Added the picture “{picture.caption}”.")
    return picture


@transaction.atomic
def change_picture(*, picture: Picture, values: Mapping[str, Any], user: Somebody) -> Picture:
    if values["file"]:
        remove_later(picture.file)
    fill(picture, values)
    picture.save()
    said(picture, user, f"Changed the picture “{picture.caption}”.")
    return picture


@transaction.atomic
def delete_picture(*, picture: Picture, user: Somebody) -> None:
    said(picture, user, f"Removed the picture “{picture.caption}”.")
    remove_later(picture.file)
    picture.delete()


def fill(picture: Picture, values: Mapping[str, Any]) -> None:
    for name in SAID:
        setattr(picture, name, values[name])
    new: Clean | None = values["file"]
    if new:
        picture.file.save("picture.jpg", new.content, save=False)
        picture.width, picture.height, picture.size = new.width, new.height, new.size


def remove_later(file: FieldFile) -> None:
    """The file goes only when the change is sure."""
    storage, name = file.storage, file.name
    transaction.on_commit(lambda: storage.delete(name) if name else None)


def said(picture: Picture, user: Somebody, sentence: str) -> None:
    log.write(project=picture.project, user=user, about="projects", sentence=sentence)
