"""A lane: who does it."""

from __future__ import annotations

from typing import Any

from django import forms

from projects.models import Project
from schedules.forms.plain import focus_first, speak_plainly
from schedules.models import Lane


class LaneForm(forms.ModelForm):  # type: ignore[type-arg]
    class Meta:
        model = Lane
        fields = ["name", "supplier"]

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.project = project
        self.fields["supplier"].queryset = project.suppliers.all()  # type: ignore[attr-defined]
        self.fields["supplier"].empty_label = "Nobody who is paid or lends"  # type: ignore[attr-defined]
        speak_plainly(self)
        focus_first(self)

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        others = Lane.objects.filter(project=self.project, name=name).exclude(pk=self.instance.pk)
        if others.exists():
            raise forms.ValidationError(f"There is already a lane called “{name}”.")
        return name
