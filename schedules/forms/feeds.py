"""A calendar file to read, and the days of it to keep."""

from __future__ import annotations

from datetime import date, time
from typing import Any
from zoneinfo import ZoneInfo

from django import forms
from django.core import signing
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile

from projects.models import Project
from schedules.models import KeyDateKind
from schedules.selectors.file_dates import BadFile, Contents, Found, days_in

MOST_BYTES = 1_000_000
SALT = "schedules.file_dates"
KINDS = [(kind.value, kind.label) for kind in KeyDateKind if kind != KeyDateKind.PUBLIC]


class FileForm(forms.Form):
    """Cleans to what the file holds."""

    file = forms.FileField(
        label="Calendar file",
        help_text="A file that ends in .ics, up to 1 MB, as most calendars export.",
        widget=forms.FileInput(attrs={"accept": ".ics,text/calendar"}),
        error_messages={
            "required": "Choose a calendar file from your computer or phone.",
            "empty": "This file is empty. Choose another.",
        },
    )

    def __init__(self, *args: Any, project: Project, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.project, self.today = project, today

    def clean_file(self) -> Contents:
        upload: UploadedFile[Any] = self.cleaned_data["file"]
        if (upload.size or 0) > MOST_BYTES:
            raise ValidationError("This file is larger than 1 MB. Export fewer months.")
        try:
            found = days_in(upload.read(), ZoneInfo(self.project.zone), self.today)
        except BadFile as error:
            raise ValidationError(str(error)) from error
        if not found.days:
            raise ValidationError(
                "No event in this file lies between today and a year and a half from now."
            )
        return found


class KeepForm(forms.Form):
    """The days that were ticked; ``found`` carries what was read, signed."""

    found = forms.CharField(widget=forms.HiddenInput)
    kind = forms.ChoiceField(
        label="These are", choices=KINDS, help_text="Each can be changed later, and tied to a task."
    )

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.project = project

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        days = unpacked(self.project, found.get("found", ""))
        if days is None:
            raise ValidationError("What was read is no longer at hand. Choose the file once more.")
        wanted = set(self.data.getlist("tick")) if hasattr(self.data, "getlist") else set()
        found["days"] = [day for place, day in enumerate(days) if str(place) in wanted]
        if not found["days"]:
            raise ValidationError("Tick at least one day.")
        return found


def packed(project: Project, days: tuple[Found, ...]) -> str:
    rows = [[d.uid, d.name, d.on.isoformat(), d.at and d.at.isoformat(), d.note] for d in days]
    return signing.dumps([project.pk, rows], salt=SALT, compress=True)


def unpacked(project: Project, text: str) -> list[Found] | None:
    """What was read of a file for this project, within a day; else nothing."""
    try:
        owner, rows = signing.loads(text, salt=SALT, max_age=86_400)
    except (signing.BadSignature, ValueError):
        return None
    if owner != project.pk:
        return None
    return [
        Found(
            uid=uid,
            name=name,
            on=date.fromisoformat(on),
            at=time.fromisoformat(at) if at else None,
            note=note,
        )
        for uid, name, on, at, note in rows
    ]
