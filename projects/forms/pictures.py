"""A picture with what a reader of a packet must know about it."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

from projects.fields import ShortText
from projects.files import Clean, clean_picture
from projects.models import Part, Picture, PictureUse, Project


class PictureForm(forms.Form):
    file = forms.FileField(
        label="Picture",
        help_text="JPEG or PNG, up to 20 MB. Where it was taken is removed from the file.",
        widget=forms.FileInput(attrs={"accept": "image/*"}),
        error_messages={
            "required": "Choose a picture from your computer or phone.",
            "empty": "This file is empty. Choose another.",
        },
    )
    use = forms.ChoiceField(label="It shows", choices=PictureUse.choices)
    caption = ShortText(
        label="Caption", max_length=240, help_text="Printed below the picture in packets."
    )
    alt = ShortText(
        label="Description for people who cannot see it",
        max_length=400,
        help_text="One sentence: what is in the picture, and where.",
    )
    credit = ShortText(
        label="Credit", max_length=120, required=False, help_text="Who took or drew it."
    )
    part = forms.ModelChoiceField(
        label="Part", queryset=Part.objects.none(), required=False, empty_label="No one part"
    )

    def __init__(
        self, *args: Any, project: Project, picture: Picture | None = None, **kwargs: Any
    ) -> None:
        kwargs.setdefault("initial", said_of(picture))
        super().__init__(*args, **kwargs)
        part = self.fields["part"]
        assert isinstance(part, forms.ModelChoiceField)
        part.queryset = Part.objects.filter(project=project)
        if picture:
            self.fields["file"].required = False
            self.fields["file"].label = "Another picture in its place"

    def clean_file(self) -> Clean | None:
        upload = self.cleaned_data["file"]
        return clean_picture(upload) if isinstance(upload, UploadedFile) else None


def said_of(picture: Picture | None) -> dict[str, Any]:
    if picture is None:
        return {}
    names = ("use", "caption", "alt", "credit", "part")
    return {name: getattr(picture, name) for name in names}
