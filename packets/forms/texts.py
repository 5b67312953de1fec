"""A text of the project."""

from __future__ import annotations

from typing import Any

from django import forms

from projects.fields import LongText
from projects.models import Topic


class TextForm(forms.Form):
    def __init__(self, *args: Any, topic: Topic, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["body"] = LongText(
            label=str(topic.label),
            widget=forms.Textarea(attrs={"rows": 16}),
            help_text="An empty line begins a new paragraph; lines that begin with a dash, a list.",
        )
