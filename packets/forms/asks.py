"""An ask, with its limits."""

from __future__ import annotations

from typing import Any

from django import forms

from packets.forms.counts import CountField
from packets.kinds import KINDS
from packets.models import Ask, Packet
from packets.sections import SECTIONS
from projects.fields import Sentences, ShortText


class AskForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    title = ShortText(
        label="What is asked for", max_length=160, help_text="In the words of the reader's list."
    )
    section = forms.ChoiceField(label="The section that answers it")
    needed = forms.BooleanField(
        label="Needed", required=False, help_text="Leave it open for what is only welcome."
    )
    max_words = CountField(noun="words", most=20_000, label="Words at most")
    min_pictures = CountField(noun="pictures", most=200, label="Pictures at least")
    max_pictures = CountField(noun="pictures", most=200, label="Pictures at most")
    max_pages = CountField(noun="pages", most=500, label="Pages at most")

    class Meta:
        model = Ask
        fields = (
            "title",
            "section",
            "needed",
            "max_words",
            "min_pictures",
            "max_pictures",
            "max_pages",
        )

    def __init__(self, *args: Any, packet: Packet, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        keys = KINDS[packet.kind].sections
        section = self.fields["section"]
        assert isinstance(section, forms.ChoiceField)
        section.choices = [(key, SECTIONS[key].title) for key in keys]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        least, most = cleaned.get("min_pictures"), cleaned.get("max_pictures")
        if least and most and least > most:
            says = f"At most {most} is fewer than at least {least}. Raise this or lower the other."
            self.add_error("max_pictures", says)
        return cleaned
