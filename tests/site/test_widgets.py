"""The one piece of the framework's forms that is written anew: a choice with many options."""

from __future__ import annotations

from django import forms
from django.template.loader import get_template

CHOICES = [("", "Choose a task"), ("Work", [(1, "Weld “lantern” & frame"), (2, "Sew <skin>")])]


def drawn_by(renderer_template):
    widget = forms.Select(attrs={"id": "before", "required": True}, choices=CHOICES)
    context = widget.get_context("before", 2, {"aria-invalid": "true"})
    return " ".join(renderer_template.render(context).split())


def test_a_choice_says_what_the_framework_would_say():
    ours = get_template("django/forms/widgets/select.html")
    theirs = forms.renderers.DjangoTemplates().get_template("django/forms/widgets/select.html")
    assert ours.origin.name != theirs.origin.name
    assert drawn_by(ours) == drawn_by(theirs)
    assert "selected" in drawn_by(ours)
