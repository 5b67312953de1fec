"""The words of a notice, and how it was told."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms

from projects.fields import DayField
from projects.words import day
from schedules.forms.plain import focus_first, speak_plainly
from schedules.models import Notice, Told

LONGEST = 6000


class NoticeForm(forms.ModelForm):  # type: ignore[type-arg]
    body = forms.CharField(
        label="Message", max_length=LONGEST, widget=forms.Textarea(attrs={"rows": 14})
    )

    class Meta:
        model = Notice
        fields = ("email", "phone", "subject", "body")
        labels = {"email": "E-mail", "phone": "Telephone", "subject": "Subject"}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        speak_plainly(self)
        wrong = "Write an address such as yard@millrace.example, or leave it empty."
        self.fields["email"].error_messages["invalid"] = wrong
        focus_first(self)

    def clean_subject(self) -> str:
        """A subject is one line."""
        return " ".join(str(self.cleaned_data["subject"]).split())


class ToldForm(forms.Form):
    how = forms.ChoiceField(
        label="How",
        choices=[("", "Choose how"), *Told.choices],
        error_messages={"required": "Choose how they were told."},
    )
    on = DayField(label="When")

    def __init__(self, data: Any = None, *, today: date, prefix: str | None = None) -> None:
        super().__init__(data, initial={"on": today}, prefix=prefix)
        self.today = today
        speak_plainly(self)

    def clean_on(self) -> date:
        on: date = self.cleaned_data["on"]
        if on > self.today:
            said = f"That day is still to come. {day(self.today)} is the latest."
            raise forms.ValidationError(said)
        return on
