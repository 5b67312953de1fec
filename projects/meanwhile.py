"""A form that somebody else may have saved since it was opened: nobody's work is lost."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.html import format_html

from projects.words import day_year

if TYPE_CHECKING:
    Form = forms.ModelForm[Any]
else:
    Form = object

SAVED = (
    "Somebody else saved this while you had it open. Nothing that you typed is lost: what they "
    "changed stands beside its field. Look it over and save again."
)


class Overtaken(Exception):
    """The row has another version than the one that was to be changed."""


class Meanwhile(Form):
    """Put before a form of a row whose number `version` grows with every save.

    The form carries the version and the values that it was opened with. When the row has moved on
    by the time it is sent, what the other changed and this one did not is filled in and said;
    where both changed a field, both values are shown and the next save decides. Answer with 409
    while `overtaken`. A template must write the hidden fields out.
    """

    overtaken = False

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.both: dict[str, str] = {}
        now = self.shown()
        number, was = (forms.CharField(required=False, widget=forms.HiddenInput) for _ in "12")
        self.fields["version"], self.fields["was"] = number, was
        number.initial, was.initial = str(self.instance.version), json.dumps(now)
        sent = self.data.get(self.add_prefix("version")) if self.is_bound else ""
        self.overtaken = bool(sent) and sent != number.initial
        if self.overtaken:
            self.merge(now)

    def shown(self) -> dict[str, str]:
        """Each field's saved value as its widget writes it."""
        kept = (name for name, field in self.fields.items() if not is_file(field))
        return {name: self.written(name, self[name].initial) for name in kept}

    def written(self, name: str, value: Any) -> str:
        field = self.fields[name]
        if isinstance(field, forms.BooleanField):
            return "on" if value else ""
        text = field.widget.format_value(field.prepare_value(value))
        return "\n".join(text) if isinstance(text, list) else as_text(text)

    def typed(self, name: str) -> str:
        field = self.fields[name]
        found = field.widget.value_from_datadict(self.data, self.files, self.add_prefix(name))
        if isinstance(field, forms.BooleanField):
            return "on" if found else ""
        return "\n".join(found) if isinstance(found, list) else as_text(found)

    def merge(self, now: dict[str, str]) -> None:
        """Take over what only the other changed; note what both did."""
        was = self.opened_with()
        data: Any = self.data
        data = data.copy()
        for name, saved in now.items():
            before, typed = was.get(name, saved), self.typed(name)
            if saved in (before, typed):
                continue
            if typed == before:
                put(data, self.add_prefix(name), saved, self.fields[name])
                self.say(name, before, saved)
            else:
                self.both[name] = saved
        data[self.add_prefix("version")] = self.fields["version"].initial
        data[self.add_prefix("was")] = self.fields["was"].initial
        self.data = data

    def opened_with(self) -> dict[str, str]:
        try:
            found = json.loads(self.data.get(self.add_prefix("was")) or "{}")
        except ValueError:
            return {}
        return found if isinstance(found, dict) else {}

    def say(self, name: str, before: str, saved: str) -> None:
        old, new = self.in_words(name, before), self.in_words(name, saved)
        self[name].help_text = format_html("Changed meanwhile from {} to {}.", old, new)

    def in_words(self, name: str, value: str) -> str:
        """A value as it stands in a sentence."""
        field = self.fields[name]
        if isinstance(field, forms.BooleanField):
            return "ticked" if value else "not ticked"
        if not value:
            return "nothing"
        if isinstance(field, forms.ChoiceField | forms.ModelChoiceField):
            labels = dict(flat(field.choices))
            return ", ".join(f"“{labels.get(each, each)}”" for each in value.split("\n"))
        if isinstance(field, forms.DateField):
            try:
                return day_year(date.fromisoformat(value))
            except ValueError:
                return value
        return f"“{value}”"

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        if self.overtaken:
            self.add_error(None, SAVED)
        for name, saved in self.both.items():
            said = self.in_words(name, saved)
            self.add_error(name, f"Somebody saved {said} here meanwhile. Save again to keep yours.")
        return values


def is_file(field: forms.Field) -> bool:
    return isinstance(field, forms.FileField)


def as_text(value: Any) -> str:
    return "" if value is None else str(value).replace("\r\n", "\n").strip()


def put(data: Any, key: str, value: str, field: forms.Field) -> None:
    if isinstance(field, forms.BooleanField) and not value:
        data.pop(key, None)
    elif hasattr(data, "setlist"):
        data.setlist(key, value.split("\n") if takes_many(field) else [value])
    else:
        data[key] = value


def takes_many(field: forms.Field) -> bool:
    return isinstance(field, forms.MultipleChoiceField | forms.ModelMultipleChoiceField)


def flat(choices: Any) -> Iterator[tuple[str, str]]:
    for value, label in choices:
        if isinstance(label, list | tuple):
            yield from flat(label)
        else:
            yield str(value), str(label)
